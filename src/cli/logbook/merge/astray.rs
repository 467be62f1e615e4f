//! Copies that a file sync made of what is no trip: of the folder of a device or of a statement, of the
//! crew file. Moved aside where every file in them lies here in its own place.

use crate::cli::logbook::merge::Merge;
use crate::cli::logbook::merge::aside::Mended;
use crate::cli::logbook::merge::read::has_a_name_of_ours;
use crate::cli::logbook::merge::waiting::Everything;
use crate::record::Id;
use crate::store::{Disk, StoreFault, gather, is_place};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

impl<D: Disk> Merge<D> {
    /// Moves such copies aside.
    pub(super) fn astray(&mut self) -> Result<(), StoreFault> {
        let root = self.books.logbook.root().to_owned();
        let heap = gather(self.books.logbook.disk(), &root)?;
        let mut copies: BTreeMap<PathBuf, Vec<PathBuf>> = BTreeMap::new();
        for path in heap.folders.into_iter().flatten() {
            let top = path.strip_prefix(&root).ok().and_then(stray);
            if let Some(top) = top {
                copies.entry(root.join(top)).or_default().push(path);
            }
        }
        // Of what has a name of an editor or a system, only a copy beside a record.
        for path in heap.hidden {
            let top = path.strip_prefix(&root).ok().and_then(stray);
            if top.is_some_and(|top| root.join(top) == path) && has_a_name_of_ours(&path) {
                copies.insert(path.clone(), vec![path]);
            }
        }
        if copies.is_empty() {
            return Ok(());
        }
        let here = Everything::of(&self.books.logbook)?;
        for (top, files) in copies {
            if let Some(into) = self.held_by(&files, &here)? {
                self.move_astray(top, &files, into)?;
            }
        }
        Ok(())
    }

    /// The place that has all of these files where they belong; nothing where any of them lies nowhere
    /// else.
    fn held_by(&self, files: &[PathBuf], here: &Everything) -> Result<Option<PathBuf>, StoreFault> {
        let logbook = &self.books.logbook;
        let mut into: Option<PathBuf> = None;
        for path in files {
            let bytes = logbook.read_any(path)?;
            if bytes.is_empty() {
                continue;
            }
            let Some(place) = here.holds(path, &bytes) else {
                return Ok(None);
            };
            into = Some(into.map_or_else(|| place.to_owned(), |into| above_both(&into, place)));
        }
        Ok(into)
    }

    fn move_astray(
        &mut self,
        top: PathBuf,
        files: &[PathBuf],
        into: PathBuf,
    ) -> Result<(), StoreFault> {
        let mut kept = Vec::new();
        let mut folders = BTreeSet::new();
        for path in files {
            kept.push(self.copy_aside(path, &into)?);
            if self.look {
                continue;
            }
            let above = path.ancestors().skip(1);
            folders.extend(
                above
                    .take_while(|one| one.starts_with(&top))
                    .map(Path::to_owned),
            );
        }
        // The innermost first.
        for folder in folders.iter().rev() {
            self.books.logbook.let_go_of(folder)?;
        }
        kept.dedup();
        self.merged.mended.push(Mended::Moved {
            what: "a copy that has nothing of its own".to_owned(),
            path: top,
            into,
            kept,
        });
        Ok(())
    }
}

/// The innermost folder that has both; of one place, the place.
fn above_both(one: &Path, other: &Path) -> PathBuf {
    let both = one.components().zip(other.components());
    let same = both.take_while(|(one, other)| one == other);
    same.map(|(part, _)| part).collect()
}

/// The outermost folder, or the file, that has no place in a logbook, where a record lies beside it.
/// What lies among trips is looked at trip by trip.
fn stray(below: &Path) -> Option<PathBuf> {
    let parts: Option<Vec<&str>> = below.iter().map(|part| part.to_str()).collect();
    let parts = parts?;
    let is_id = |name: &str| Id::read(name).is_ok();
    let top = match parts.as_slice() {
        ["crew", _] if !is_place(below) => 2,
        ["dev" | "mgr" | "approved", name, ..] if !is_id(name) => 2,
        ["mgr" | "approved", _, _, ..] if !is_place(below) => 3,
        _ => return None,
    };
    let above: PathBuf = parts.iter().take(top).collect();
    let has_place = |file: &str| is_place(&above.join(file));
    if has_place("statement.json") || has_place("approval.json") {
        return Some(parts.into_iter().take(top + 1).collect());
    }
    Some(above)
}
