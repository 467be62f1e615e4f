//! What a person can do on a walk.

use crate::checklist::StepKey;
use crate::walk::Ended;

/// One act, as typed and chosen. The machine parses and judges it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Act {
    /// Begin the step that is next.
    Open,
    /// Answer with a value read from an instrument of the rig.
    Read {
        /// What was typed.
        typed: String,
        /// The instrument's id.
        instrument: String,
    },
    /// Answer with a value another person read.
    ReadAs {
        /// The person.
        who: String,
        /// What was typed.
        typed: String,
        /// The instrument's id.
        instrument: String,
    },
    /// Answer with a state that was seen.
    See {
        /// The state's id.
        state: String,
    },
    /// Answer with a state another person saw.
    SeeAs {
        /// The person.
        who: String,
        /// The state's id.
        state: String,
    },
    /// Say why a note can be lived with, and by when it is closed.
    Remark {
        /// The words.
        words: String,
    },
    /// The branch is worked through: say what was put right.
    PutRight {
        /// What was done; a fix may leave it empty, a stop may not.
        words: String,
    },
    /// State that a section is complete.
    CloseSection,
    /// Put the step off.
    Defer {
        /// Why.
        words: String,
    },
    /// Take back an answer, to give another beside it.
    Correct {
        /// The step.
        step: StepKey,
        /// Why.
        words: String,
    },
    /// Write something down.
    Note {
        /// The words.
        words: String,
    },
    /// Leave the walk for a while.
    Hold {
        /// Why, if anything.
        why: String,
        /// What was about to be done, if anything.
        next: String,
    },
    /// Come back from a hold.
    Resume,
    /// Take the walk up again after the program was closed or failed.
    TakeUp,
    /// Give the walk to other people.
    HandOver {
        /// Who reads and types from now on.
        reader: String,
        /// Who does the work from now on.
        doer: String,
    },
    /// Stop: something is not clear.
    Unsure {
        /// What, if anything.
        words: String,
    },
    /// Say how the unclear thing was settled.
    Settle {
        /// How.
        words: String,
    },
    /// End the walk.
    End {
        /// As what.
        outcome: Ended,
        /// Why; only a complete walk may leave it empty.
        words: String,
    },
}
