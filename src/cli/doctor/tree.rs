//! Every name in a logbook, once.

use crate::store::{Disk, Kind, Local};
use std::path::{Path, PathBuf};

/// Folders that are nobody's to share: they are not gone into.
const NOT_SHARED: [&str; 3] = ["keys", "quarantine", ".git"];

/// A file or folder by its path from the logbook.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Named {
    pub(super) path: PathBuf,
    pub(super) kind: Kind,
}

/// Everything below a folder, by name; what cannot be looked into is left out.
pub(super) fn names(root: &Path) -> Vec<Named> {
    let mut names = Vec::new();
    let mut folders = vec![PathBuf::new()];
    while let Some(folder) = folders.pop() {
        for entry in Local.list(&root.join(&folder)).unwrap_or_default() {
            let path = folder.join(&entry.name);
            let shared = !NOT_SHARED
                .iter()
                .any(|not| path.as_path() == Path::new(not));
            if entry.kind == Kind::Folder && shared {
                folders.push(path.clone());
            }
            let kind = entry.kind;
            names.push(Named { path, kind });
        }
    }
    names.sort_by(|one, next| one.path.cmp(&next.path));
    names
}

impl Named {
    /// The last part of the path.
    pub(super) fn name(&self) -> String {
        let name = self.path.file_name().unwrap_or_default();
        name.to_string_lossy().into_owned()
    }

    /// The path as it is shown.
    pub(super) fn shown(&self) -> String {
        self.path.to_string_lossy().escape_debug().to_string()
    }
}
