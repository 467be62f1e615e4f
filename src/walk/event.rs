//! What happened. One event is one line of the journal.

use crate::checklist::StepKey;
use crate::rules::Doubt;
use crate::units::Typed;
use crate::walk::{Given, Moment, Round, Words};

/// An event with when it happened and who was at the keys.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// When.
    pub at: Moment,
    /// Who read and typed.
    pub actor: Words,
    /// What.
    pub event: Event,
}

/// What happened on a walk.
#[derive(Clone, Debug, PartialEq)]
pub enum Event {
    /// A step was begun.
    Opened {
        /// The step.
        step: StepKey,
    },
    /// A reading looked like a slip and is asked once more.
    Doubted {
        /// The step.
        step: StepKey,
        /// As typed.
        typed: Typed,
        /// The instrument's id.
        instrument: String,
        /// Why it is doubted.
        doubt: Doubt,
    },
    /// A step was answered.
    Answered {
        /// The step.
        step: StepKey,
        /// Who did the work.
        doer: Words,
        /// Why it was asked.
        round: Round,
        /// What was found.
        given: Given,
    },
    /// A note was explained.
    Remarked {
        /// The step.
        step: StepKey,
        /// The words.
        words: Words,
    },
    /// A branch was worked through; the step is asked afresh.
    PutRight {
        /// The step.
        step: StepKey,
        /// The branch.
        branch: String,
        /// What was done.
        words: Option<Words>,
    },
    /// A section was stated to be complete.
    SectionClosed {
        /// The section.
        section: String,
    },
    /// A step was put off.
    Deferred {
        /// The step.
        step: StepKey,
        /// The section that cannot begin before it is done.
        before: String,
        /// Why.
        words: Words,
    },
    /// An answer was taken back; the step is asked afresh and the old answer stays.
    Corrected {
        /// The step.
        step: StepKey,
        /// Why.
        words: Words,
    },
    /// Something was written down.
    Noted {
        /// The words.
        words: Words,
    },
    /// The walk was left for a while.
    Held {
        /// Why.
        why: Option<Words>,
        /// What was about to be done.
        next: Option<Words>,
    },
    /// The walk was taken up again.
    Resumed {
        /// After what.
        after: After,
        /// How long it stood, in milliseconds.
        stood_ms: u64,
        /// The steps to be looked at again.
        look_again: Vec<StepKey>,
    },
    /// Other people took over.
    HandedOver {
        /// Who reads and types.
        reader: Words,
        /// Who does the work.
        doer: Words,
        /// The steps to be looked at again.
        look_again: Vec<StepKey>,
    },
    /// Something was not clear and the walk was stopped.
    Unsure {
        /// What.
        words: Option<Words>,
    },
    /// The unclear thing was settled.
    Settled {
        /// How.
        words: Words,
        /// How long it stood, in milliseconds.
        stood_ms: u64,
        /// The steps to be looked at again.
        look_again: Vec<StepKey>,
    },
    /// The walk ended.
    Ended {
        /// As what.
        outcome: Ended,
        /// Why.
        words: Option<Words>,
    },
}

/// What a walk is taken up again after.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum After {
    /// A hold.
    Hold,
    /// The program was closed or failed.
    Restart,
}

impl After {
    /// Both with their words.
    pub const WORDS: [(&'static str, Self); 2] = [("hold", Self::Hold), ("restart", Self::Restart)];
}

/// As what a walk ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Ended {
    /// Every step answered, nothing open.
    Complete,
    /// Left before the end.
    Incomplete,
    /// Something was found that could not be put right here.
    NotFitToGo,
    /// Given up and closed later.
    Abandoned,
}

impl Ended {
    /// Every outcome with its word.
    pub const WORDS: [(&'static str, Self); 4] = [
        ("complete", Self::Complete),
        ("incomplete", Self::Incomplete),
        ("not-fit-to-go", Self::NotFitToGo),
        ("abandoned", Self::Abandoned),
    ];

    /// The word used in records.
    pub fn word(self) -> &'static str {
        Self::WORDS
            .iter()
            .find(|(_, outcome)| *outcome == self)
            .map_or("", |(word, _)| word)
    }
}
