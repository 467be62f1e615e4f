//! What a disk can do, each call one thing that can fail on its own.
//!
//! Everything above is written against this, so the tests can put a disk below it that fails or
//! loses power at any call.

use std::ffi::OsString;
use std::fmt;
use std::io;
use std::path::Path;

/// A disk, real or pretended. None of the calls repeats itself after a failure.
pub trait Disk: Clone + fmt::Debug {
    /// An open file. Dropping it closes the file and gives up its lock.
    type File: fmt::Debug;

    /// Makes an empty file and opens it for writing.
    ///
    /// # Errors
    /// `AlreadyExists` when the name is taken; else what the disk says.
    fn create_new(&self, path: &Path, mode: Mode) -> io::Result<Self::File>;

    /// Opens an existing file for reading and writing, and changes nothing in it.
    ///
    /// # Errors
    /// What the disk says.
    fn open(&self, path: &Path) -> io::Result<Self::File>;

    /// Takes the exclusive lock, or answers `false` at once when another holds it.
    ///
    /// # Errors
    /// What the disk says; a disk without locks is an error, not a free lock.
    fn try_lock(&self, file: &Self::File) -> io::Result<bool>;

    /// Reads the whole open file.
    ///
    /// # Errors
    /// `FileTooLarge` when it has more than `most` bytes; else what the disk says.
    fn read_back(&self, file: &mut Self::File, most: usize) -> io::Result<Vec<u8>>;

    /// Writes all of `bytes` at the place `at`. After a failure any part may have been written.
    ///
    /// # Errors
    /// What the disk says.
    fn write_at(&self, file: &mut Self::File, at: u64, bytes: &[u8]) -> io::Result<()>;

    /// Cuts the file to `length` bytes.
    ///
    /// # Errors
    /// What the disk says.
    fn cut(&self, file: &mut Self::File, length: u64) -> io::Result<()>;

    /// Returns when all that was written to the file is on the disk.
    ///
    /// # Errors
    /// What the disk says. What was written since the last success may then be lost, even if a
    /// later call succeeds.
    fn sync(&self, file: &mut Self::File) -> io::Result<()>;

    /// Makes one folder; its parent must exist.
    ///
    /// # Errors
    /// `AlreadyExists` when the name is taken; else what the disk says.
    fn make_folder(&self, path: &Path, mode: Mode) -> io::Result<()>;

    /// Returns when the names in the folder are on the disk.
    ///
    /// # Errors
    /// What the disk says.
    fn sync_folder(&self, path: &Path) -> io::Result<()>;

    /// Renames a file, in place of the one that has the name already.
    ///
    /// # Errors
    /// What the disk says.
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()>;

    /// Renames a file to a name that is free.
    ///
    /// # Errors
    /// `AlreadyExists` when the name is taken; else what the disk says.
    fn rename_new(&self, from: &Path, to: &Path) -> io::Result<()>;

    /// Removes a file, or a folder with nothing in it. The pruning of trips calls this, the doctor for
    /// its own probe, and a merge for a folder it has emptied by moving all of it aside; nothing else
    /// does.
    ///
    /// # Errors
    /// What the disk says.
    fn remove(&self, path: &Path) -> io::Result<()>;

    /// Reads a whole regular file without opening it for writing.
    ///
    /// # Errors
    /// `FileTooLarge` when it has more than `most` bytes, `InvalidInput` when it is no regular
    /// file; else what the disk says.
    fn read(&self, path: &Path, most: usize) -> io::Result<Vec<u8>>;

    /// Whether anything has this name.
    ///
    /// # Errors
    /// What the disk says.
    fn exists(&self, path: &Path) -> io::Result<bool>;

    /// Size and time of a regular file, which tell a changed file without reading it.
    ///
    /// # Errors
    /// What the disk says.
    fn stamp(&self, path: &Path) -> io::Result<Stamp>;

    /// What lies in a folder, in the order of the names.
    ///
    /// # Errors
    /// What the disk says.
    fn list(&self, path: &Path) -> io::Result<Vec<Entry>>;
}

/// Who may read a new file or folder.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mode {
    /// Everybody: records are there to be looked at.
    Shared,
    /// The owner alone: private keys.
    Private,
}

/// Size and time of a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stamp {
    /// How many bytes it has.
    pub bytes: u64,
    /// When they were last changed, in nanoseconds since 1970.
    pub changed: u64,
}

/// One name in a folder.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Entry {
    /// The name as the disk has it; it need not be one of ours.
    pub name: OsString,
    /// What has the name.
    pub kind: Kind,
}

/// What a name in a folder stands for. A link is neither file nor folder: it is not followed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// A regular file.
    File,
    /// A folder.
    Folder,
    /// A link, a pipe, a device.
    Other,
}
