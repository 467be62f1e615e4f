//! What the system says of a place without reading it: who owns it, who may write there, how much
//! room is left.

use std::fs;
use std::io;
use std::path::Path;

/// What the system says of a file or folder.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Surveyed {
    /// Whose it is, by the system's number; nothing where a system has none.
    pub owner: Option<u32>,
    /// Whether others than the owner may read it.
    pub others_read: bool,
    /// Whether everybody may write there.
    pub all_write: bool,
}

/// Looks at a file or folder, following no link.
///
/// # Errors
/// What the system says.
pub fn survey(path: &Path) -> io::Result<Surveyed> {
    Ok(of(&fs::symlink_metadata(path)?))
}

#[cfg(unix)]
fn of(about: &fs::Metadata) -> Surveyed {
    use std::os::unix::fs::MetadataExt;
    let mode = about.mode();
    Surveyed {
        owner: Some(about.uid()),
        others_read: mode & 0o077 != 0,
        all_write: mode & 0o002 != 0,
    }
}

/// Elsewhere who may read is told by lists that are not looked at.
#[cfg(not(unix))]
fn of(_about: &fs::Metadata) -> Surveyed {
    Surveyed {
        owner: None,
        others_read: false,
        all_write: false,
    }
}

/// How many bytes this account may still write where the path lies; nothing where the system does
/// not say.
#[cfg(unix)]
pub fn room(path: &Path) -> Option<u64> {
    let about = rustix::fs::statvfs(path).ok()?;
    about.f_bavail.checked_mul(about.f_frsize)
}

/// The same; elsewhere it is not looked at.
#[cfg(not(unix))]
pub fn room(_path: &Path) -> Option<u64> {
    None
}
