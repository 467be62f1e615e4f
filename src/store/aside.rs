//! What cannot be used is kept, by its hash, with a word why: `quarantine/<hash>/`.
//!
//! It stays with the laptop that found it. Every merge looks at it again.

use crate::record::{Digest, MAX_TRIP};
use crate::store::whole::make_folders;
use crate::store::{Disk, Doing, Kind, Logbook, Mode, StoreFault, keep};
use std::path::{Path, PathBuf};

/// So many letters of its hash name its folder.
const HASH_LETTERS: usize = 16;

/// Keeps the folder out of git, itself included: it is evidence of one laptop.
const IGNORED: &[u8] = b"*\n";

impl<D: Disk> Logbook<D> {
    /// The folder for a file with this plain hash that cannot be used.
    pub fn aside(&self, hash: &Digest) -> PathBuf {
        let letters: String = hash.to_string().chars().take(HASH_LETTERS).collect();
        self.aside_folder().join(letters)
    }

    /// Whether a file is kept aside already.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn is_aside(&self, hash: &Digest) -> Result<bool, StoreFault> {
        self.has(&as_found(&self.aside(hash)))
    }

    /// Keeps a file aside, as it was found, with a word why. One that is there stays.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn set_aside(&self, bytes: &[u8], why: &str) -> Result<PathBuf, StoreFault> {
        let folder = self.aside(&Digest::of(bytes));
        make_folders(self.disk(), &folder, Mode::Shared)?;
        let files = [
            (self.aside_folder().join(".gitignore"), IGNORED),
            (folder.join("why.txt"), why.as_bytes()),
            (as_found(&folder), bytes),
        ];
        for (path, bytes) in files {
            keep(self.disk(), &path, bytes, Mode::Shared)?;
        }
        Ok(folder)
    }

    /// Every file kept aside.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn all_aside(&self) -> Result<Vec<PathBuf>, StoreFault> {
        let above = self.aside_folder();
        if !self.has(&above)? {
            return Ok(Vec::new());
        }
        let entries = self.disk().list(&above);
        let entries = entries.map_err(StoreFault::of(Doing::Read, &above))?;
        let mut found = Vec::new();
        for entry in entries.into_iter().filter(|one| one.kind == Kind::Folder) {
            let path = as_found(&above.join(entry.name));
            if self.has(&path)? {
                found.push(path);
            }
        }
        Ok(found)
    }

    /// Reads any file, of ours or of theirs, that may be a journal.
    ///
    /// # Errors
    /// [`StoreFault::TooLarge`], or what the disk refused.
    pub fn read_any(&self, path: &Path) -> Result<Vec<u8>, StoreFault> {
        let bytes = self.disk().read(path, MAX_TRIP);
        bytes.map_err(StoreFault::of_reading(path, MAX_TRIP))
    }

    fn aside_folder(&self) -> PathBuf {
        self.root().join("quarantine")
    }
}

fn as_found(folder: &Path) -> PathBuf {
    folder.join("as-found")
}
