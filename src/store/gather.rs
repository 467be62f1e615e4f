//! Every file below a folder somebody brings: a stick, a synced folder, another laptop's logbook.

use crate::store::strays::is_draft;
use crate::store::{Disk, Doing, Kind, StoreFault};
use std::ffi::OsStr;
use std::path::{Path, PathBuf};

/// What lies below a folder, folder by folder.
#[derive(Clone, Debug, Default)]
pub struct Heap {
    /// The files of each folder that has any.
    pub folders: Vec<Vec<PathBuf>>,
    /// The files whose names begin with a point: an editor's and a system's, and what one of them
    /// renamed. What each is, is for its bytes to say.
    pub hidden: Vec<PathBuf>,
    /// What could not be looked into, and why.
    pub refused: Vec<StoreFault>,
}

/// Folders never looked into: private keys, what can be made again, and what was set aside.
const NEVER: [&str; 3] = ["keys", "cache", "quarantine"];

/// Deeper than any logbook lies on a stick; a loop of mounts ends here.
const DEEPEST: usize = 24;

/// Lists the files below `root`. Links are not followed; folders whose names begin with a point are
/// the tools' own and are not looked into, and drafts of this program are left out. One folder that
/// cannot be read hides no other.
///
/// # Errors
/// What the disk refused of `root` itself.
pub fn gather<D: Disk>(disk: &D, root: &Path) -> Result<Heap, StoreFault> {
    let mut heap = Heap::default();
    let mut open = vec![(root.to_owned(), 0)];
    while let Some((folder, depth)) = open.pop() {
        let entries = match disk.list(&folder) {
            Ok(entries) => entries,
            Err(error) => {
                let fault = StoreFault::of(Doing::Read, &folder)(error);
                if depth == 0 {
                    return Err(fault);
                }
                heap.refused.push(fault);
                continue;
            }
        };
        let mut files = Vec::new();
        for entry in entries {
            let path = folder.join(&entry.name);
            match entry.kind {
                Kind::File if is_hidden(&entry.name) => {
                    if !is_draft(&entry.name) {
                        heap.hidden.push(path);
                    }
                }
                _ if is_hidden(&entry.name) => {}
                Kind::File => files.push(path),
                Kind::Folder if depth < DEEPEST && !is_never(&entry.name) => {
                    open.push((path, depth + 1));
                }
                Kind::Folder | Kind::Other => {}
            }
        }
        if !files.is_empty() {
            heap.folders.push(files);
        }
    }
    heap.folders.sort();
    heap.hidden.sort();
    Ok(heap)
}

fn is_hidden(name: &OsStr) -> bool {
    name.as_encoded_bytes().first() == Some(&b'.')
}

/// A stick may not tell small letters from large ones.
fn is_never(name: &OsStr) -> bool {
    NEVER.iter().any(|never| name.eq_ignore_ascii_case(never))
}
