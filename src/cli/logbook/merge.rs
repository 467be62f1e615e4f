//! `hames logbook merge`: what somebody brings in a folder, taken into the logbook.

mod after;
mod aside;
mod astray;
mod crew_file;
mod drills;
mod open;
mod part;
mod people;
mod read;
mod report;
mod statements;
mod tidy;
mod trips;
mod waiting;
mod write;

pub use crate::cli::Status;
pub use aside::{CameBack, Mended, SetAside};
pub use drills::DrillsCame;
pub use open::{Damaged, InPart, Neighbours, Open};
pub use report::{Came, How, Merged};

use crate::cli::clerk::{Books, Trouble};
use crate::cli::logbook::merge::read::Brought;
use crate::cli::logbook::merge::trips::{place_of, trip_beside};
use crate::cli::logbook::shelf::Failed;
use crate::logbook::merge::{Told, TripKey, Trusted, What, Why};
use crate::record::{Digest, Mode, Statements};
use crate::store::{Disk, Local, Logbook, StoreFault};
use std::collections::{BTreeSet, HashMap, HashSet};
use std::io::Write;
use std::path::{Path, PathBuf};

/// Why nothing was merged: the status to end with, and a sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stopped {
    /// How the program ends.
    pub status: Status,
    /// What is told.
    pub sentence: String,
}

/// Merges, and tells it.
pub(super) fn told(
    root: &Path,
    folder: &Path,
    (look, json): (bool, bool),
    out: &mut dyn Write,
) -> Result<Status, Failed> {
    let merged = merge(&Local, root, folder, look)
        .map_err(|stopped| Failed::Said(stopped.status, stopped.sentence))?;
    let told = if json {
        merged.as_json(out)
    } else {
        merged.as_text(out)
    };
    told.map(|()| merged.status()).map_err(Failed::Output)
}

/// Takes into the logbook at `root` what is in `folder` and is not there yet. With `look` nothing
/// is written, and what would be is told.
///
/// # Errors
/// A sentence, where nothing could be read or the folder is of another barn. Nothing was written
/// then, but for what was written before a disk began to refuse.
pub fn merge<D: Disk>(disk: &D, root: &Path, folder: &Path, look: bool) -> Result<Merged, Stopped> {
    let aside_before = aside_before(disk, root)?;
    let (books, mended) = crew_file::open(disk, root, look)?;
    let mut merge = Merge::begin(books, folder, look)?;
    merge.merged.aside_before = aside_before;
    merge.merged.mended.extend(mended);
    merge.is_of_this_barn()?;
    merge.take_up_what_is_aside()?;
    merge.statements()?;
    let parts = merge.assembled()?;
    merge.approvals(&parts)?;
    merge.trips(&parts)?;
    merge.the_rest(&parts)?;
    merge.crew()?;
    merge.drills()?;
    merge.tidy()?;
    merge.astray()?;
    merge.look_around()?;
    merge.still_waiting()?;
    merge.merged.known = merge.known();
    Ok(merge.merged)
}

/// How much lies in quarantine before anything is done.
fn aside_before<D: Disk>(disk: &D, root: &Path) -> Result<usize, StoreFault> {
    // What is no logbook is told where it is opened.
    Logbook::open(disk.clone(), root).map_or(Ok(0), |logbook| Ok(logbook.all_aside()?.len()))
}

/// A merge under way.
struct Merge<D: Disk> {
    books: Books<D>,
    mode: Mode,
    look: bool,
    brought: Brought,
    trusted: Trusted,
    statements: Statements,
    told: Told,
    /// The pieces that were set aside on the way.
    aside: BTreeSet<usize>,
    /// The texts that lie beside a record here, by their plain hash.
    placed: BTreeSet<Digest>,
    /// The trips that were looked at.
    seen: BTreeSet<TripKey>,
    /// The places of those that had nothing new.
    known: BTreeSet<PathBuf>,
    /// What of them cannot be relied on here.
    damaged: Vec<Damaged>,
    /// The trips that are here in part.
    parts: Vec<InPart>,
    /// The folders that this merge would complete, where it is only looked at.
    completed: BTreeSet<PathBuf>,
    /// What was kept aside before and may still wait for something.
    waits: Vec<Vec<u8>>,
    /// The texts of records that are kept aside for good, and why.
    refused: HashMap<Digest, Why>,
    /// The plain hash of every file of a record that was here, once it is asked for.
    here: Option<HashSet<Digest>>,
    merged: Merged,
}

