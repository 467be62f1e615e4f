//! Reading what was brought. What lies here with the same bytes is known, and is looked at no more.

use crate::cli::Status;
use crate::cli::logbook::merge::Stopped;
use crate::cli::logbook::merge::trips::place_of_any_history;
use crate::logbook::merge::{Pile, What};
use crate::record::{Digest, Mode};
use crate::store::{Disk, Doing, Logbook, StoreFault, gather, is_place};
use std::collections::BTreeSet;
use std::io::ErrorKind;
use std::ops::Range;
use std::path::{Path, PathBuf};

/// The files of a folder, by content.
pub(super) struct Brought {
    pub(super) pile: Pile,
    /// Where each piece of the pile can be read again.
    paths: Vec<PathBuf>,
    /// The places of the trips that have nothing that is not here.
    pub(super) known_trips: BTreeSet<PathBuf>,
    /// Whether any record in it is here too, to the byte.
    pub(super) shares: bool,
    /// What could not be read.
    pub(super) refused: Vec<String>,
    folders: usize,
    /// Whether anything in it is of a logbook, or has the place of it.
    any: bool,
    /// The pieces that come from what was aside before.
    from_aside: Range<usize>,
}

/// The folders of a logbook that hold records.
const PARTS: [&str; 4] = ["dev", "mgr", "approved", "crew"];

impl Brought {
    /// Reads a folder.
    pub(super) fn read<D: Disk>(logbook: &Logbook<D>, folder: &Path) -> Result<Self, Stopped> {
        let heap = gather(logbook.disk(), folder).map_err(|fault| not_a_folder(folder, fault))?;
        let mut brought = Self {
            pile: Pile::default(),
            paths: Vec::new(),
            known_trips: BTreeSet::new(),
            shares: false,
            refused: heap.refused.iter().map(ToString::to_string).collect(),
            folders: 0,
            any: false,
            from_aside: 0..0,
        };
        for files in &heap.folders {
            brought.take(logbook, files);
        }
        if !brought.any && brought.refused.is_empty() {
            return Err(no_logbook_in(folder));
        }
        Ok(brought)
    }

    /// Takes a folder in, unless every file of it is here.
    fn take<D: Disk>(&mut self, logbook: &Logbook<D>, files: &[PathBuf]) {
        let mut read = Vec::new();
        let mut all_known = true;
        for path in files {
            let bytes = match logbook.read_any(path) {
                Ok(bytes) => bytes,
                Err(fault) => {
                    self.refused.push(fault.to_string());
                    continue;
                }
            };
            let known = bytes.is_empty() || self.is_here(logbook, path, &bytes);
            all_known &= known;
            self.any |= !bytes.is_empty() && known || has_a_place(path);
            read.push((path, bytes));
        }
        if all_known {
            let journals = read.iter().filter(|(path, _)| path.ends_with("trip.jsonl"));
            self.known_trips
                .extend(journals.filter_map(|(path, _)| place_of_any_history(path)));
            return;
        }
        self.folders += 1;
        let of_a_logbook = |(path, _): &(&PathBuf, _)| {
            let mut parts = path.components();
            parts.any(|part| PARTS.iter().any(|one| part.as_os_str() == *one))
        };
        if read.iter().any(of_a_logbook) {
            self.pile.mark(self.folders);
        }
        for (path, bytes) in read {
            self.add(path, bytes);
        }
    }

    /// Answers the piece, where it is a new one.
    fn add(&mut self, path: &Path, bytes: Vec<u8>) -> Option<usize> {
        let (piece, new) = self.pile.add(self.folders, bytes);
        let what = self.pile.get(piece).map(|one| &one.what);
        self.any |= what.is_some_and(|what| what.is_record() || matches!(what, What::Crew(_)));
        if new && !has_a_name_of_ours(path) {
            self.pile.leave(piece);
        }
        if new {
            self.paths.push(path.to_owned());
        }
        new.then_some(piece)
    }

    /// Whether the same bytes lie here in the same place. The place is a hint where to look; only
    /// the bytes decide.
    fn is_here<D: Disk>(&mut self, logbook: &Logbook<D>, path: &Path, bytes: &[u8]) -> bool {
        let parts: Vec<_> = path.components().collect();
        let places = (0..parts.len()).map(|at| parts.iter().skip(at).collect::<PathBuf>());
        let mut tried = places.filter(|place| is_place(place));
        let same = |place: PathBuf| {
            let here = logbook.root().join(place);
            here == path
                || logbook
                    .disk()
                    .read(&here, bytes.len())
                    .is_ok_and(|ours| ours == bytes)
        };
        let known = tried.any(same);
        let is_list = path.components().any(|part| part.as_os_str() == "approved");
        // The lists that come with the program are the same in every barn.
        self.shares |= known && !is_list;
        known
    }

