//! After a merge: what could not be used, and what the numbers say that is still missing.

use crate::cli::clerk::PrunedTrips;
use crate::cli::logbook::merge::aside::{CameBack, Mended};
use crate::cli::logbook::merge::open::Neighbours;
use crate::cli::logbook::merge::trips::files_in;
use crate::cli::logbook::merge::{How, Merge, Open};
use crate::logbook::merge::{Assembled, Awaited, Damage, Files, Fork, What, Why};
use crate::record::{Crew, Digest, Id, Receipt, Role, Seal};
use crate::store::{Disk, StoreFault, TripFolder};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// The numbers of the trips here, by device.
type Numbers = BTreeMap<Id, BTreeSet<u64>>;

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
            if let Some(hash) = hash.filter(|hash| !self.placed.contains(hash)) {
                let refused = self.refused.get(&hash).cloned();
                self.aside(*piece, &refused.unwrap_or(Why::Waits(Awaited::Record)))?;
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
        let mut numbers = Numbers::new();
        let mut several = Vec::new();
        for device in self.books.logbook.devices()? {
            let mut by_number: BTreeMap<u64, Vec<TripFolder>> = BTreeMap::new();
            for folder in self.books.logbook.trips(&device)?.trips {
                if self.books.logbook.has(&folder.journal())? {
                    by_number.entry(folder.seq).or_default().push(folder);
                }
            }
            if let Some(newest) = by_number.keys().next_back() {
                self.merged.newest.push((device.clone(), *newest));
            }
            self.in_part(&device, &by_number)?;
            let own: BTreeSet<u64> = by_number.keys().copied().collect();
            let twice = by_number.into_values().filter(|folders| folders.len() > 1);
            let mut twice: Vec<Vec<TripFolder>> = twice.collect();
            if !twice.is_empty() {
                let ended = self.books.ended(&device, &self.statements)?;
                let kept =
                    |folders: &mut Vec<TripFolder>| folders.retain(|one| !ended.contains(one));
                twice.iter_mut().for_each(kept);
            }
            several.extend(twice);
            numbers.insert(device, own);
        }
        self.merged.to_prune = self.to_prune()?;
        for folders in several {
            self.fork(&folders, &numbers)?;
        }
        for gap in self.told.gaps(&numbers) {
            let around = self.around(&numbers, &gap.device, (gap.from, gap.to))?;
            self.merged.open.push(Open::Gap(gap, around));
        }
        for damaged in std::mem::take(&mut self.damaged) {
            let place = (damaged.seq, damaged.seq);
            let around = self.around(&numbers, &damaged.device, place)?;
            self.merged.open(Open::Damaged(damaged, around));
        }
        // What was moved or healed is told as that, and where it is kept.
        let mended = self.merged.mended.iter().flat_map(Mended::kept);
        let mended: BTreeSet<PathBuf> = mended.cloned().collect();
        self.merged.aside.retain(|one| !mended.contains(&one.kept));
        self.tell_parts(|merge, device, seq| merge.around(&numbers, device, (seq, seq)))?;
        let mut aside = std::mem::take(&mut self.merged.aside);
        for (key, around) in aside.iter_mut().filter_map(|one| one.of.as_mut()) {
            *around = self.around(&numbers, &key.device, (key.seq, key.seq))?;
        }
        self.merged.aside = aside;
        self.came_back(&numbers)
    }

    /// The trips that a manager pruned, and of which files lie here.
    fn to_prune(&self) -> Result<Vec<(Id, u64)>, StoreFault> {
        let pruned = PrunedTrips::of(&self.statements);
        let logbook = &self.books.logbook;
        let mut left = BTreeSet::new();
        for device in logbook.devices()? {
            let folders = logbook.trips(&device)?.trips.into_iter();
            let lies = |one: &TripFolder| pruned.left_in(logbook.disk(), &device, one).is_some();
            left.extend(folders.filter(lies).map(|one| (device.clone(), one.seq)));
        }
        Ok(left.into_iter().collect())
    }

    fn fork(&mut self, folders: &[TripFolder], numbers: &Numbers) -> Result<(), StoreFault> {
        let (mut histories, mut places) = (Vec::new(), Vec::new());
        for folder in folders {
            let files = files_in(&self.books.logbook, folder)?;
            let sound = files.faults(self.mode).is_empty();
            if let Some(history) = files.history().filter(|_| sound) {
                histories.push(history);
                places.push(folder.path.clone());
            }
        }
        if let Some(fork) = Fork::of(&histories) {
            let around = self.around(numbers, &fork.device, (fork.seq, fork.seq))?;
            self.merged.open.push(Open::Fork(fork, places, around));
        }
        Ok(())
    }

    /// The trips here before and after these numbers.
    fn around(
        &self,
        numbers: &Numbers,
        device: &Id,
        (from, to): (u64, u64),
    ) -> Result<Neighbours, StoreFault> {
        let Some(here) = numbers.get(device) else {
            return Ok(Neighbours::default());
        };
        let before = here.range(..from).next_back();
        let after = here.range(to.saturating_add(1)..).next();
        let neighbour = |seq: Option<&u64>| match seq {
            Some(seq) => Ok(Some((*seq, self.receipt(device, *seq)?))),
            None => Ok(None),
        };
        Ok(Neighbours {
            before: neighbour(before)?,
            after: neighbour(after)?,
        })
    }

    /// The receipt of a trip, where it is sealed.
    fn receipt(&self, device: &Id, seq: u64) -> Result<Option<String>, StoreFault> {
        let trips = self.books.logbook.trips(device)?.trips;
        let Some(folder) = trips.iter().find(|trip| trip.seq == seq) else {
            return Ok(None);
        };
        let Files { seal, .. } = files_in(&self.books.logbook, folder)?;
        Ok(seal.map(|seal| Receipt::of(&Seal::hash(&seal)).to_string()))
    }

    /// When others have more trips of this laptop than it has itself, it lost them.
    fn came_back(&mut self, numbers: &Numbers) -> Result<(), StoreFault> {
        let is_own = |device: &Id| {
            let signer = self.books.crew.signer(device);
            let key = self.books.logbook.key(device);
            signer.is_some_and(|one| one.roles.contains(&Role::Device))
                && self.books.logbook.has(&key).unwrap_or(false)
        };
        let more = self.merged.came.iter();
        let more = more.filter(|came| matches!(came.how, How::New | How::Longer(_)));
        let mut own: BTreeMap<Id, BTreeSet<u64>> = BTreeMap::new();
        for came in more.filter(|came| is_own(&came.key.device)) {
            let of_device = own.entry(came.key.device.clone()).or_default();
            of_device.insert(came.key.seq);
        }
        for (device, back) in own {
            let Some((from, to)) = back.first().copied().zip(back.last().copied()) else {
                continue;
            };
            let around = self.around(numbers, &device, (from, to))?;
            self.merged.own.push(CameBack {
                device,
                from,
                to,
                around,
            });
        }
        Ok(())
    }
}
