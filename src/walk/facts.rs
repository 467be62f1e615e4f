//! The facts of the day as the standing answers tell them, and the steps held to them.

use crate::checklist::PlannedStep;
use crate::figures::{Facts, Today};
use crate::walk::{Given, Status, Walk};
use std::borrow::Cow;

impl Walk {
    /// What was read so far of what figures rest on. An answer taken back, or asked for again,
    /// tells nothing until it is given afresh.
    pub fn facts(&self) -> Facts {
        let steps = self.plan.steps().iter().zip(&self.steps);
        let standing = steps.filter(|(_, state)| matches!(state.status, Status::Done(_)));
        standing.fold(Facts::default(), |facts, (planned, state)| {
            let given = state.answers.last().map(|answer| &answer.given);
            let facts = match given {
                Some(Given::Read { typed, .. }) => {
                    facts.and_read(planned.key.as_str(), typed.quantity().clone())
                }
                _ => facts,
            };
            match (planned.step.tells(), given) {
                (
                    Some(fact),
                    Some(Given::Read {
                        typed, judgement, ..
                    }),
                ) => {
                    let (low, high) = (judgement.band.low.clone(), judgement.band.high.clone());
                    facts.between(fact, typed.quantity().clone(), low, high)
                }
                _ => facts,
            }
        })
    }

    /// A planned step as it is asked now: its target and limits drawn with the facts read so far.
    /// What was judged before stays as it was judged.
    pub fn asked(&self, index: usize) -> Option<Cow<'_, PlannedStep>> {
        let planned = self.plan.steps().get(index)?;
        if !planned.rests_on_facts() {
            return Some(Cow::Borrowed(planned));
        }
        let (rig, facts) = (self.plan.rig(), &self.facts());
        Some(Cow::Owned(planned.on(&Today { rig, facts })))
    }
}
