//! Reading what was brought. What lies here with the same bytes is known, and is looked at no more.

use crate::cli::Status;
use crate::cli::logbook::merge::Stopped;
use crate::cli::logbook::merge::drills::are_of_a_drill;
use crate::cli::logbook::merge::trips::place_of_any_history;
use crate::logbook::merge::{Pile, What, is_record};
use crate::record::{Digest, Mode};
use crate::store::{Disk, Doing, Logbook, StoreFault, gather, is_place};
use std::collections::{BTreeMap, BTreeSet};
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
    /// Whether anything in it that is of one barn alone is here too, to the byte.
    pub(super) shares: bool,
    /// Whether a trip or a statement of it is, which says in which mode it was made.
    pub(super) shares_records: bool,
    /// The folders of drills.
    pub(super) drills: Vec<PathBuf>,
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

/// The files that no two barns have alike. Settings, lists that come with the program and rigs say
/// nothing about whose logbook it is.
const RECORDS: [&str; 6] = [
    "trip.jsonl",
    "seal.json",
    "seal.person.sig",
    "seal.device.sig",
    "statement.json",
    "statement.sig",
];

/// The same of who may sign, which says nothing about the mode.
const CREW_FILES: [&str; 2] = ["allowed_signers", "crew.allowed_signers"];

/// How the notes begin that a system keeps about a file, under its name behind `._`.
const NOTES_OF_A_SYSTEM: &[u8] = b"\0\x05\x16\x07";

impl Brought {
    /// Reads a folder.
    pub(super) fn read<D: Disk>(logbook: &Logbook<D>, folder: &Path) -> Result<Self, Stopped> {
        let heap = gather(logbook.disk(), folder).map_err(|fault| not_a_folder(folder, fault))?;
        let mut brought = Self {
            pile: Pile::default(),
            paths: Vec::new(),
            known_trips: BTreeSet::new(),
            shares: false,
            shares_records: false,
            drills: Vec::new(),
            refused: heap.refused.iter().map(ToString::to_string).collect(),
            folders: 0,
            any: false,
            from_aside: 0..0,
        };
        let mut hidden: BTreeMap<Option<&Path>, Vec<&PathBuf>> = BTreeMap::new();
        for path in &heap.hidden {
            hidden.entry(path.parent()).or_default().push(path);
        }
        for files in &heap.folders {
            let beside = files.first().map(|path| path.parent());
            let above = beside.flatten();
            let beside = beside.and_then(|folder| hidden.remove(&folder));
            if let Some(folder) = above.filter(|one| are_of_a_drill(logbook, one)) {
                brought.drills.push(folder.to_owned());
                brought.any = true;
                continue;
            }
            brought.take(logbook, files, &beside.unwrap_or_default());
        }
        let of_walks = |beside: &Vec<&PathBuf>| {
            let folder = beside.first().and_then(|path| path.parent());
            !folder.is_some_and(|folder| are_of_a_drill(logbook, folder))
        };
        for beside in hidden.into_values().filter(of_walks) {
            brought.take(logbook, &[], &beside);
        }
        if !brought.any && brought.refused.is_empty() {
            return Err(no_logbook_in(folder));
        }
        Ok(brought)
    }

    /// Takes a folder in, unless every file of it is here.
    fn take<D: Disk>(&mut self, logbook: &Logbook<D>, files: &[PathBuf], hidden: &[&PathBuf]) {
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
        for path in hidden {
            if let Some(bytes) = self.read_hidden(logbook, path) {
                all_known = false;
                read.push((path, bytes));
            }
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

    /// What lies under a name that begins with a point, where it may be of a record: a record under
    /// whatever name, and else what has the name of one. What a system notes about a file is none.
    fn read_hidden<D: Disk>(&mut self, logbook: &Logbook<D>, path: &Path) -> Option<Vec<u8>> {
        let is_named = has_a_name_of_ours(path);
        match logbook.read_any(path) {
            Ok(bytes) if bytes.is_empty() || bytes.starts_with(NOTES_OF_A_SYSTEM) => None,
            Ok(bytes) => (is_named || is_record(&bytes)).then_some(bytes),
            Err(fault) => {
                self.refused.extend(is_named.then(|| fault.to_string()));
                None
            }
        }
    }

    /// Answers the piece, where it is a new one.
    fn add(&mut self, path: &Path, bytes: Vec<u8>) -> Option<usize> {
        let (piece, new) = self.pile.add(self.folders, bytes);
        let what = self.pile.get(piece).map(|one| &one.what);
        self.any |= what.is_some_and(|what| what.is_record() || matches!(what, What::Crew(_)));
        if new && (is_hidden(path) || !has_a_name_of_ours(path)) {
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
        self.shares_records |= known && is_named(path, &RECORDS);
        self.shares |= known && (is_named(path, &RECORDS) || is_named(path, &CREW_FILES));
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

    /// What stands for a piece of none of what was brought.
    pub(super) fn beyond(&self, at: usize) -> usize {
        self.paths.len().saturating_add(at)
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
pub(super) fn has_a_name_of_ours(path: &Path) -> bool {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    let name = name.to_lowercase();
    let mut words = name.split(|letter: char| !letter.is_alphanumeric());
    words.any(|word| OUR_WORDS.iter().any(|ours| word.starts_with(ours)))
}

fn is_named(path: &Path, names: &[&str]) -> bool {
    names.iter().any(|name| path.ends_with(name))
}

fn is_hidden(path: &Path) -> bool {
    let name = path.file_name().unwrap_or_default();
    name.as_encoded_bytes().starts_with(b".")
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
