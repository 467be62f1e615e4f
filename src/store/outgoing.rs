//! What leaves a logbook: a new folder of files, or one new file that grows.

use crate::store::whole::{make_folders, sync_name};
use crate::store::{Disk, Doing, Mode, StoreFault, write_once};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// A folder that was empty, or was not there.
#[derive(Clone, Debug)]
pub struct NewFolder<D: Disk> {
    disk: D,
    root: PathBuf,
}

/// A file that was not there.
#[derive(Debug)]
pub struct NewFile<D: Disk> {
    disk: D,
    path: PathBuf,
    file: D::File,
    at: u64,
}

impl<D: Disk> NewFolder<D> {
    /// Makes it, or takes one with nothing in it.
    ///
    /// # Errors
    /// [`StoreFault::NotEmpty`], or what the disk refused.
    pub fn begin(disk: D, root: &Path) -> Result<Self, StoreFault> {
        make_folders(&disk, root, Mode::Shared)?;
        let there = disk.list(root);
        if there.map_err(StoreFault::of(Doing::Read, root))?.is_empty() {
            let root = root.to_owned();
            Ok(Self { disk, root })
        } else {
            let folder = root.to_owned();
            Err(StoreFault::NotEmpty { folder })
        }
    }

    /// Puts a file at this place below it.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn put(&self, below: &str, bytes: &[u8]) -> Result<(), StoreFault> {
        let path = self.root.join(below);
        if let Some(parent) = path.parent() {
            make_folders(&self.disk, parent, Mode::Shared)?;
        }
        write_once(&self.disk, &path, bytes, Mode::Shared)
    }
}

impl<D: Disk> NewFile<D> {
    /// Makes it.
    ///
    /// # Errors
    /// [`StoreFault::Taken`] when the name is taken; else what the disk refused.
    pub fn begin(disk: D, path: &Path) -> Result<Self, StoreFault> {
        let file = disk.create_new(path, Mode::Shared);
        let file = file.map_err(StoreFault::of(Doing::Create, path))?;
        let path = path.to_owned();
        Ok(Self {
            disk,
            path,
            file,
            at: 0,
        })
    }

    /// Returns when all of it and its name are on the disk.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn end(mut self) -> Result<(), StoreFault> {
        let synced = self.disk.sync(&mut self.file);
        synced.map_err(StoreFault::of(Doing::Sync, &self.path))?;
        sync_name(&self.disk, &self.path)
    }
}

impl<D: Disk> Write for NewFile<D> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.disk.write_at(&mut self.file, self.at, bytes)?;
        let length = u64::try_from(bytes.len()).map_err(io::Error::other)?;
        self.at = self.at.saturating_add(length);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}
