//! Two managers in the evening: trips that one saw and the other misses are given up and found
//! again, forks are closed, in opposite ways too, and trips are pruned.

use super::Day;
use super::office::OFFICE;
use crate::sim::barn::{MANAGER, OTHER, ROOT, SMALL};
use crate::sim::law::{Finding, Records, broken, judged, of_folder, records};
use hames::cli::clerk::{Books, Which};
use hames::record::Id;
use hames::store::TripFolder;
use hames::walk::Words;
use std::collections::BTreeSet;
use std::path::Path;

/// The laptop of the other manager.
pub(super) const OTHERS: usize = 1;

/// So often a fork may be closed before two managers have to agree.
const ROUNDS: usize = 8;

/// A laptop and one of its numbers.
type Numbered = (Id, u64);

impl Day {
    /// The other manager's laptop is lost, and all that came of it is what was stated there. What
    /// that names is given up; by the end of the evening the laptop is found.
    pub(super) fn is_lost(&mut self) {
        if self.laptops.len() <= OTHERS || !self.has_roster(OTHERS) || !self.dice.in_hundred(50) {
            return;
        }
        self.countersigns_on(OTHERS, OTHER.0);
        let whole = !self.laptops[OFFICE].partial && !self.laptops[OTHERS].partial;
        self.only_its_statements_come(OTHERS);
        for device in self.devices(OFFICE) {
            for (from, to) in self.missing(&device) {
                self.gives_up((&device, from, to));
            }
            let left = self.missing(&device);
            if !left.is_empty() {
                broken(&format!(
                    "{left:?} of {device} are missing and were given up"
                ));
            }
        }
        let found = judged(&self.laptops[OFFICE].disk);
        let gap = found.iter().find(|one| one.finding == Finding::Gap);
        if let Some(gap) = gap.filter(|_| whole && self.restored == 0) {
            broken(&format!("given up, and still a gap: {}", gap.told));
        }
    }

    fn gives_up(&mut self, (device, from, to): (&Id, u64, u64)) {
        self.tell(OFFICE, &format!("{from} to {to} of {device} are given up"));
        let words = Words::read("the laptop is gone").unwrap();
        let kept = self.laptops[OFFICE].keeps(
            |clerk, manager, consent| {
                clerk.accept_loss((device, from, to), &words, (manager, consent))
            },
            false,
        );
        match kept {
            Ok(_) => self.office.given_up += 1,
            Err(why) => broken(&format!("a loss is not accepted: {why}")),
        }
        self.office.kept += 1;
    }

    /// Rows of numbers of a laptop that the office misses.
    fn missing(&self, device: &Id) -> Vec<(u64, u64)> {
        let clerk = self.laptops[OFFICE].window(&SMALL);
        let mut rows: Vec<(u64, u64)> = Vec::new();
        for seq in clerk.missing(device).unwrap().numbers {
            match rows.last_mut() {
                Some((_, to)) if *to + 1 == seq => *to = seq,
                _ => rows.push((seq, seq)),
            }
        }
        rows
    }

    /// Closes every fork: each manager on the laptop that is theirs, before they hear of each other,
    /// and once more where they do not agree.
    pub(super) fn forks_are_closed(&mut self) {
        if self.forks(OFFICE).is_empty() {
            return;
        }
        if !self.has_roster(OFFICE) {
            self.signs_off();
            self.the_stick_goes_round();
        }
        for _ in 0..ROUNDS {
            let Some(fork) = self.forks(OFFICE).into_iter().next() else {
                return;
            };
            self.is_closed(OFFICE, MANAGER, &fork);
            let both = self.laptops.len() > OTHERS && self.forks(OTHERS).contains(&fork);
            if both && self.dice.in_hundred(85) {
                self.is_closed(OTHERS, OTHER.0, &fork);
            }
            self.the_stick_goes_round();
            self.office.opposite += usize::from(self.forks(OFFICE).contains(&fork));
        }
        if let Some((device, seq)) = self.forks(OFFICE).first() {
            broken(&format!("the fork at {seq} of {device} cannot be closed"));
        }
    }

    fn is_closed(&mut self, at: usize, manager: &str, (device, seq): &Numbered) {
        let clerk = self.laptops[at].window(&SMALL);
        let histories = clerk.histories(device, *seq).unwrap();
        let goes_on = self.dice.of(&histories).name.clone();
        self.tell(at, &format!("{manager} goes on with {goes_on}"));
        let words = Words::read("a backup was put back").unwrap();
        let kept = self.laptops[at].keeps_of(
            manager,
            |clerk, manager, consent| {
                clerk.close_fork((device, *seq, &goes_on), &words, (manager, consent))
            },
            false,
        );
        if let Err(why) = kept {
            broken(&format!("a fork is not closed: {why}"));
        }
        self.office.kept += 1;
        self.office.closed += 1;
    }

