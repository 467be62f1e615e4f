//! What cannot be used is kept, by its hash, with a word why: `quarantine/<hash>/`.
//!
//! It stays with the laptop that found it. Every merge looks at it again. What gave way to something
//! whole lies there too.

use crate::record::{Digest, MAX_TRIP};
use crate::store::strays::is_ours;
use crate::store::whole::{make_folders, sync_name};
use crate::store::{Disk, Doing, Kind, Logbook, Mode, StoreFault, TripFolder, keep, replace};
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

    /// Where a file with this plain hash lies when it is kept aside.
    pub fn kept(&self, hash: &Digest) -> PathBuf {
        as_found(&self.aside(hash))
    }

    /// Whether a file is kept aside already.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn is_aside(&self, hash: &Digest) -> Result<bool, StoreFault> {
        self.has(&self.kept(hash))
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

    /// Puts these bytes in the place of a damaged file, which is kept aside first. After a crash the
    /// one or the other has the place, whole, and the damaged one is kept.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn put_right(&self, path: &Path, bytes: &[u8], why: &str) -> Result<PathBuf, StoreFault> {
        let kept = self.set_aside(&self.read_any(path)?, why)?;
        replace(self.disk(), path, bytes, Mode::Shared)?;
        Ok(kept)
    }

    /// Moves a file out of the way to where files are kept aside. It is kept there before it leaves
    /// its place.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn move_aside(&self, path: &Path, why: &str) -> Result<PathBuf, StoreFault> {
        let kept = self.set_aside(&self.read_any(path)?, why)?;
        let there = as_found(&kept);
        let moved = self.disk().rename(path, &there);
        moved.map_err(StoreFault::of(Doing::Rename, path))?;
        sync_name(self.disk(), &there)?;
        sync_name(self.disk(), path)?;
        Ok(kept)
    }

    /// Moves every file of ours in a folder of a trip aside, the journal last, so that what a crash
    /// leaves can still be told for what it is; then the empty folder goes. What is not ours stays,
    /// and the folder with it.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn move_trip_aside(
        &self,
        trip: &TripFolder,
        why: &str,
    ) -> Result<Vec<PathBuf>, StoreFault> {
        let refused = StoreFault::of(Doing::Read, &trip.path);
        let entries = self.disk().list(&trip.path).map_err(refused)?;
        let files = entries.into_iter().filter(|one| one.kind == Kind::File);
        let ours = files.filter(|one| one.name.to_str().is_some_and(is_ours));
        let mut paths: Vec<PathBuf> = ours.map(|one| trip.path.join(one.name)).collect();
        paths.sort_by_key(|path| *path == trip.journal());
        let kept = paths
            .iter()
            .map(|path| self.move_aside(path, &format!("{}\n\n{why}", path.display())))
            .collect::<Result<_, _>>()?;
        self.let_go_of(&trip.path)?;
        Ok(kept)
    }

    /// Removes a folder that has nothing in it any more.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn let_go_of(&self, folder: &Path) -> Result<(), StoreFault> {
        let entries = self.disk().list(folder);
        let entries = entries.map_err(StoreFault::of(Doing::Read, folder))?;
        if !entries.is_empty() {
            return Ok(());
        }
        let removed = self.disk().remove(folder);
        removed.map_err(StoreFault::of(Doing::Remove, folder))?;
        sync_name(self.disk(), folder)
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
