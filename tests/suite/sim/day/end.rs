//! The evening: every laptop is started once more, every trip is brought to its seal, the stick goes
//! round, everybody has everything, and all of it is well.

use super::Day;
use super::backup::has;
use crate::sim::actor;
use crate::sim::law::{broken, is_certain, records};
use crate::store::pretend::Fate;
use hames::desk::{Errand, Reply};
use hames::walk::Now;

impl Day {
    pub(super) fn ends(&mut self) {
        for at in 0..self.laptops.len() {
            self.laptops[at].disk.mend();
            if self.laptops[at].disk.is_dead() || self.dice.in_hundred(50) {
                self.comes_back(at);
            } else {
                self.is_killed(at);
            }
            self.is_well(at, false);
            self.all_is_signed(at);
        }
        self.the_stick_goes_round();
        if self.restored > 0 {
            // A laptop may have got back trips of its own that were not sealed yet.
            for at in 0..self.laptops.len() {
                self.all_is_signed(at);
            }
            self.the_stick_goes_round();
        }
        for at in 0..self.laptops.len() {
            self.laptops[at].hold_to(&self.laptops[at].disk);
            self.is_well(at, true);
            self.has_everything(at);
        }
    }

    /// Every laptop's logbook is merged on the first, and the first's on all others.
    fn the_stick_goes_round(&mut self) {
        for from in 1..self.laptops.len() {
            self.is_brought(from, 0);
        }
        for to in 1..self.laptops.len() {
            self.is_brought(0, to);
        }
    }

    fn is_brought(&mut self, from: usize, to: usize) {
        if !is_certain(&self.laptops[from].disk) {
            // Started once more and written to, it is.
            self.laptops[from].lose_power(Fate::Kept);
        }
        self.is_copied(from, false);
        self.is_merged(to);
    }

    /// The first laptop has all that was ever called recorded, and the others the same.
    fn has_everything(&self, at: usize) {
        let disk = &self.laptops[at].disk;
        for (device, folder, told) in self.all_told() {
            let (lines, seal) = has(disk, device, folder.seq, told);
            if !lines || !(seal || told.seal.is_empty()) {
                let here = self.laptops[at].device;
                broken(&format!(
                    "{} of {device} is not on {here}",
                    folder.path.display()
                ));
            }
        }
        if records(disk) != records(&self.laptops[0].disk) {
            let (here, first) = (records(disk), records(&self.laptops[0].disk));
            let differ = here.symmetric_difference(&first);
            let differ: Vec<_> = differ
                .map(|(name, text)| (name, String::from_utf8_lossy(text)))
                .collect();
            broken(&format!("two laptops do not hold the same: {differ:?}"));
        }
    }

    fn all_is_signed(&mut self, at: usize) {
        self.laptops[at].open(self.stock);
        let barn = self.laptops[at].look_around().unwrap();
        for card in barn.unfinished {
            let trip = card.trip;
            self.tell(at, &format!("{trip} is taken up in the evening"));
            let reply = self.laptops[at].perform(Errand::TakeUp { trip });
            let Reply::Walking { walk, .. } = reply else {
                broken(&format!("a trip cannot be taken up: {reply:?}"));
            };
            if !matches!(walk.now(), Now::Ended(_)) {
                let end = actor::end(&walk, &mut self.dice);
                let reply = self.laptops[at].act(end);
                if !matches!(reply, Reply::Recorded(_)) {
                    broken(&format!("a trip cannot be ended: {reply:?}"));
                }
            }
            self.signs(at);
        }
        let barn = self.laptops[at].look_around().unwrap();
        if !barn.unfinished.is_empty() {
            broken("a trip is not sealed in the evening");
        }
        self.laptops[at].close();
    }
}