impl<D: Disk> Merge<D> {
    fn begin(books: Books<D>, folder: &Path, look: bool) -> Result<Self, Stopped> {
        let statements = books.statements()?;
        let crews = statements.roster().revisions().iter();
        let trusted = Trusted::new(&books.crew, crews.map(|one| one.crew.clone()));
        let brought = Brought::read(&books.logbook, folder)?;
        let mut merged = Merged::new(folder, look);
        merged.refused.clone_from(&brought.refused);
        Ok(Self {
            mode: books.mode(),
            look,
            trusted,
            known: brought.known_trips.clone(),
            told: Told::of(&statements),
            statements,
            brought,
            aside: BTreeSet::new(),
            placed: BTreeSet::new(),
            seen: BTreeSet::new(),
            damaged: Vec::new(),
            parts: Vec::new(),
            completed: BTreeSet::new(),
            waits: Vec::new(),
            refused: HashMap::new(),
            here: None,
            merged,
            books,
        })
    }

    /// Keeps a file aside, and tells it. Of one that was kept aside before it is told only whether it
    /// still waits for something.
    fn aside(&mut self, piece: usize, why: &Why) -> Result<(), StoreFault> {
        if !self.aside.insert(piece) {
            return Ok(());
        }
        let Some((path, bytes)) = self.brought.fetch(&self.books.logbook, piece)? else {
            return Ok(());
        };
        let logbook = &self.books.logbook;
        let hash = Digest::of(&bytes);
        if logbook.is_aside(&hash)? {
            if why.waits() {
                self.waits.push(bytes);
            }
            return Ok(());
        }
        if self.was_here(&hash)? {
            return Ok(());
        }
        let logbook = &self.books.logbook;
        let kept = logbook.aside(&hash);
        if !self.look {
            let text = format!("{}\n\n{why}.\n{}\n", path.display(), why.next_step());
            logbook.set_aside(&bytes, &text)?;
        }
        let of = self.says_it_is_of(piece);
        let beside = of.is_none().then(|| trip_beside(&path)).flatten();
        self.merged.aside.push(SetAside {
            path,
            kept,
            why: why.clone(),
            of,
            beside,
        });
        Ok(())
    }

    /// How many trips had nothing new, however often and in however many histories they lie here.
    fn known(&self) -> usize {
        let came = self.merged.came.iter();
        let came: BTreeSet<PathBuf> = came.map(|one| place_of(&one.key)).collect();
        self.known.difference(&came).count()
    }

    fn says_it_is_of(&self, piece: usize) -> Option<(TripKey, Neighbours)> {
        let key = match &self.brought.pile.get(piece)?.what {
            What::Journal(beginning) => beginning.key.clone(),
            What::Seal(seal) => TripKey::sealed(seal),
            _ => return None,
        };
        Some((key, Neighbours::default()))
    }
}

/// Where nothing is, a second logbook must not be founded beside the barn's.
fn no_logbook(root: &Path, trouble: Trouble) -> Stopped {
    if !matches!(trouble, Trouble::Store(StoreFault::NotALogbook { .. })) {
        return trouble.into();
    }
    let sentence = format!(
        "There is no logbook in {} to merge into. Name the barn's with --logbook. On a second \
         laptop, do not make a new one: that would be another barn. Copy the barn's whole folder \
         there, all but keys/, say hames crew request --to FILE on this laptop, and have a manager \
         let it in with hames crew add --device --public FILE; then merge here.",
        root.display()
    );
    Stopped {
        status: Status::Store,
        sentence,
    }
}

impl From<StoreFault> for Stopped {
    fn from(fault: StoreFault) -> Self {
        Self {
            status: Status::Store,
            sentence: fault.to_string(),
        }
    }
}

impl From<Trouble> for Stopped {
    fn from(trouble: Trouble) -> Self {
        Self {
            status: Status::Store,
            sentence: trouble.to_string(),
        }
    }
}
