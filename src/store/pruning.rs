//! Removing the files of a pruned trip: the one place where anything of a logbook is deleted.

use crate::store::whole::sync_name;
use crate::store::{Disk, Doing, Kind, Logbook, StoreFault, TripFolder};
use std::ffi::OsStr;

impl<D: Disk> Logbook<D> {
    /// Removes every file of a trip and its folder: the journal first and the seal last, so that
    /// what a crash leaves can still be told for what it is. A folder in it that holds something
    /// is no file of ours, and stays with the trip's folder.
    ///
    /// # Errors
    /// What the disk refused. What is left is removed by the next run.
    pub fn remove_trip(&self, trip: &TripFolder) -> Result<(), StoreFault> {
        let disk = self.disk();
        let entries = disk.list(&trip.path);
        let entries = entries.map_err(StoreFault::of(Doing::Read, &trip.path))?;
        let mut files: Vec<_> = entries
            .into_iter()
            .filter(|entry| entry.kind != Kind::Folder)
            .map(|entry| entry.name)
            .collect();
        let (journal, seal) = (trip.journal(), trip.seal());
        let (journal, seal) = (journal.file_name(), seal.file_name());
        files.sort_by_key(|name| {
            let name: Option<&OsStr> = Some(name);
            (name == seal, name != journal)
        });
        for name in files {
            let path = trip.path.join(name);
            disk.remove(&path)
                .map_err(StoreFault::of(Doing::Remove, &path))?;
            // Each before the next, so that the seal is never gone before the journal.
            sync_name(disk, &path)?;
        }
        disk.remove(&trip.path)
            .map_err(StoreFault::of(Doing::Remove, &trip.path))?;
        sync_name(disk, &trip.path)
    }
}
