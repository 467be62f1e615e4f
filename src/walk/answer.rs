//! Answers: what was found, by whom, in which round.

use crate::rules::{Judgement, Outcome, Verdict};
use crate::units::Typed;
use crate::walk::{Moment, Words};

/// One answer to one step. Answers are only ever added.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// When it was given.
    pub at: Moment,
    /// Who did the work.
    pub doer: Words,
    /// Why it was asked.
    pub round: Round,
    /// What was found.
    pub given: Given,
}

/// What was found.
#[derive(Clone, Debug, PartialEq)]
pub enum Given {
    /// A value, read and judged.
    Read {
        /// As typed.
        typed: Typed,
        /// The instrument's id.
        instrument: String,
        /// What it came to, and why.
        judgement: Judgement,
    },
    /// A state, seen by the doer or by another person.
    Seen {
        /// The state's id.
        state: String,
        /// What it means.
        verdict: Verdict,
        /// The other person, for an independent check.
        by: Option<Words>,
    },
}

/// Why a step was asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Round {
    /// For the first time.
    First,
    /// Again, with a finer instrument or better inside the limit.
    MeasuredAgain,
    /// Afresh, after a branch put something right.
    PutRight,
    /// Again, because time or people came between.
    ReLook,
    /// Afresh, because the earlier answer was taken back.
    Correction,
}

impl Round {
    /// Every round with the word used in records.
    pub const WORDS: [(&'static str, Self); 5] = [
        ("first", Self::First),
        ("measured-again", Self::MeasuredAgain),
        ("put-right", Self::PutRight),
        ("re-look", Self::ReLook),
        ("correction", Self::Correction),
    ];
}

impl Given {
    /// Who looked second, where an independent check asked for another person. Who gave a second
    /// reading stands as its doer.
    pub const fn second(&self) -> Option<&Words> {
        match self {
            Self::Seen { by, .. } => by.as_ref(),
            Self::Read { .. } => None,
        }
    }

    /// What it comes to.
    pub fn outcome(&self) -> Outcome {
        match self {
            Self::Read { judgement, .. } => judgement.outcome,
            Self::Seen { verdict, .. } => Outcome::Judged(*verdict),
        }
    }
}
