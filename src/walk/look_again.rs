//! Which steps are looked at again because time or people came between.
//!
//! Interruptions of a few seconds already double the errors in keeping one's place (Altmann,
//! Trafton and Hambrick 2014); two minutes is this program's default, no source.

use crate::checklist::{PlannedStep, StepKey};
use crate::walk::{Given, Moment, Status, StepState, Walk, Words};

/// A hold longer than this reopens steps.
const SHORT_HOLD_MS: u64 = 120_000;

/// Whether a walk stood so long that the place in it may be lost.
pub(super) fn is_long(stood_ms: u64) -> bool {
    stood_ms > SHORT_HOLD_MS
}

impl Walk {
    /// After standing from `since` to `at`: what must be looked at again.
    pub(super) fn look_again_after(&self, since: &Moment, at: &Moment) -> Vec<StepKey> {
        if at.restarted_since(since) || is_long(at.since(since)) {
            self.look_again()
        } else {
            Vec::new()
        }
    }

    /// The last completed step and every completed one that can change unseen, in walk order. A
    /// walk entered from paper was walked by then: what its people looked at again stands on the
    /// paper.
    pub(super) fn look_again(&self) -> Vec<StepKey> {
        self.done(|index, planned, _| self.may_have_changed(index, planned))
    }

    /// The same when the work goes over to this person, and every independent check the person
    /// made: of one's own work it is none.
    pub(super) fn look_again_by(&self, doer: &Words) -> Vec<StepKey> {
        self.done(|index, planned, state| {
            let checked = state.answers.last().is_some_and(|answer| {
                let by = match &answer.given {
                    Given::Seen { by, .. } => by.as_ref(),
                    Given::Read { .. } => planned.is_second_reading().then_some(&answer.doer),
                };
                by.is_some_and(|by| by.names_whom(doer.as_str()))
            });
            self.may_have_changed(index, planned) || checked
        })
    }

    fn may_have_changed(&self, index: usize, planned: &PlannedStep) -> bool {
        let moves = planned.step.volatile || self.completed.last() == Some(&index);
        moves && self.paper.is_none()
    }

    /// The completed steps that `which` picks, in walk order.
    fn done(&self, which: impl Fn(usize, &PlannedStep, &StepState) -> bool) -> Vec<StepKey> {
        let steps = self.plan.steps().iter().zip(&self.steps).enumerate();
        steps
            .filter(|(_, (_, state))| matches!(state.status, Status::Done(_)))
            .filter(|(index, (planned, state))| which(*index, planned, state))
            .map(|(_, (planned, _))| planned.key.clone())
            .collect()
    }
}
