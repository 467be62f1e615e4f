//! Which steps are looked at again because time or people came between.
//!
//! Interruptions of a few seconds already double the errors in keeping one's place (Altmann,
//! Trafton and Hambrick 2014); two minutes is this program's default, no source.

use crate::checklist::StepKey;
use crate::walk::{Moment, Status, Walk};

/// A hold longer than this reopens steps.
const SHORT_HOLD_MS: u64 = 120_000;

impl Walk {
    /// After standing from `since` to `at`: what must be looked at again.
    pub(super) fn look_again_after(&self, since: &Moment, at: &Moment) -> Vec<StepKey> {
        if at.restarted_since(since) || at.since(since) > SHORT_HOLD_MS {
            self.look_again()
        } else {
            Vec::new()
        }
    }

    /// The last completed step and every completed one that can change unseen, in walk order.
    pub(super) fn look_again(&self) -> Vec<StepKey> {
        let last = self.completed.last().copied();
        let steps = self.plan.steps().iter().zip(&self.steps).enumerate();
        steps
            .filter(|(index, (planned, state))| {
                let done = matches!(state.status, Status::Done(_));
                done && (planned.step.volatile || last == Some(*index))
            })
            .map(|(_, (planned, _))| planned.key.clone())
            .collect()
    }
}