    /// Takes in what earlier merges had kept aside.
    pub(super) fn take_up<D: Disk>(&mut self, logbook: &Logbook<D>) -> Result<(), StoreFault> {
        let from = self.paths.len();
        let aside = logbook.all_aside()?;
        for path in &aside {
            let bytes = logbook.read_any(path)?;
            self.folders += 1;
            self.add(path, bytes);
        }
        self.from_aside = from..self.paths.len();
        Ok(())
    }

    /// Whether a piece was found only among what was aside before.
    pub(super) fn was_aside(&self, piece: usize) -> bool {
        self.from_aside.contains(&piece)
    }

    /// Takes in a file of ours, so that signatures of it are known as such. Answers the piece, where
    /// nobody brought the same.
    pub(super) fn take_ours(&mut self, path: &Path, bytes: Vec<u8>) -> Option<usize> {
        self.folders += 1;
        self.add(path, bytes)
    }

    /// A piece as it is on the disk, where it is still what it was.
    pub(super) fn fetch<D: Disk>(
        &self,
        logbook: &Logbook<D>,
        piece: usize,
    ) -> Result<Option<(PathBuf, Vec<u8>)>, StoreFault> {
        let Some((path, known)) = self.paths.get(piece).zip(self.pile.get(piece)) else {
            return Ok(None);
        };
        // This merge may have moved it out of the way since.
        for path in [path.clone(), logbook.kept(&known.hash)] {
            let there = logbook.disk().exists(&path);
            // A disk that refuses is no file that is gone.
            if there.map_err(StoreFault::of(Doing::Read, &path))? {
                let bytes = logbook.read_any(&path)?;
                if Digest::of(&bytes) == known.hash {
                    return Ok(Some((path, bytes)));
                }
            }
        }
        Ok(None)
    }

    /// The text with this plain hash, where it was brought.
    pub(super) fn text<D: Disk>(
        &self,
        logbook: &Logbook<D>,
        hash: &Digest,
    ) -> Result<Option<Vec<u8>>, StoreFault> {
        let Some(piece) = self.pile.find(hash) else {
            return Ok(None);
        };
        Ok(self.fetch(logbook, piece)?.map(|(_, bytes)| bytes))
    }

    /// Where a piece lies.
    pub(super) fn path(&self, piece: usize) -> Option<&Path> {
        self.paths.get(piece).map(PathBuf::as_path)
    }

    /// The modes of the records brought.
    pub(super) fn modes(&self) -> impl Iterator<Item = Mode> {
        (0..self.paths.len()).filter_map(|at| match &self.pile.get(at)?.what {
            What::Journal(beginning) => Some(beginning.mode),
            What::Seal(seal) => Some(seal.mode),
            What::Statement(statement) => Some(statement.mode),
            What::Approval(approval) => Some(approval.mode),
            _ => None,
        })
    }
}

/// Whether a name begins like that of a record, whatever a tool did to it: `Copy of rig.yaml`,
/// `CHECKL~1.YAM`.
fn has_a_name_of_ours(path: &Path) -> bool {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    let name = name.to_lowercase();
    let mut words = name.split(|letter: char| !letter.is_alphanumeric());
    words.any(|word| OUR_WORDS.iter().any(|ours| word.starts_with(ours)))
}

/// How the names of records begin, as far as a disk with short names keeps them; and what is kept
/// aside.
const OUR_WORDS: [&str; 9] = [
    "trip", "checkl", "rig", "crew", "allowe", "seal", "statem", "approv", "found",
];

/// Whether a path ends as one does where a logbook keeps a record.
fn has_a_place(path: &Path) -> bool {
    let parts: Vec<_> = path.components().collect();
    let mut ends = (0..parts.len()).map(|at| parts.iter().skip(at).collect::<PathBuf>());
    ends.any(|end| is_place(&end))
}

const WHAT_ONE_IS: &str = "A logbook is a folder with dev/, crew/ and mgr/ in it. Name that folder, \
    or the stick it lies on: hames logbook merge FOLDER";

fn no_logbook_in(folder: &Path) -> Stopped {
    Stopped {
        status: Status::Store,
        sentence: format!(
            "There is no logbook in {}, and nothing of one, so nothing was merged. {WHAT_ONE_IS}",
            folder.display()
        ),
    }
}

fn not_a_folder(folder: &Path, fault: StoreFault) -> Stopped {
    match &fault {
        StoreFault::Refused { cause, .. } if cause.kind == ErrorKind::NotADirectory => Stopped {
            status: Status::Store,
            sentence: format!(
                "{} is a file, and a logbook is merged from a folder. {WHAT_ONE_IS}",
                folder.display()
            ),
        },
        _ => fault.into(),
    }
}
