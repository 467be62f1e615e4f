//! What was read on a rig before, step by step.

use crate::checklist::StepKey;
use crate::logbook::readings;
use crate::record::Verified;
use crate::rules::Outcome;
use crate::units::Typed;
use crate::walk::Walk;
use chrono::{DateTime, FixedOffset};
use std::collections::BTreeMap;

/// The readings of a rig's trips, as they stood at the end of each.
#[derive(Clone, Debug, Default)]
pub struct Past(BTreeMap<StepKey, Vec<Earlier>>);

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
        for read in readings(walk, trip).filter(|read| !read.replaced) {
            self.0.entry(read.key.clone()).or_default().push(Earlier {
                at: walk.paper().copied().unwrap_or(read.at.wall),
                typed: read.typed.clone(),
                outcome: read.judgement.outcome,
            });
        }
    }

    /// The last readings of a step before a moment, the newest first.
    pub fn before(&self, step: &StepKey, at: &DateTime<FixedOffset>, most: usize) -> Vec<&Earlier> {
        let all = self.0.get(step).map(Vec::as_slice).unwrap_or_default();
        let mut before: Vec<&Earlier> = all.iter().filter(|one| one.at < *at).collect();
        before.sort_by_key(|one| std::cmp::Reverse(one.at));
        before.truncate(most);
        before
    }
}
