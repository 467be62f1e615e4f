//! What a walk leaves to later ones, and what of earlier ones it closes.

use crate::checklist::{Ask, PlannedStep};
use crate::rules::{Carried, Carry, Outcome, Verdict};
use crate::walk::{Entry, Event, Given, Moment, Walk, Words};

/// One thing a walk changed in what stands open.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// When.
    pub at: Moment,
    /// What, and of which part.
    pub carried: Carried,
    /// Whether it was left or closed.
    pub turn: Turn,
    /// The step, by its key.
    pub step: String,
    /// Who did the work.
    pub doer: Words,
}

/// Whether something was left to later walks, or closed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turn {
    /// It was left.
    Left,
    /// It was closed.
    Closed,
}

impl Walk {
    /// What one event of this walk leaves and closes. An answer leaves what its state or limit
    /// says; one that is ok closes what its step closes; a branch leaves its own once worked
    /// through.
    pub fn changes(&self, entry: &Entry) -> Vec<Change> {
        let (step, doer, left, closed) = match &entry.event {
            Event::Answered {
                step, given, doer, ..
            } => {
                let Some(planned) = self.planned_at(step.as_str()) else {
                    return Vec::new();
                };
                let is_ok = given.outcome() == Outcome::Judged(Verdict::Ok);
                let closed = if is_ok { &planned.step.closes[..] } else { &[] };
                (step, doer, planned.leaves(given), closed)
            }
            Event::PutRight { step, branch, .. } => {
                let left = self.plan().branch(branch).and_then(|branch| branch.leaves);
                (step, &self.doer, left, &[][..])
            }
            _ => return Vec::new(),
        };
        let part = step
            .as_str()
            .split_once('/')
            .map(|(_, part)| part.to_owned());
        let change = |what: Carry, turn| Change {
            at: entry.at.clone(),
            carried: Carried {
                what,
                part: part.clone(),
            },
            turn,
            step: step.to_string(),
            doer: doer.clone(),
        };
        let closed = closed.iter().map(|what| change(*what, Turn::Closed));
        let left = left.map(|what| change(what, Turn::Left));
        closed.chain(left).collect()
    }

    fn planned_at(&self, key: &str) -> Option<&PlannedStep> {
        let mut steps = self.plan().steps().iter();
        steps.find(|planned| planned.key.as_str() == key)
    }
}

impl PlannedStep {
    /// What the state seen, or the limit that decided, leaves.
    pub(crate) fn leaves(&self, given: &Given) -> Option<Carry> {
        match (given, &self.step.ask) {
            (Given::Seen { state, .. }, Ask::Sighting(ask) | Ask::Independent(ask)) => {
                let mut states = ask.states.iter();
                states.find(|known| known.id == *state)?.leaves
            }
            (Given::Read { judgement, .. }, Ask::Reading(ask)) => {
                ask.limits.get(judgement.decided_by?)?.leaves
            }
            _ => None,
        }
    }
}
