//! What a learner can do in a drill, what was done, and why something cannot be done now.

use crate::checklist::StepKey;
use crate::drill::Vantage;
use crate::rules::Verdict;
use crate::units::Quantity;
use crate::walk::{Act, Entry, Event, Moment, Refusal, Words};
use std::fmt;

/// What a learner can do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Doing {
    /// Look at the open step from there.
    Look(Vantage),
    /// Put an instrument to it, by its id.
    Use(String),
    /// Say what its reading comes to, before it is judged.
    Call(Verdict),
    /// Say at which step the work goes on after being called away.
    Return(StepKey),
    /// Say, once all is done, what to do otherwise next time.
    Learn(Words),
    /// An act of the walk.
    Walk(Act),
}

/// What was done.
#[derive(Clone, Debug, PartialEq)]
pub enum Did {
    /// Something that there is in drills alone.
    Drilled(Drilled),
    /// Something happened on the walk.
    Walked(Box<Event>),
}

/// What a drill has and a walk has not. It comes before an answer and changes none.
#[derive(Clone, Debug, PartialEq)]
pub enum Drilled {
    /// A step was looked at from there.
    Looked(StepKey, Vantage),
    /// An instrument was put to a step and showed this.
    Used {
        /// The step.
        step: StepKey,
        /// The instrument's id.
        instrument: String,
        /// What it showed.
        showed: Quantity,
    },
    /// A reading was called so.
    Called(StepKey, Verdict),
    /// The work was said to go on at this step.
    Returned(StepKey),
    /// What the learner will do otherwise next time.
    Learned(Words),
}

/// One line of a drill.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// When.
    pub at: Moment,
    /// What.
    pub did: Did,
}

impl Line {
    /// An event of the walk as a line of the drill.
    pub fn of(entry: &Entry) -> Self {
        Self {
            at: entry.at.clone(),
            did: Did::Walked(Box::new(entry.event.clone())),
        }
    }
}

/// Why something cannot be done now.
#[derive(Clone, Debug, PartialEq)]
pub enum NotInDrill {
    /// The walk refuses it.
    Walk(Refusal),
    /// Somebody or something calls the learner away.
    CalledAway(String),
    /// It is asked first at which step the work goes on.
    SayWhere,
    /// There was nothing to come back from.
    NeverLeft,
    /// There is no such step here.
    NoSuchStep(StepKey),
    /// No step is open.
    NothingOpen,
    /// The open step cannot be looked at from there.
    NotFromThere(Vantage, Vec<Vantage>),
    /// The rig has no such instrument for it.
    NoSuchInstrument(String),
    /// The step asks for no reading.
    NoReading,
    /// The reading is called before it is typed.
    CallFirst,
    /// What was learned is said once, when every step is done.
    NotYetLearned,
}

impl fmt::Display for NotInDrill {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Walk(refusal) => refusal.fmt(f),
            Self::CalledAway(what) => write!(f, "{what} Hold the walk first, and see to it"),
            Self::SayWhere => f.write_str("Say first at which step the work goes on"),
            Self::NeverLeft => f.write_str("Nobody was called away; go on with the open step"),
            Self::NoSuchStep(step) => {
                write!(f, "This drill has no step {step}; choose one of its own")
            }
            Self::NothingOpen => f.write_str(
                "There is nothing to look at or measure now; answer what is asked, and the next \
                 step opens",
            ),
            Self::NotFromThere(from, places) => {
                let places: Vec<&str> = places.iter().map(|place| place.word()).collect();
                let told = if places.is_empty() {
                    "it is measured: use".to_owned()
                } else {
                    format!("look {}", places.join(", or look "))
                };
                write!(f, "This step does not show to look {}; {told}", from.word())
            }
            Self::NoSuchInstrument(tool) => {
                write!(
                    f,
                    "{tool} does not measure this; take an instrument of this step"
                )
            }
            Self::NoReading => f.write_str("This step asks what is seen; look at it"),
            Self::CallFirst => {
                f.write_str("Say first what this reading comes to: ok, note, fix or stop")
            }
            Self::NotYetLearned => f.write_str(
                "What to do otherwise is said once, when every step is done; go on with the drill",
            ),
        }
    }
}
