//! What earlier merges kept aside: whether it still waits for anything, or lies here whole by now.

use crate::cli::logbook::merge::Merge;
use crate::logbook::merge::{Bundle, What, Why, is_damaged_copy, is_nearly};
use crate::record::{Digest, Mode};
use crate::store::{Disk, Logbook, StoreFault, gather, is_place};
use std::collections::{HashMap, HashSet};
use std::path::{Path, PathBuf};

/// Every file of a record in a logbook.
#[derive(Default)]
pub(super) struct Everything {
    /// Where each lies, by its plain hash.
    pub(super) places: HashMap<Digest, PathBuf>,
    /// What is no trip, and seals. A copy with a flipped byte in it is known by these.
    small: Vec<(PathBuf, Vec<u8>)>,
}

/// The folders whose every file is small; of a trip only the seal is.
const SMALL: [&str; 3] = ["mgr", "approved", "crew"];

impl Everything {
    pub(super) fn of<D: Disk>(logbook: &Logbook<D>) -> Result<Self, StoreFault> {
        let heap = gather(logbook.disk(), logbook.root())?;
        let is_ours = |path: &&PathBuf| path.strip_prefix(logbook.root()).is_ok_and(is_place);
        let mut all = Self::default();
        for path in heap.folders.iter().flatten().filter(is_ours) {
            let bytes = logbook.read_any(path)?;
            all.places.insert(Digest::of(&bytes), path.clone());
            let below = path.strip_prefix(logbook.root()).unwrap_or(path);
            if path.ends_with("seal.json") || SMALL.iter().any(|part| below.starts_with(part)) {
                all.small.push((path.clone(), bytes));
            }
        }
        Ok(all)
    }

    /// Whether a file lies here whole, as it is or as it was before a byte of it was changed.
    fn has(&self, bytes: &[u8]) -> bool {
        self.places.contains_key(&Digest::of(bytes))
            || (self.small.iter()).any(|(_, whole)| is_nearly(bytes, whole))
    }

    /// Where all lies that is in a file at this path: the same bytes, or a whole file of which it is a
    /// damaged copy. One beside it comes before others.
    pub(super) fn holds(&self, path: &Path, bytes: &[u8]) -> Option<&Path> {
        if let Some(place) = self.places.get(&Digest::of(bytes)) {
            return Some(place);
        }
        let beside = |place: &Path| place.parent() == path.parent();
        let whole = self.small.iter();
        let whole = whole.filter(|(_, whole)| is_damaged_copy(bytes, whole));
        let place = whole.map(|(place, _)| place.as_path());
        place.max_by_key(|place| beside(place))
    }
}

impl<D: Disk> Merge<D> {
    /// Counts what still waits for something. What lies here whole by now waits for nothing.
    pub(super) fn still_waiting(&mut self) -> Result<(), StoreFault> {
        if self.waits.is_empty() {
            return Ok(());
        }
        let here = Everything::of(&self.books.logbook)?;
        let waits = self.waits.iter().filter(|bytes| !here.has(bytes));
        self.merged.waiting = waits.count();
        Ok(())
    }

    /// Of which other mode than the logbook all records of a trip are, where they are.
    pub(super) fn other_mode(&self, bundle: &Bundle) -> Option<Why> {
        let seals = bundle.seals.iter().map(|one| one.seal);
        let modes: Option<Vec<Mode>> = (bundle.journals.iter().copied())
            .chain(seals)
            .map(|at| match &self.brought.pile.get(at)?.what {
                What::Journal(beginning) => Some(beginning.mode),
                What::Seal(seal) => Some(seal.mode),
                _ => None,
            })
            .collect();
        let modes = modes?;
        let found = *modes.first()?;
        let mode = self.mode;
        modes
            .iter()
            .all(|one| *one != mode)
            .then_some(Why::OtherMode { found, mode })
    }

    /// Keeps all of a trip aside, and its texts for the same reason: these wait for nothing.
    pub(super) fn all_aside(&mut self, bundle: &Bundle, why: &Why) -> Result<(), StoreFault> {
        for piece in &bundle.journals {
            if let Some(What::Journal(beginning)) =
                self.brought.pile.get(*piece).map(|one| &one.what)
            {
                let texts = beginning.texts.into_iter();
                self.refused.extend(texts.map(|text| (text, why.clone())));
            }
            self.aside(*piece, why)?;
        }
        for seal in &bundle.seals {
            self.aside(seal.seal, why)?;
            for signature in seal.by_person.iter().chain(&seal.by_device) {
                self.aside(*signature, why)?;
            }
        }
        Ok(())
    }

    /// The plain hash of every file of a record that was here before this merge.
    pub(super) fn was_here(&mut self, hash: &Digest) -> Result<bool, StoreFault> {
        let here = match self.here.take() {
            Some(here) => here,
            None => Everything::of(&self.books.logbook)?
                .places
                .into_keys()
                .collect::<HashSet<_>>(),
        };
        let known = here.contains(hash);
        self.here = Some(here);
        Ok(known)
    }
}
