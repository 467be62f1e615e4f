//! The evening: every laptop is started once more, every trip is brought to its seal, the stick goes
//! round, everybody has everything, and all of it is well.

use super::Day;
use super::backup::has;
use crate::sim::actor;
use crate::sim::barn::ROOT;
use crate::sim::law::{WELL, broken, is_certain, records, verified};
use crate::store::pretend::{Fate, Pretend};
use hames::cli::{Status, verify};
use hames::desk::{Errand, Reply};
use hames::walk::Now;
use std::fs;
use std::path::Path;

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
        self.is_lost();
        self.the_stick_goes_round();
        if self.restored > 0 {
            // A laptop may have got back trips of its own that were not sealed yet.
            for at in 0..self.laptops.len() {
                self.all_is_signed(at);
            }
            self.the_stick_goes_round();
            self.forks_are_closed();
        }
        for at in 0..self.laptops.len() {
            self.laptops[at].hold_to(&self.laptops[at].disk);
            self.has_everything(at);
            // All hold the same, so of the others a part is judged.
            if at == 0 || self.dice.in_hundred(30) {
                self.is_well(at, true);
            }
        }
        self.is_pruned();
        if self.dice.in_hundred(25) {
            is_verified_so(&self.laptops[0].disk);
        }
    }

    /// Every laptop's logbook is merged on the first, and the first's on all others.
    pub(super) fn the_stick_goes_round(&mut self) {
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
        let (here, first) = (records(disk), records(&self.laptops[0].disk));
        if here != first {
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

/// Verification of the whole logbook, as whoever asks for it on a real disk gets it, comes to what
/// the laws were held to.
fn is_verified_so(disk: &Pretend) {
    let home = tempfile::tempdir().unwrap();
    fs::create_dir(home.path().join("dev")).unwrap();
    for path in disk.files() {
        let Ok(below) = path.strip_prefix(ROOT) else {
            continue;
        };
        let there = home.path().join(below);
        fs::create_dir_all(there.parent().unwrap_or(Path::new("/"))).unwrap();
        fs::write(there, disk.seen(&path).unwrap()).unwrap();
    }
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let root = [home.path().to_owned()];
    let status = verify(&root, &[], false, &mut out, &mut err).unwrap();
    let (finding, told) = verified(disk);
    let agree = match status {
        // A trip is intact or not countersigned, which the laws do not tell apart.
        Status::Verified(whole) => whole == finding || whole.max(finding) <= WELL,
        _ => false,
    };
    if !agree {
        let out = String::from_utf8_lossy(&out);
        let err = String::from_utf8_lossy(&err);
        broken(&format!(
            "{status:?}, and the laws find {finding}: {told:?}\n{out}{err}"
        ));
    }
}
