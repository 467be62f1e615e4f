//! One scenario under the linter, and the order its rules are asked in.

use crate::document::Document;
use crate::drill::check::{Known, Remark, calls, fit, names, shows, steps, words};
use crate::drill::{Differs, Drill, Passage, Scenario, Sights, Unplayable};
use std::sync::Arc;

/// The dice of every drill that is played here. An instrument's error falls by them; a scenario
/// that only holds by some dice is not held here but where all are thrown.
const SEED: u64 = 7;

/// A scenario, and where it stands in its file.
pub(super) struct Case<'c> {
    at: usize,
    pub(super) scenario: &'c Arc<Scenario>,
    pub(super) known: &'c Known,
    sights: Arc<Sights>,
}

impl<'c> Case<'c> {
    pub(super) fn new(
        at: usize,
        scenario: &'c Arc<Scenario>,
        known: &'c Known,
        sights: Arc<Sights>,
    ) -> Self {
        Self {
            at,
            scenario,
            known,
            sights,
        }
    }

    /// The path of a key of it.
    pub(super) fn key(&self, key: &str) -> String {
        format!("scenarios[{}].{key}", self.at)
    }

    /// How the rig differs: always, and by each fault, with the path of each.
    pub(super) fn differs(&self) -> Vec<(String, &Differs)> {
        let always = (self.key("always"), &self.scenario.always);
        let faults = self.scenario.faults.iter().enumerate();
        let faults = faults.map(|(at, fault)| (self.key(&format!("faults[{at}]")), &fault.differs));
        std::iter::once(always).chain(faults).collect()
    }

    /// Everything the rules remark on, in no order.
    pub(super) fn remarks(&self) -> Vec<Remark> {
        let mut remarks = names::remarks(self);
        let (list, rig) = (&self.scenario.list, &self.scenario.rig);
        let (Some(list), Some(rig)) = (self.known.list(list), self.known.rig(rig)) else {
            return remarks;
        };
        if !remarks.is_empty() {
            return remarks;
        }
        let passage = match Passage::lay(self.scenario, list, rig) {
            Ok(passage) => passage,
            Err(not) => return fit::unfit(self, &not),
        };
        if let Ok(document) = Document::parse(rig) {
            remarks.extend(fit::values(self, &document.tree()));
        }
        remarks.extend(steps::remarks(self, passage.plan(), &list.checklist));
        remarks.extend(words::remarks(self, passage.plan()));
        let played = self.plays(&passage, &remarks);
        remarks.extend(played);
        remarks
    }

    /// What comes out when it is played: as it always is, then with each fault that has nothing
    /// wrong with it so far.
    fn plays(&self, passage: &Passage, so_far: &[Remark]) -> Vec<Remark> {
        let is_sound = |part: &str| !so_far.iter().any(|one| one.path.starts_with(part));
        if !is_sound(&self.key("always")) {
            return Vec::new();
        }
        let good = match self.drill(passage, None) {
            Ok(drill) => drill,
            Err(not) => return fit::unreadable(&self.key("always.rig"), &not),
        };
        let mut remarks = Vec::new();
        if is_sound(&self.key("good")) {
            remarks.extend(calls::of_good(self, &good));
        }
        for (at, fault) in self.scenario.faults.iter().enumerate() {
            let part = self.key(&format!("faults[{at}]"));
            if !is_sound(&part) {
                continue;
            }
            let drill = match self.drill(passage, Some(at)) {
                Ok(drill) => drill,
                Err(not) => {
                    remarks.extend(fit::unreadable(&format!("{part}.rig"), &not));
                    continue;
                }
            };
            if let Some(hidden) = shows::hidden(&part, &good, &drill) {
                remarks.push(hidden);
                continue;
            }
            remarks.extend(shows::alike(&part, fault, &drill, &self.sights));
            remarks.extend(calls::of_fault(&part, fault, &drill));
        }
        remarks
    }

    fn drill(&self, passage: &Passage, fault: Option<usize>) -> Result<Arc<Drill>, Unplayable> {
        let (scenario, sights) = (Arc::clone(self.scenario), Arc::clone(&self.sights));
        Drill::with(scenario, passage.clone(), sights, (SEED, fault)).map(Arc::new)
    }
}
