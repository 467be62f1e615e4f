//! A stick: a laptop's logbook is copied onto it as files, perhaps not to its end, and merged on
//! another laptop, perhaps a good while later.

use super::Day;
use crate::sim::barn::ROOT;
use crate::sim::law::{Records, are_among, broken, is_certain, records};
use crate::store::pretend::{Fate, Pretend, Trouble};
use hames::cli::merge::{Merged, Open, Stopped, merge};
use std::path::{Path, PathBuf};

/// What is on the stick.
#[derive(Default)]
pub(super) struct Stick {
    files: Vec<(PathBuf, Vec<u8>)>,
    /// The laptop it was copied from, where it was copied to its end.
    whole: Option<usize>,
    /// The records on it.
    records: Records,
    /// Whether there the rest of something is missing.
    partial: bool,
}

/// Where the stick appears on a laptop.
const STICK: &str = "/stick";

impl Day {
    /// A laptop's logbook comes to this laptop.
    pub(super) fn is_carried_over(&mut self, to: usize) {
        let others: Vec<usize> = (0..self.laptops.len()).filter(|one| *one != to).collect();
        if others.is_empty() {
            return self.at_the_keys(to);
        }
        let from = *self.dice.of(&others);
        if self.stick.files.is_empty() || self.dice.in_hundred(80) {
            let pulled_out = self.dice.in_hundred(25);
            self.is_copied(from, pulled_out);
        }
        if self.dice.in_hundred(25) {
            let calls = usize::try_from(self.dice.below(500)).unwrap();
            let trouble = *self.dice.of(&[Trouble::StopsBefore, Trouble::StopsAfter]);
            self.tell(to, &format!("in {calls} calls {trouble:?}"));
            self.laptops[to].disk.trouble_after(calls, trouble);
            self.mishaps += 1;
        }
        self.is_merged(to);
    }

    /// The logbook is copied onto the stick by hand, keys and all. What the disk may yet lose is not
    /// there to be copied: whoever has a disk that refuses sees to it first.
    pub(super) fn is_copied(&mut self, from: usize, pulled_out: bool) {
        let laptop = &self.laptops[from];
        if !is_certain(&laptop.disk) {
            return;
        }
        let disk = laptop.disk.after_death();
        let partial = laptop.partial || pulled_out;
        let below = |path: PathBuf| path.strip_prefix(ROOT).ok().map(Path::to_owned);
        let names = disk.files().into_iter().filter_map(below);
        let read = |name: PathBuf| {
            let bytes = disk.seen(&Path::new(ROOT).join(&name)).unwrap();
            (name, bytes)
        };
        let mut files: Vec<_> = names.map(read).collect();
        if pulled_out {
            let cut = usize::try_from(self.dice.below(files.len().try_into().unwrap())).unwrap();
            files.truncate(cut + 1);
            let (_, last) = &mut files[cut];
            last.truncate(last.len() / 2);
        }
        self.tell(
            from,
            &format!("its logbook is copied, pulled out: {pulled_out}"),
        );
        self.stick = Stick {
            files,
            whole: (!pulled_out).then_some(from),
            records: records(&disk),
            partial,
        };
    }

    /// Of a laptop nothing comes to the office but what was stated on it, and its crew file.
    pub(super) fn only_its_statements_come(&mut self, from: usize) {
        if !is_certain(&self.laptops[from].disk) {
            self.laptops[from].lose_power(Fate::Kept);
        }
        self.is_copied(from, false);
        self.stick
            .files
            .retain(|(name, _)| !name.starts_with("dev"));
        let stated = ["statement.json", "statement.sig", "allowed_signers"];
        self.stick.records.retain(|(name, _)| stated.contains(name));
        self.stick.partial = true;
        self.is_merged(super::office::OFFICE);
    }

    /// What is on the stick is merged.
    pub(super) fn is_merged(&mut self, to: usize) {
        if self.stick.files.is_empty() {
            return;
        }
        self.tell(to, "the stick is merged");
        let disk = self.laptops[to].disk.clone();
        let before = records(&disk.after_power_loss(Fate::Lost));
        for (name, bytes) in &self.stick.files {
            disk.place(&Path::new(STICK).join(name), bytes);
        }
        let merged = take(&disk);
        if disk.is_dead() {
            self.laptops[to].partial |= !self.stick.records.is_empty();
            self.comes_back(to);
        } else {
            self.is_union(to, &before, merged);
        }
        let disk = &self.laptops[to].disk;
        disk.take_away(Path::new(STICK));
        if let Err(lost) = are_among(&before, &records(disk)) {
            broken(&format!("a merge lost what was there: {lost}"));
        }
    }

    /// What a merge that went through comes to.
    fn is_union(&mut self, to: usize, before: &Records, merged: Result<Merged, Stopped>) {
        let disk = self.laptops[to].disk.clone();
        self.laptops[to].partial |= self.stick.partial;
        let merged = match merged {
            Ok(merged) => merged,
            Err(stopped) => {
                self.tell(to, &stopped.sentence);
                self.laptops[to].partial |= disk.is_troubled();
                // Of the half of a logbook nobody can tell whose it is.
                if !disk.is_troubled() && self.stick.whole.is_some() {
                    broken(&format!("with a good disk: {}", stopped.sentence));
                }
                return disk.mend();
            }
        };
        self.merges += 1;
        disk.mend();
        let mut told = Vec::new();
        merged.as_text(&mut told).unwrap();
        self.tell(to, &String::from_utf8_lossy(&told));
        let in_use = |open: &Open| matches!(open, Open::InUse(_));
        if merged.open.iter().any(in_use) || !merged.refused.is_empty() {
            // It was told what could not be taken, or read.
            self.laptops[to].partial = true;
            return;
        }
        let left = records(&disk.after_power_loss(Fate::Lost));
        let wanted = &self.stick.records - &self.office.removed;
        if self.stick.whole.is_some()
            && let Err(lost) = are_among(&wanted, &left)
        {
            broken(&format!("merged, and may be lost: {lost}"));
        }
        if let Err(lost) = are_among(before, &left) {
            broken(&format!("there before a merge, and may be lost: {lost}"));
        }
        if self.dice.in_hundred(20) {
            let changes = disk.changes();
            match take(&disk) {
                Ok(again) if !again.is_new() && disk.changes() == changes => {}
                other => broken(&format!("a merge repeated changed something: {other:?}")),
            }
        }
        if self.dice.in_hundred(20) {
            self.is_well(to, false);
        }
    }
}

fn take(disk: &Pretend) -> Result<Merged, Stopped> {
    merge(disk, Path::new(ROOT), Path::new(STICK), false)
}
