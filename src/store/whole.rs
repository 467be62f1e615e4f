//! Files that are there whole or not at all.

use crate::store::{Disk, Doing, Mode, StoreFault};
use std::ffi::OsString;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

/// Writes a new file: seals, signatures, keys, pinned copies. When this returns, the file and its
/// name are on the disk; after a crash it is there whole or not at all.
///
/// # Errors
/// [`StoreFault::Taken`] when the name is taken, whatever lies there; else what the disk refused.
/// After a refusal the file may be there all the same: it is whole then.
pub fn write_once<D: Disk>(
    disk: &D,
    path: &Path,
    bytes: &[u8],
    mode: Mode,
) -> Result<(), StoreFault> {
    if disk
        .exists(path)
        .map_err(StoreFault::of(Doing::Read, path))?
    {
        let path = path.to_owned();
        return Err(StoreFault::Taken { path });
    }
    let draft = write_draft(disk, path, bytes, mode)?;
    disk.rename_new(&draft, path)
        .map_err(StoreFault::of(Doing::Rename, path))?;
    sync_name(disk, path)
}

/// Writes a new file, or leaves the one that has the name already. On the disk when this returns,
/// whoever wrote it: who did may have died before it was.
///
/// # Errors
/// What the disk refused.
pub fn keep<D: Disk>(disk: &D, path: &Path, bytes: &[u8], mode: Mode) -> Result<(), StoreFault> {
    match write_once(disk, path, bytes, mode) {
        Err(StoreFault::Taken { .. }) => sync_name(disk, path),
        other => other,
    }
}

/// Writes a file in place of an older one: after a crash the old or the new one is there, whole.
///
/// # Errors
/// What the disk refused.
pub fn replace<D: Disk>(disk: &D, path: &Path, bytes: &[u8], mode: Mode) -> Result<(), StoreFault> {
    let draft = write_draft(disk, path, bytes, mode)?;
    disk.rename(&draft, path)
        .map_err(StoreFault::of(Doing::Rename, path))?;
    sync_name(disk, path)
}

/// Makes a folder and those above it that are missing, their names on the disk. One that is there
/// is synced too: who made it may have died before.
///
/// # Errors
/// What the disk refused.
pub(crate) fn make_folders<D: Disk>(disk: &D, path: &Path, mode: Mode) -> Result<(), StoreFault> {
    let mut answer = disk.make_folder(path, mode);
    if let (Err(error), Some(parent)) = (&answer, path.parent())
        && error.kind() == ErrorKind::NotFound
        && !parent.as_os_str().is_empty()
    {
        make_folders(disk, parent, mode)?;
        answer = disk.make_folder(path, mode);
    }
    match answer {
        Err(error) if error.kind() != ErrorKind::AlreadyExists => {
            Err(StoreFault::of(Doing::Create, path)(error))
        }
        _ => sync_name(disk, path),
    }
}

/// The same for every folder from below `root` down to `path`, those that are there too.
///
/// # Errors
/// What the disk refused.
pub(crate) fn make_folders_below<D: Disk>(
    disk: &D,
    root: &Path,
    path: &Path,
    mode: Mode,
) -> Result<(), StoreFault> {
    let below = path.ancestors().take_while(|above| *above != root);
    let mut below: Vec<&Path> = below.collect();
    below.reverse();
    below
        .into_iter()
        .try_for_each(|folder| make_folders(disk, folder, mode))
}

/// Syncs every folder above `path`: who made them may have died before. What this account may not
/// open, it has not made.
///
/// # Errors
/// What the disk refused.
pub(crate) fn sync_above<D: Disk>(disk: &D, path: &Path) -> Result<(), StoreFault> {
    for below in path.ancestors() {
        match sync_name(disk, below) {
            Err(StoreFault::Refused { cause, .. }) if cause.kind == ErrorKind::PermissionDenied => {
            }
            other => other?,
        }
    }
    Ok(())
}

/// Returns when the name of `path` is on the disk.
pub(crate) fn sync_name<D: Disk>(disk: &D, path: &Path) -> Result<(), StoreFault> {
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        Some(_) => Path::new("."),
        None => return Ok(()),
    };
    disk.sync_folder(folder)
        .map_err(StoreFault::of(Doing::Sync, folder))
}

/// The bytes in a file beside `path`, on the disk, under a name for drafts.
fn write_draft<D: Disk>(
    disk: &D,
    path: &Path,
    bytes: &[u8],
    mode: Mode,
) -> Result<PathBuf, StoreFault> {
    let mut number = 0_u32;
    let (draft, mut file) = loop {
        let draft = draft_name(path, number);
        match disk.create_new(&draft, mode) {
            Ok(file) => break (draft, file),
            // A crash left it there; it is nobody's record, and nothing is ever deleted.
            Err(error) if error.kind() == ErrorKind::AlreadyExists && number < MOST_DRAFTS => {
                number += 1;
            }
            Err(error) => return Err(StoreFault::of(Doing::Create, &draft)(error)),
        }
    };
    disk.write_at(&mut file, 0, bytes)
        .map_err(StoreFault::of(Doing::Write, path))?;
    disk.sync(&mut file)
        .map_err(StoreFault::of(Doing::Sync, path))?;
    Ok(draft)
}

/// So many crashes in the writing of one file are no accident.
const MOST_DRAFTS: u32 = 999;

/// `seal.json` is drafted in `.seal.json.draft-0`.
fn draft_name(path: &Path, number: u32) -> PathBuf {
    let mut name = OsString::from(".");
    name.push(path.file_name().unwrap_or_default());
    name.push(format!(".draft-{number}"));
    path.with_file_name(name)
}
