//! Why a checklist cannot be laid on a rig.

use crate::figures::NotKnown;
use crate::rig::InstrumentKind;
use crate::units::Quantity;
use std::fmt;

/// Why a checklist cannot be laid on a rig.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Gap {
    /// It is for other kinds of rig.
    OtherKind {
        /// The rig's kind.
        rig: &'static str,
        /// The checklist's title.
        checklist: String,
    },
    /// A step needs a figure this rig does not have.
    Figure {
        /// The step.
        step: String,
        /// What is missing.
        missing: NotKnown,
    },
    /// No instrument of the rig suits a step.
    NoInstrument {
        /// The step.
        step: String,
        /// What it is measured with.
        wanted: InstrumentKind,
        /// The value aimed at.
        target: Option<Quantity>,
    },
    /// The limits of a step leave less open than every fitting instrument may be wrong by.
    NeverPasses {
        /// The step.
        step: String,
        /// What it is measured with.
        wanted: InstrumentKind,
    },
}

impl fmt::Display for Gap {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OtherKind { rig, checklist } => {
                write!(
                    f,
                    "“{checklist}” is not for a {rig} rig; choose a checklist that is"
                )
            }
            Self::Figure { step, missing } => {
                write!(f, "step {step}: {missing}; {}", way_out(missing))
            }
            Self::NoInstrument {
                step,
                wanted,
                target,
            } => {
                write!(f, "step {step}: no {} of this rig", wanted.word())?;
                if let Some(target) = target {
                    write!(f, " is trusted at {target}")?;
                }
                f.write_str("; add a fitting one to the rig file")
            }
            Self::NeverPasses { step, wanted } => write!(
                f,
                "step {step}: no reading of a {} of this rig can pass, since its limits leave \
                 less open than the instrument may be wrong by; add a finer one to the rig file, \
                 or mend the limits",
                wanted.word()
            ),
        }
    }
}

/// What to do about a figure that is not known.
fn way_out(missing: &NotKnown) -> String {
    match missing {
        NotKnown::NotOnThisRig(_) | NotKnown::Undescribed(..) => {
            "describe it in the rig file".to_owned()
        }
        NotKnown::NeedsItem(..) => "mend the checklist".to_owned(),
        NotKnown::Unread(_, fact) => format!(
            "have an earlier step tell {}, or give the limit a rule of thumb with `or`",
            fact.word()
        ),
        NotKnown::NotAnswered(step) => format!(
            "name a step before it that is always read, or give the limit beside {step} an `or`"
        ),
        NotKnown::NoNumber(..) => {
            "mend the rig file, or give the limit a rule of thumb with `or`".to_owned()
        }
    }
}
