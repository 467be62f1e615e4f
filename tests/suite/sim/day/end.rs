//! The evening: every laptop is started once more, every trip is brought to its seal, everybody
//! has everything, and all of it is intact.

use super::Day;
use crate::sim::actor;
use crate::sim::law::{WELL, broken};
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
            self.is_well(at);
            self.all_is_signed(at);
        }
        for from in 0..self.laptops.len() {
            for to in (0..self.laptops.len()).filter(|to| *to != from) {
                self.copy(from, to);
            }
        }
        for at in 0..self.laptops.len() {
            let (finding, faults) = self.laptops[at].verified();
            if finding > WELL {
                let device = self.laptops[at].device;
                broken(&format!("in the end {finding} on {device}: {faults:?}"));
            }
            self.laptops[at].hold_to(&self.laptops[at].disk);
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
