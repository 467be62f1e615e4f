//! Making certain what is seen, before anything is chained to it.

use crate::record::{Id, MAX_TRIP, split_torn};
use crate::store::journal::make_certain;
use crate::store::whole::sync_name;
use crate::store::{Disk, Doing, Logbook, StatementFolder, StoreFault, TripFolder};
use std::path::Path;

impl<D: Disk> Logbook<D> {
    /// Returns when what a device's next trip stands on is on the disk: the crew file, and of the
    /// newest trip the last line or the seal, with every name that leads there.
    ///
    /// After a refused sync the system shows what the next loss of power takes. A trip or a
    /// statement that quoted it would then tell of a line that never was.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn settle(&self, device: &Id) -> Result<(), StoreFault> {
        sync_name(self.disk(), &self.crew())?;
        let Some(newest) = self.newest(device)? else {
            return Ok(());
        };
        if self.is_signed(&newest)? {
            sync_name(self.disk(), &newest.seal())?;
        } else {
            settle_journal(self.disk(), &newest.journal())?;
        }
        for name in [
            newest.path,
            self.trip_folders(device),
            self.device_folder(device),
        ] {
            sync_name(self.disk(), &name)?;
        }
        Ok(())
    }

    /// The same of a statement, which lies under its own name or came from elsewhere.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn settle_statement(&self, folder: &StatementFolder) -> Result<(), StoreFault> {
        let there = self.disk().exists(&folder.path);
        if there.map_err(StoreFault::of(Doing::Read, &folder.path))? {
            let names = folder.statement();
            let mut below = names.ancestors().take_while(|above| *above != self.root());
            below.try_for_each(|name| sync_name(self.disk(), name))?;
        }
        Ok(())
    }

    /// The device's last trip that has begun.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn newest(&self, device: &Id) -> Result<Option<TripFolder>, StoreFault> {
        for trip in self.trips(device)?.trips.into_iter().rev() {
            if self.has_begun(&trip)? || self.is_sealed(&trip)? {
                return Ok(Some(trip));
            }
        }
        Ok(None)
    }
}

/// The whole lines of a journal. Who has it open answers for the line they are writing.
fn settle_journal<D: Disk>(disk: &D, path: &Path) -> Result<(), StoreFault> {
    let mut file = disk.open(path).map_err(StoreFault::of(Doing::Open, path))?;
    let free = disk.try_lock(&file);
    let settled = if free.map_err(StoreFault::of(Doing::Lock, path))? {
        let bytes = disk
            .read_back(&mut file, MAX_TRIP)
            .map_err(StoreFault::of_reading(path, MAX_TRIP))?;
        make_certain(disk, &mut file, split_torn(&bytes).0)
    } else {
        disk.sync(&mut file)
    };
    settled.map_err(StoreFault::of(Doing::Sync, path))?;
    sync_name(disk, path)
}
