//! A backup of a laptop, and what is put back from it: its own newest trips are gone from it then.

use super::Day;
use super::office::OFFICE;
use crate::sim::barn::ROOT;
use crate::sim::laptop::Told;
use crate::sim::law::is_certain;
use crate::store::pretend::{Image, Pretend};
use hames::store::TripFolder;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// A laptop's disk as it was, and what had been called recorded on it.
pub(super) struct Backup {
    image: Image,
    told: BTreeMap<TripFolder, Told>,
    kept: BTreeMap<PathBuf, Vec<u8>>,
}

/// What was called recorded, and lies on other laptops alone since.
pub(super) struct Elsewhere {
    device: &'static str,
    folder: TripFolder,
    told: Told,
}

impl Day {
    /// The disk is copied as a whole. The manager's laptop is left out: a manager who signs on from
    /// an old copy of the logbook contradicts themselves, and no later merge can mend that.
    pub(super) fn is_backed_up(&mut self, at: usize) {
        let laptop = &self.laptops[at];
        if at == 0 || laptop.disk.is_troubled() || !is_certain(&laptop.disk) {
            return;
        }
        self.tell(at, "a backup is made");
        let laptop = &self.laptops[at];
        self.backups[at] = Some(Backup {
            image: laptop.disk.image(),
            told: laptop.told.clone(),
            kept: laptop.kept.clone(),
        });
    }

    /// The disk is put back as it was, often after the stick took away what had come since; and then
    /// the next trip is begun there.
    pub(super) fn a_backup_is_put_back(&mut self, at: usize) {
        if self.backups[at].is_none() || self.laptops[at].disk.is_dead() {
            return;
        }
        let walks_on = self.dice.in_hundred(60);
        if walks_on {
            self.at_the_keys(at);
            self.is_copied(at, false);
            self.is_merged(OFFICE);
        }
        self.is_put_back(at);
        if walks_on {
            self.at_the_keys(at);
        }
    }

    /// What no other laptop has is lost then, and nobody can help it.
    fn is_put_back(&mut self, at: usize) {
        let Some(backup) = self.backups[at].take() else {
            return;
        };
        self.tell(at, "a backup is put back");
        let laptop = &mut self.laptops[at];
        laptop.close();
        let told = std::mem::replace(&mut laptop.told, backup.told);
        let device = laptop.device;
        laptop.disk = Pretend::with(backup.image);
        laptop.kept = backup.kept;
        laptop.restored = true;
        laptop.world.start();
        for (folder, told) in told {
            let (of, told) = lies_elsewhere(&self.laptops, device, &folder, told);
            if of {
                self.elsewhere.push(Elsewhere {
                    device,
                    folder,
                    told,
                });
            }
        }
        self.restored += 1;
    }

    /// What was called recorded and lies elsewhere, by laptop, trip, lines and seal.
    pub(super) fn all_told(&self) -> impl Iterator<Item = (&'static str, &TripFolder, &Told)> {
        let own = self.laptops.iter().flat_map(|laptop| {
            let told = laptop.told.iter();
            told.map(|(folder, told)| (laptop.device, folder, told))
        });
        let elsewhere = self.elsewhere.iter();
        own.chain(elsewhere.map(|one| (one.device, &one.folder, &one.told)))
    }
}

/// What of a trip lies on a laptop: whether the lines do, and the seal with them.
fn lies_elsewhere(
    laptops: &[super::Laptop],
    device: &str,
    folder: &TripFolder,
    told: Told,
) -> (bool, Told) {
    let on = |laptop: &super::Laptop| has(&laptop.disk, device, folder.seq, &told);
    let mut best = (false, false);
    for laptop in laptops {
        best = best.max(on(laptop));
    }
    let seal = if best.1 { told.seal } else { BTreeMap::new() };
    let lines = told.lines;
    (best.0, Told { lines, seal })
}

/// Whether a disk has all these lines of a trip, under whatever name; and its seal and signatures
/// beside them.
pub(super) fn has(disk: &Pretend, device: &str, seq: u64, told: &Told) -> (bool, bool) {
    let above = Path::new(ROOT).join("dev").join(device).join("t");
    let number = format!("{seq:06}-");
    let mut best = (false, false);
    for path in disk.files() {
        let of_number = path
            .strip_prefix(&above)
            .is_ok_and(|below| below.to_string_lossy().starts_with(&number));
        if !of_number || !path.ends_with("trip.jsonl") {
            continue;
        }
        if disk.seen(&path).unwrap().starts_with(&told.lines) {
            let beside = |(name, bytes): (&PathBuf, &Vec<u8>)| {
                let beside = path.with_file_name(name.file_name().unwrap());
                disk.seen(&beside).as_ref() == Some(bytes)
            };
            best = best.max((true, told.seal.iter().all(beside)));
        }
    }
    best
}
