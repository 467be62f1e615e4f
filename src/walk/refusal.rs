//! Why an act is refused: the reason and the next step, as facts; the sentence is made here.

use crate::figures::NotKnown;
use crate::rules::Unsuitable;
use crate::units::{NotAQuantity, Quantity};
use crate::walk::{Ended, NotWords};
use std::fmt;

/// Why an act is refused. Nothing was recorded.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// The walk has ended.
    Ended(Ended),
    /// The walk is held.
    Held,
    /// Something is not clear and must be settled first.
    Unsure,
    /// The walk is not held.
    NotHeld,
    /// Nothing is unclear.
    NotUnsure,
    /// No step is next: a step is open, or a section wants to be closed.
    NothingToOpen,
    /// No step is open to be answered.
    NothingOpen,
    /// The open step is answered in another way.
    OtherAsk {
        /// How it is answered.
        wanted: &'static str,
    },
    /// What was typed is no quantity of the kind asked for.
    NotAQuantity(NotAQuantity),
    /// What the reading is held to cannot be drawn.
    NoLimit(NotKnown),
    /// The rig has no such instrument.
    NoInstrument(String),
    /// The instrument does not suit this step.
    Unsuitable(Unsuitable),
    /// The instrument's scale does not reach the reading.
    OffScale {
        /// The instrument's name.
        name: String,
        /// The reading.
        reading: Quantity,
        /// Lowest value it is trusted at.
        low: Quantity,
        /// Highest value it is trusted at.
        high: Quantity,
    },
    /// The step has no such state.
    NoState(String),
    /// The second person is the one who did the work.
    SamePerson(String),
    /// The second reading would be made by someone who typed the first and has seen it.
    HasSeen(String),
    /// What names the second person could be the name of somebody who did the work or typed.
    CouldBe {
        /// As typed.
        typed: String,
        /// Whose name it could be.
        other: String,
    },
    /// What names the second person is no whole name, and nobody of the crew.
    NotWhole(String),
    /// Words are missing or cannot be kept.
    Words {
        /// What they are for.
        purpose: &'static str,
        /// What is wrong with them.
        fault: NotWords,
    },
    /// No branch is open.
    NoBranch,
    /// The branch ends the trip; it cannot be put right here.
    BranchEndsTrip,
    /// No note waits for words.
    NoRemark,
    /// The section is not complete.
    SectionOpen,
    /// The step may not be put off.
    NotDeferrable {
        /// The step.
        name: String,
        /// Whether it is critical.
        critical: bool,
    },
    /// The step was never answered, or is being worked on.
    NothingToCorrect(String),
    /// A bad answer is open and comes first.
    BranchFirst,
    /// The same people already have the walk.
    SamePeople,
    /// A walk with something open cannot end complete.
    NotComplete {
        /// Steps without an answer.
        unanswered: usize,
        /// Steps put off.
        deferred: usize,
        /// Fix or stop not put right, or a note without words.
        open: usize,
    },
}

impl Refusal {
    /// Whether it is the second person who cannot be that, so that another is to be named.
    pub const fn is_of_second(&self) -> bool {
        matches!(
            self,
            Self::SamePerson(_) | Self::HasSeen(_) | Self::CouldBe { .. } | Self::NotWhole(_)
        )
    }
}

impl From<NotAQuantity> for Refusal {
    fn from(error: NotAQuantity) -> Self {
        Self::NotAQuantity(error)
    }
}

impl From<Unsuitable> for Refusal {
    fn from(error: Unsuitable) -> Self {
        Self::Unsuitable(error)
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Ended(outcome) => {
                write!(f, "This walk has ended as {}. Begin a new one.", outcome.word())
            }
            Self::Held => f.write_str("The walk is on hold. Resume it first."),
            Self::Unsure => {
                f.write_str("The walk is stopped because something is not clear. Say how it was settled first.")
            }
            Self::NotHeld => f.write_str("The walk is not on hold. Go on with the step shown."),
            Self::NotUnsure => f.write_str("Nothing is marked as unclear. Go on with the step shown."),
            Self::NothingToOpen => f.write_str("No step is waiting to be begun. Finish what is shown first."),
            Self::NothingOpen => f.write_str("No step is open. Begin the next step, then answer it."),
            Self::OtherAsk { wanted } => write!(f, "This step is answered with {wanted}."),
            Self::NotAQuantity(error) => write!(f, "Not a reading: {error}."),
            Self::NoLimit(missing) => write!(
                f,
                "This reading could not be judged: {missing}. Put that right, or end the walk as \
                 incomplete."
            ),
            Self::NoInstrument(id) => {
                write!(f, "This rig has no instrument “{id}”. Choose one of those listed.")
            }
            Self::Unsuitable(error) => write!(f, "{error}"),
            Self::OffScale { name, reading, low, high } => write!(
                f,
                "{name} is trusted from {low} to {high} and cannot give {reading}. \
                 Choose another instrument, or read it again."
            ),
            Self::NoState(state) => {
                write!(f, "“{state}” is not one of the states of this step. Choose one shown.")
            }
            Self::HasSeen(name) => write!(
                f,
                "{name} typed the first reading and has seen it. Name another person, or take back \
                 that a second person is here."
            ),
            Self::SamePerson(name) => write!(
                f,
                "{name} did the work and cannot be the second pair of eyes. Ask another person."
            ),
            Self::CouldBe { typed, other } => write!(
                f,
                "“{typed}” could be {other}; type the whole name of the other person."
            ),
            Self::NotWhole(typed) => write!(
                f,
                "“{typed}” is no whole name; type the first and the last name of the other person."
            ),
            Self::Words { purpose, fault } => write!(f, "Type {purpose}: {fault}."),
            Self::NoBranch => f.write_str("Nothing is open to be put right. Go on with the step shown."),
            Self::BranchEndsTrip => f.write_str(
                "This cannot be put right here. End the trip as not fit to go, or hold it and call.",
            ),
            Self::NoRemark => f.write_str("No note waits for words. Go on with the step shown."),
            Self::SectionOpen => f.write_str("The section is not complete. Answer its steps first."),
            Self::NotDeferrable { name, critical: true } => {
                write!(f, "{name} is critical and cannot be put off. Do it now, or hold the walk.")
            }
            Self::NotDeferrable { name, critical: false } => {
                write!(f, "{name} cannot be put off. Do it now, or hold the walk.")
            }
            Self::NothingToCorrect(step) => {
                write!(f, "“{step}” has no finished answer to take back. Choose a step that is done.")
            }
            Self::BranchFirst => f.write_str("A bad answer is open. Put it right or end the trip first."),
            Self::SamePeople => f.write_str("These people already have the walk. Name someone else."),
            Self::NotComplete { unanswered, deferred, open } => write!(
                f,
                "Not complete: {unanswered} without an answer, {deferred} put off, {open} open. \
                 Finish them, or end the walk as incomplete."
            ),
        }
    }
}
