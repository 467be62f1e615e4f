//! What was read on a rig before, step by step.

use crate::checklist::StepKey;
use crate::logbook::readings;
use crate::record::{Id, Verified};
use crate::rules::Outcome;
use crate::units::Typed;
use crate::walk::Walk;
use chrono::{DateTime, FixedOffset};
use std::collections::BTreeMap;
use std::sync::Arc;

/// The readings of a rig's trips, as they stood at the end of each.
#[derive(Clone, Debug, Default)]
pub struct Past(BTreeMap<StepKey, Vec<(Arc<Id>, Earlier)>>);

/// An earlier reading.
#[derive(Clone, Debug, PartialEq)]
pub struct Earlier {
    /// When; of a walk on paper, when that was walked.
    pub at: DateTime<FixedOffset>,
    /// As typed.
    pub typed: Typed,
    /// What it came to.
    pub outcome: Outcome,
}

impl Past {
    /// Takes in a trip of the rig, in any order.
    pub fn take(&mut self, trip: &Verified, walk: &Walk) {
        let id = Arc::new(trip.begun().trip.clone());
        for read in readings(walk, trip).filter(|read| !read.replaced) {
            let earlier = Earlier {
                at: walk.paper().copied().unwrap_or(read.at.wall),
                typed: read.typed.clone(),
                outcome: read.judgement.outcome,
            };
            let of_step = self.0.entry(read.key.clone()).or_default();
            of_step.push((Arc::clone(&id), earlier));
        }
    }

    /// The last readings of a step that other trips have before this one began, the newest first.
    pub fn before(
        &self,
        step: &StepKey,
        (trip, began): (&Id, &DateTime<FixedOffset>),
        most: usize,
    ) -> Vec<&Earlier> {
        let all = self.0.get(step).map(Vec::as_slice).unwrap_or_default();
        let others = all.iter().filter(|(of, _)| **of != *trip);
        let before = others.map(|(_, earlier)| earlier);
        let mut before: Vec<&Earlier> = before.filter(|one| one.at < *began).collect();
        before.sort_by_key(|one| std::cmp::Reverse(one.at));
        before.truncate(most);
        before
    }
}