    /// Every number that two histories have, of which more than one goes on.
    fn forks(&self, at: usize) -> Vec<Numbered> {
        let mut seen: BTreeSet<Numbered> = BTreeSet::new();
        let clerk = self.laptops[at].window(&SMALL);
        let trips = self.trips(at).into_iter();
        let twice = trips.map(|(device, folder)| (device, folder.seq));
        let twice: BTreeSet<Numbered> = twice.filter(|one| !seen.insert(one.clone())).collect();
        let mut open: Vec<Numbered> = twice.into_iter().collect();
        open.retain(|(device, seq)| clerk.histories(device, *seq).is_ok());
        open
    }

    /// Some trips are taken out of the logbook. Everybody hears of it, and takes them out too; all
    /// else stays, and it is as well as before.
    pub(super) fn is_pruned(&mut self) {
        if !self.dice.in_hundred(30) {
            return;
        }
        let mut trips = self.trips(OFFICE);
        trips.retain(|_| self.dice.in_hundred(60));
        let mut clerk = self.laptops[OFFICE].window(self.stock);
        let pruning = clerk.to_prune(&Which::Named(trips), true).unwrap();
        if pruning.goes.is_empty() {
            return;
        }
        self.tell(OFFICE, &format!("{} trips are pruned", pruning.goes.len()));
        let words = Words::read("kept long enough").unwrap();
        let kept = self.laptops[OFFICE].keeps(
            |clerk, manager, consent| clerk.state_pruned(&pruning.goes, &words, (manager, consent)),
            false,
        );
        if let Err(why) = kept {
            broken(&format!("with a good disk, not pruned: {why}"));
        }
        self.office.kept += 1;
        self.office.pruned += pruning.goes.len();
        let removed = self.are_removed(OFFICE);
        let count = removed.iter().filter(|(name, _)| *name == "seal.json");
        if count.count() != pruning.goes.len() {
            broken("pruned, and still there or more than that is gone");
        }
        self.office.removed = removed.clone();
        self.the_stick_goes_round();
        for at in 0..self.laptops.len() {
            if !self.are_removed(at).is_subset(&removed) {
                broken("another trip than was pruned is gone");
            }
        }
        for laptop in &mut self.laptops {
            let gone = |lines: &Vec<u8>| {
                let mut removed = removed.iter();
                removed.any(|(name, bytes)| *name == "trip.jsonl" && bytes.starts_with(lines))
            };
            laptop.told.retain(|_, told| !gone(&told.lines));
        }
        let first = records(&self.laptops[OFFICE].disk);
        for laptop in &self.laptops {
            laptop.hold_to(&laptop.disk);
            if records(&laptop.disk) != first {
                broken("after trips were pruned two laptops do not hold the same");
            }
        }
        self.is_well(OFFICE, true);
    }

    /// The files of pruned trips are removed; what they were.
    fn are_removed(&mut self, at: usize) -> Records {
        let laptop = &self.laptops[at];
        let before = records(&laptop.disk);
        let clerk = laptop.window(&SMALL);
        let left = clerk.left_of_pruned().unwrap();
        let meant: Records = left
            .iter()
            .flat_map(|folder| of_folder(&laptop.disk, &folder.path))
            .collect();
        clerk.remove_pruned().unwrap();
        let after = records(&laptop.disk);
        if before.difference(&after).any(|one| !meant.contains(one)) || !after.is_subset(&before) {
            broken("more than the files of pruned trips is gone");
        }
        meant
    }

    fn trips(&self, at: usize) -> Vec<(Id, TripFolder)> {
        let disk = self.laptops[at].disk.after_death();
        let books = Books::open(&disk, Path::new(ROOT)).unwrap();
        books.trips().unwrap()
    }

    fn devices(&self, at: usize) -> BTreeSet<Id> {
        let clerk = self.laptops[at].window(&SMALL);
        let statements = clerk.statements().unwrap();
        let stated = statements.stated().iter();
        let heads = stated.flat_map(|stated| &stated.statement().heads);
        heads.map(|head| head.device.clone()).collect()
    }

    /// Whether a manager has put a crew file in force there: of two who each do it the crew forks.
    pub(super) fn has_roster(&self, at: usize) -> bool {
        let disk = self.laptops[at].disk.after_death();
        let books = Books::open(&disk, Path::new(ROOT)).unwrap();
        !books.statements().unwrap().roster().revisions().is_empty()
    }
}
