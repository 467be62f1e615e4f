//! The disk of this computer.

use crate::store::{Disk, Entry, Kind, Mode, Stamp};
use std::fs::{self, DirBuilder, File, OpenOptions, TryLockError};
use std::io::{self, ErrorKind, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};
use std::time::UNIX_EPOCH;

/// The disk of this computer.
#[derive(Clone, Copy, Debug)]
pub struct Local;

impl Local {
    /// A file to read from its beginning, a piece at a time: one that is too large to hold.
    ///
    /// # Errors
    /// What the disk says.
    pub fn stream(&self, path: &Path) -> io::Result<impl Read> {
        regular(path)?;
        File::open(path)
    }

    /// The place that a path leads to, by the one name it has without links; what is not there has
    /// the path itself.
    pub fn place(path: &Path) -> PathBuf {
        fs::canonicalize(path).unwrap_or_else(|_| path.to_owned())
    }
}

impl Disk for Local {
    type File = File;

    fn create_new(&self, path: &Path, mode: Mode) -> io::Result<File> {
        let mut options = OpenOptions::new();
        options.read(true).write(true).create_new(true);
        permit_file(&mut options, mode);
        options.open(path)
    }

    fn open(&self, path: &Path) -> io::Result<File> {
        regular(path)?;
        OpenOptions::new().read(true).write(true).open(path)
    }

    fn try_lock(&self, file: &File) -> io::Result<bool> {
        match file.try_lock() {
            Ok(()) => Ok(true),
            Err(TryLockError::WouldBlock) => Ok(false),
            Err(TryLockError::Error(error)) => Err(error),
        }
    }

    fn read_back(&self, file: &mut File, most: usize) -> io::Result<Vec<u8>> {
        file.seek(SeekFrom::Start(0))?;
        read_at_most(file, most)
    }

    fn write_at(&self, file: &mut File, at: u64, bytes: &[u8]) -> io::Result<()> {
        file.seek(SeekFrom::Start(at))?;
        file.write_all(bytes)
    }

    fn cut(&self, file: &mut File, length: u64) -> io::Result<()> {
        file.set_len(length)
    }

    fn sync(&self, file: &mut File) -> io::Result<()> {
        file.sync_all()
    }

    fn make_folder(&self, path: &Path, mode: Mode) -> io::Result<()> {
        let mut builder = DirBuilder::new();
        permit_folder(&mut builder, mode);
        builder.create(path)
    }

    #[cfg(unix)]
    fn sync_folder(&self, path: &Path) -> io::Result<()> {
        File::open(path)?.sync_all()
    }

    /// Elsewhere a folder cannot be opened to be synced; the names go with the files.
    #[cfg(not(unix))]
    fn sync_folder(&self, _path: &Path) -> io::Result<()> {
        Ok(())
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        fs::rename(from, to)
    }

    fn rename_new(&self, from: &Path, to: &Path) -> io::Result<()> {
        if fs::hard_link(from, to).is_err() {
            return rename_if_free(from, to);
        }
        give_up_name(from);
        Ok(())
    }

