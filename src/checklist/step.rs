//! A step: one act on one part of the rig, and the answer that proves it.

use crate::checklist::{Ask, Condition, Test};
use crate::figures::{Each, Fact};
use crate::rig::{Place, ServiceKind};
use crate::rules::Carry;
use std::time::Duration;

/// One step.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Id in records, such as `latch-pin`.
    pub id: String,
    /// The object in two or three words, such as `Latch pin`.
    pub name: String,
    /// What to do, one action.
    pub act: String,
    /// Why it matters, one line.
    pub why: String,
    /// What happens when it is skipped.
    pub skipped: String,
    /// A warning that stands before the act; it holds no action of its own.
    pub warning: Option<String>,
    /// Where on the rig.
    pub place: Place,
    /// Whether a bare look is not enough and no deferral or omission is possible.
    pub critical: bool,
    /// Whether it can change unseen, so that it is looked at again after an absence.
    pub volatile: bool,
    /// Whether expected values stay hidden until the answer is given.
    pub blind: bool,
    /// The time one person who does it takes at the least, where the list says so.
    pub least: Option<Duration>,
    /// Whether it may be put off, and until when.
    pub deferrable: Option<Deferral>,
    /// Whether it is repeated for parts of the rig.
    pub each: Option<Each>,
    /// When it applies; always, where nothing is said.
    pub when: Option<Condition>,
    /// The service an ok answer counts as.
    pub serves: Option<ServiceKind>,
    /// What of an earlier walk an ok answer closes.
    pub closes: Vec<Carry>,
    /// What it asks.
    pub ask: Ask,
}

/// Until when a step may be put off.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Deferral {
    /// The section that cannot be begun while the step is open.
    pub before: String,
}

impl Step {
    /// The fact it tells to the steps behind it.
    pub fn tells(&self) -> Option<Fact> {
        match &self.ask {
            Ask::Reading(ask) => ask.tells,
            Ask::Sighting(_) | Ask::Independent(_) => None,
        }
    }

    /// Whether no walk that has it passes it by: it cannot be put off, and no answer leaves it out.
    pub fn is_always_answered(&self) -> bool {
        let answered = |condition: &Condition| !matches!(condition.test, Test::Rig { .. });
        self.deferrable.is_none() && !self.when.as_ref().is_some_and(answered)
    }
}
