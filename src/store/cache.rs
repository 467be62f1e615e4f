//! What is kept to start quickly. It can be deleted at any time, and nothing rests on it.

use crate::store::whole::make_folders;
use crate::store::{Disk, Logbook, Mode, StoreFault, replace};
use std::path::PathBuf;

/// The most bytes looked at of a file that is kept to start quickly.
pub const MOST_CACHE_BYTES: usize = 64 * 1024 * 1024;

/// Keeps the folder out of git, itself included.
const IGNORED: &[u8] = b"*\n";

impl<D: Disk> Logbook<D> {
    /// What was kept under this name, if anything can be read.
    pub fn cached(&self, name: &str) -> Option<Vec<u8>> {
        let path = self.cache_folder().join(name);
        self.disk().read(&path, MOST_CACHE_BYTES).ok()
    }

    /// Keeps bytes under this name, in place of what was kept before.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn keep_cached(&self, name: &str, bytes: &[u8]) -> Result<(), StoreFault> {
        let folder = self.cache_folder();
        make_folders(self.disk(), &folder, Mode::Shared)?;
        for (name, bytes) in [(".gitignore", IGNORED), (name, bytes)] {
            replace(self.disk(), &folder.join(name), bytes, Mode::Shared)?;
        }
        Ok(())
    }

    fn cache_folder(&self) -> PathBuf {
        self.root().join("cache")
    }
}
