//! After a merge: what lies here twice is moved aside, so that it need not be told for ever. Nothing
//! is moved but what is held elsewhere, to the byte or whole where this is damaged.

use crate::cli::logbook::merge::Merge;
use crate::cli::logbook::merge::aside::Mended;
use crate::cli::logbook::merge::trips::{Drawer, files_in};
use crate::logbook::merge::{Files, Theirs, TripKey, Why, is_held};
use crate::record::{Digest, Id};
use crate::store::{Disk, StoreFault, TripFolder};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

impl<D: Disk> Merge<D> {
    /// Goes over the folders of every device.
    pub(super) fn tidy(&mut self) -> Result<(), StoreFault> {
        for device in self.books.logbook.devices()? {
            let mut drawer = self.drawer(&device)?;
            self.several(&device, &mut drawer)?;
            self.copies(&device, &mut drawer)?;
        }
        Ok(())
    }

    /// Where several folders have one number, what is held by another gives way.
    fn several(&mut self, device: &Id, drawer: &mut Drawer<D>) -> Result<(), StoreFault> {
        let mut by_number: BTreeMap<u64, Vec<TripFolder>> = BTreeMap::new();
        for folder in self.books.logbook.trips(device)?.trips {
            by_number.entry(folder.seq).or_default().push(folder);
        }
        for folders in by_number.into_values().filter(|folders| folders.len() > 1) {
            let mut keys = BTreeSet::new();
            for folder in &folders {
                keys.extend(files_in(&self.books.logbook, folder)?.keys());
            }
            let new = |key: &TripKey| !self.seen.contains(key) && key.device == *device;
            let keys: Vec<TripKey> = keys.into_iter().filter(new).collect();
            for key in keys {
                self.trip(&key, &Theirs::default(), drawer)?;
            }
        }
        Ok(())
    }

    /// What a file sync made of files and folders of trips: a copy under a name of its own.
    fn copies(&mut self, device: &Id, drawer: &mut Drawer<D>) -> Result<(), StoreFault> {
        let found = self.books.logbook.trips(device)?;
        let mut aside: Vec<(Vec<PathBuf>, PathBuf)> = Vec::new();
        for folder in &found.trips {
            let names = folder.strays(self.books.logbook.disk())?;
            if names.is_empty() {
                continue;
            }
            let paths = names.into_iter().map(|name| folder.path.join(name));
            let whole = files_in(&self.books.logbook, folder)?;
            let others = self.of_number(&found.trips, folder.seq)?;
            for path in paths {
                if self.is_copy(&path, &whole, &others) {
                    aside.push((vec![path], folder.path.clone()));
                }
            }
        }
        for name in &found.strays {
            let path = self.books.logbook.trip_folders(device).join(name);
            if let Some((files, into)) = self.folder_copied(device, path, &found.trips)? {
                aside.push((files, into));
            }
        }
        if aside.is_empty() || (!self.look && !drawer.hold()?) {
            return Ok(());
        }
        for (files, into) in aside {
            self.move_copies(&files, into)?;
        }
        Ok(())
    }

    /// The files of a folder under no name of ours, where each is a copy of what one trip holds.
    fn folder_copied(
        &self,
        device: &Id,
        path: PathBuf,
        trips: &[TripFolder],
    ) -> Result<Option<(Vec<PathBuf>, PathBuf)>, StoreFault> {
        let disk = self.books.logbook.disk();
        let Ok(entries) = disk.list(&path) else {
            return Ok(None);
        };
        let names = entries.into_iter().map(|entry| entry.name);
        let files: Vec<PathBuf> = names.map(|name| path.join(name)).collect();
        let copy = files_in(&self.books.logbook, &TripFolder { seq: 0, path })?;
        let mut keys = copy.keys().into_iter();
        let Some(key) = keys.find(|key| key.device == *device) else {
            return Ok(None);
        };
        let others = self.of_number(trips, key.seq)?;
        for folder in trips.iter().filter(|one| one.seq == key.seq) {
            let whole = files_in(&self.books.logbook, folder)?;
            let mut all = files.iter();
            if !files.is_empty() && all.all(|file| self.is_copy(file, &whole, &others)) {
                return Ok(Some((files, folder.path.clone())));
            }
        }
        Ok(None)
    }

    fn of_number(&self, trips: &[TripFolder], seq: u64) -> Result<Vec<Files>, StoreFault> {
        let same = trips.iter().filter(|one| one.seq == seq);
        same.map(|one| files_in(&self.books.logbook, one)).collect()
    }

    /// Whether a file has nothing of its own, beside a trip that can be relied on.
    fn is_copy(&self, path: &Path, whole: &Files, others: &[Files]) -> bool {
        let bytes = self.books.logbook.read_any(path);
        let is_whole = whole.journal.is_some() && whole.faults(self.mode).is_empty();
        is_whole && bytes.is_ok_and(|bytes| is_held(&bytes, whole, others, self.mode))
    }

    /// Moves a file aside of which everything is in `into`, with the reason beside it, and tells
    /// where it is kept; where this only looks, where it would be.
    pub(super) fn copy_aside(&self, path: &Path, into: &Path) -> Result<PathBuf, StoreFault> {
        let logbook = &self.books.logbook;
        if self.look {
            return Ok(logbook.aside(&Digest::of(&logbook.read_any(path)?)));
        }
        let why = Why::Held(into.display().to_string());
        let text = format!("{}\n\n{why}.\n{}\n", path.display(), why.next_step());
        logbook.move_aside(path, &text)
    }

    fn move_copies(&mut self, files: &[PathBuf], into: PathBuf) -> Result<(), StoreFault> {
        let logbook = &self.books.logbook;
        let kept = files.iter().map(|path| self.copy_aside(path, &into));
        let kept = kept.collect::<Result<_, _>>()?;
        let lay = match files {
            [one] if one.parent() == Some(into.as_path()) => one.clone(),
            [first, ..] => {
                let folder = first.parent().unwrap_or(first).to_owned();
                if !self.look {
                    logbook.let_go_of(&folder)?;
                }
                folder
            }
            [] => return Ok(()),
        };
        self.merged.mended.push(Mended::Moved {
            what: "a copy that has nothing of its own".to_owned(),
            path: lay,
            into,
            kept,
        });
        Ok(())
    }
}