    #[expect(
        clippy::disallowed_methods,
        reason = "what a manager pruned by a signed statement is removed, and folders with nothing in them"
    )]
    fn remove(&self, path: &Path) -> io::Result<()> {
        if fs::symlink_metadata(path)?.is_dir() {
            fs::remove_dir(path)
        } else {
            fs::remove_file(path)
        }
    }

    fn read(&self, path: &Path, most: usize) -> io::Result<Vec<u8>> {
        regular(path)?;
        read_at_most(&mut File::open(path)?, most)
    }

    fn exists(&self, path: &Path) -> io::Result<bool> {
        match fs::symlink_metadata(path) {
            Ok(_) => Ok(true),
            Err(error) if error.kind() == ErrorKind::NotFound => Ok(false),
            Err(error) => Err(error),
        }
    }

    fn stamp(&self, path: &Path) -> io::Result<Stamp> {
        let found = fs::metadata(path)?;
        if !found.is_file() {
            return Err(not_regular());
        }
        let since = found.modified()?.duration_since(UNIX_EPOCH);
        let since = since.map_err(io::Error::other)?.as_nanos();
        Ok(Stamp {
            bytes: found.len(),
            changed: u64::try_from(since).map_err(io::Error::other)?,
        })
    }

    fn list(&self, path: &Path) -> io::Result<Vec<Entry>> {
        let mut entries = fs::read_dir(path)?
            .map(|entry| {
                let entry = entry?;
                let kind = match entry.file_type()? {
                    kind if kind.is_file() => Kind::File,
                    kind if kind.is_dir() => Kind::Folder,
                    _ => Kind::Other,
                };
                let name = entry.file_name();
                Ok(Entry { name, kind })
            })
            .collect::<io::Result<Vec<Entry>>>()?;
        entries.sort();
        Ok(entries)
    }
}

/// Opening a pipe would wait for its other end for ever, and a device has no end.
fn regular(path: &Path) -> io::Result<()> {
    if fs::metadata(path)?.is_file() {
        Ok(())
    } else {
        Err(not_regular())
    }
}

fn not_regular() -> io::Error {
    io::Error::new(ErrorKind::InvalidInput, "not a regular file")
}

fn read_at_most(file: &mut File, most: usize) -> io::Result<Vec<u8>> {
    let one_more = u64::try_from(most).unwrap_or(u64::MAX).saturating_add(1);
    let mut bytes = Vec::new();
    file.take(one_more).read_to_end(&mut bytes)?;
    if bytes.len() > most {
        return Err(ErrorKind::FileTooLarge.into());
    }
    Ok(bytes)
}

/// For FAT and exFAT, the usual file systems of a USB stick: they know no second name for a file.
/// Looking first leaves a gap, which the lock on the device's folder closes against our own kind.
fn rename_if_free(from: &Path, to: &Path) -> io::Result<()> {
    if Local.exists(to)? {
        return Err(ErrorKind::AlreadyExists.into());
    }
    fs::rename(from, to)
}

/// The file has its lasting name; the first one is mere litter when it stays, so no failure.
#[expect(
    clippy::disallowed_methods,
    reason = "one of two names of a file goes, the file stays"
)]
fn give_up_name(path: &Path) {
    drop(fs::remove_file(path));
}

#[cfg(unix)]
fn permit_file(options: &mut OpenOptions, mode: Mode) {
    use std::os::unix::fs::OpenOptionsExt;
    options.mode(match mode {
        Mode::Shared => 0o644,
        Mode::Private => 0o600,
    });
}

#[cfg(unix)]
fn permit_folder(builder: &mut DirBuilder, mode: Mode) {
    use std::os::unix::fs::DirBuilderExt;
    builder.mode(match mode {
        Mode::Shared => 0o755,
        Mode::Private => 0o700,
    });
}

#[cfg(not(unix))]
fn permit_file(_options: &mut OpenOptions, _mode: Mode) {}

#[cfg(not(unix))]
fn permit_folder(_builder: &mut DirBuilder, _mode: Mode) {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn without_links_a_taken_name_is_refused_and_a_free_one_is_given() {
        let folder = tempfile::tempdir().unwrap();
        let [from, to, free] = ["draft", "seal", "free"].map(|name| folder.path().join(name));
        drop(Local.create_new(&from, Mode::Shared).unwrap());
        drop(Local.create_new(&to, Mode::Shared).unwrap());
        let error = rename_if_free(&from, &to).unwrap_err();
        assert_eq!(error.kind(), ErrorKind::AlreadyExists);
        rename_if_free(&from, &free).unwrap();
        assert_eq!(
            [&from, &to, &free].map(|path| path.exists()),
            [false, true, true]
        );
    }
}
