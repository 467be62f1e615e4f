//! What lies in a logbook under no name of ours: copies a file sync made, folders of somebody else.

use crate::record::Id;
use crate::store::{Disk, Doing, Kind, Logbook, StoreFault, TripFolder};
use std::ffi::{OsStr, OsString};
use std::io::ErrorKind;
use std::path::Path;

impl<D: Disk> Logbook<D> {
    /// Whether a file, and no folder, has this name.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn is_file(&self, path: &Path) -> Result<bool, StoreFault> {
        match self.disk().stamp(path) {
            Ok(_) => Ok(true),
            Err(error) if matches!(error.kind(), ErrorKind::NotFound | ErrorKind::InvalidInput) => {
                Ok(false)
            }
            Err(error) => Err(StoreFault::of(Doing::Read, path)(error)),
        }
    }

    /// The names among the folders of devices that are no device's.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn beside_devices(&self) -> Result<Vec<OsString>, StoreFault> {
        let folder = self.device_folders();
        let entries = self.disk().list(&folder);
        let entries = entries.map_err(StoreFault::of(Doing::Read, &folder))?;
        let ours = |name: &OsString| name.to_str().is_some_and(|name| Id::read(name).is_ok());
        let stray = entries
            .into_iter()
            .filter(|entry| entry.kind != Kind::Folder || !ours(&entry.name));
        Ok(stray.map(|entry| entry.name).collect())
    }
}

impl TripFolder {
    /// The names in the folder that are none of ours.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn strays<D: Disk>(&self, disk: &D) -> Result<Vec<OsString>, StoreFault> {
        let entries = disk.list(&self.path);
        let entries = entries.map_err(StoreFault::of(Doing::Read, &self.path))?;
        let ours = |name: &OsString| name.to_str().is_some_and(is_ours);
        let names = entries.into_iter().map(|entry| entry.name);
        Ok(names.filter(|name| !ours(name)).collect())
    }
}

/// A name this program gives: a file of a trip, what a crash left of a line, or a draft.
pub(super) fn is_ours(name: &str) -> bool {
    TripFolder::FILES.contains(&name) || name.starts_with("trip.torn-") || is_draft(name.as_ref())
}

/// What this program writes before it has a name.
pub(super) fn is_draft(name: &OsStr) -> bool {
    let name = name.to_string_lossy();
    name.starts_with('.') && name.contains(".draft-")
}
