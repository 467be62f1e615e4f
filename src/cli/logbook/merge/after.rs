//! After a merge: what could not be used, and what the numbers say that is still missing.

use crate::cli::logbook::merge::trips::files_in;
use crate::cli::logbook::merge::{How, Merge, Open};
use crate::logbook::merge::{Assembled, Awaited, Damage, Files, What, Why};
use crate::record::{Crew, Digest, Id, Receipt, Role, Seal};
use crate::store::{Disk, StoreFault, TripFolder};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

impl<D: Disk> Merge<D> {
    /// Keeps aside what was a record, or lies among records, and belongs to nothing.
    pub(super) fn the_rest(&mut self, parts: &Assembled) -> Result<(), StoreFault> {
        for piece in &parts.in_transit {
            self.aside(*piece, &Why::Damaged(Damage::InTransit))?;
        }
        for piece in &parts.loose {
            let what = self.brought.pile.get(*piece).map(|one| &one.what);
            let why = match what {
                Some(What::Damaged(damage)) => Why::Damaged(damage.clone()),
                Some(What::Signature) => Why::NoOnesSignature,
                _ => Why::Unknown,
            };
            self.aside(*piece, &why)?;
        }
        for piece in &parts.texts {
            let hash = self.brought.pile.get(*piece).map(|one| one.hash);
            if hash.is_some_and(|hash| !self.placed.contains(&hash)) {
                self.aside(*piece, &Why::Waits(Awaited::Record))?;
            }
        }
        self.crew_files()?;
        let (before, left): (Vec<usize>, Vec<usize>) = parts
            .foreign
            .iter()
            .partition(|piece| self.brought.was_aside(**piece));
        for piece in before {
            self.aside(piece, &Why::Unknown)?;
        }
        let left = left.iter();
        let left = left.filter_map(|piece| self.brought.path(*piece));
        self.merged.left_alone = left.map(Path::to_path_buf).collect();
        Ok(())
    }

    /// A crew file that nothing leads to, where no trip that was taken names it.
    fn crew_files(&mut self) -> Result<(), StoreFault> {
        let crews = self.brought.pile.crews().map(Crew::revision);
        let strange = crews.filter(|one| self.trusted.get(one).is_none());
        let strange: Vec<Digest> = strange.filter(|one| !self.placed.contains(one)).collect();
        for revision in strange {
            if let Some(piece) = self.brought.pile.find(&revision) {
                self.aside(piece, &Why::Crew)?;
            }
        }
        Ok(())
    }

    /// Tells gaps, forks and the newest trips as they are now.
    pub(super) fn look_around(&mut self) -> Result<(), StoreFault> {
        let mut numbers: BTreeMap<Id, BTreeSet<u64>> = BTreeMap::new();
        for device in self.books.logbook.devices()? {
            let mut by_number: BTreeMap<u64, Vec<TripFolder>> = BTreeMap::new();
            for folder in self.books.logbook.trips(&device)?.trips {
                if self.books.logbook.has(&folder.journal())? {
                    by_number.entry(folder.seq).or_default().push(folder);
                }
            }
            for folders in by_number.values().filter(|folders| folders.len() > 1) {
                self.fork(folders)?;
            }
            if let Some(newest) = by_number.keys().next_back() {
                self.merged.newest.push((device.clone(), *newest));
            }
            numbers.insert(device, by_number.into_keys().collect());
        }
        for gap in self.told.gaps(&numbers) {
            let before = self.receipt(&gap.device, gap.before)?;
            let after = self.receipt(&gap.device, gap.after)?;
            self.merged.open.push(Open::Gap(gap, before, after));
        }
        self.came_back();
        Ok(())
    }

    fn fork(&mut self, folders: &[TripFolder]) -> Result<(), StoreFault> {
        let mut histories = Vec::new();
        for folder in folders {
            let files = files_in(&self.books.logbook, folder)?;
            let sound = files.faults(self.mode).is_empty();
            histories.extend(files.history().filter(|_| sound));
        }
        let fork = self.told.fork(&histories);
        if let Some(fork) = fork.filter(|fork| !fork.closed) {
            let places = folders.iter().map(|folder| folder.path.clone()).collect();
            self.merged.open.push(Open::Fork(fork, places));
        }
        Ok(())
    }

    /// The receipt of a trip, where it is sealed.
    fn receipt(&self, device: &Id, seq: Option<u64>) -> Result<Option<String>, StoreFault> {
        let trips = self.books.logbook.trips(device)?.trips;
        let folder = trips.iter().find(|trip| Some(trip.seq) == seq);
        let Some(folder) = folder else {
            return Ok(None);
        };
        let Files { seal, .. } = files_in(&self.books.logbook, folder)?;
        Ok(seal.map(|seal| Receipt::of(&Seal::hash(&seal)).to_string()))
    }

    /// When others have more trips of this laptop than it has itself, it lost them.
    fn came_back(&mut self) {
        let is_own = |device: &Id| {
            let signer = self.books.crew.signer(device);
            let key = self.books.logbook.key(device);
            signer.is_some_and(|one| one.roles.contains(&Role::Device))
                && self.books.logbook.has(&key).unwrap_or(false)
        };
        let more = self.merged.came.iter();
        let more = more.filter(|came| matches!(came.how, How::New | How::Longer(_)));
        let own = more.map(|came| came.key.device.clone());
        let own: BTreeSet<Id> = own.filter(is_own).collect();
        self.merged.own = own.into_iter().collect();
    }
}
