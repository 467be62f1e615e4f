//! A trip's journal: one line at a time, each on the disk before anybody calls it recorded.

use crate::record::{MAX_LINE, MAX_TRIP, split_torn};
use crate::store::whole::{sync_name, write_once};
use crate::store::{Cause, Disk, Doing, LineProblem, Mode, StoreFault};
use std::io;
use std::path::{Path, PathBuf};

/// An open journal. This process alone writes it: the lock is taken when it opens and goes with
/// it, or with the process.
#[derive(Debug)]
pub struct Journal<D: Disk> {
    disk: D,
    file: D::File,
    path: PathBuf,
    lines: u64,
    end: u64,
    refusal: Option<StoreFault>,
}

/// A journal opened to go on with it.
#[derive(Debug)]
pub struct Resumed<D: Disk> {
    /// The journal, ready for the next line.
    pub journal: Journal<D>,
    /// Its whole lines, byte for byte.
    pub lines: Vec<u8>,
    /// Where the torn end was put, if there was one.
    pub torn: Option<PathBuf>,
}

/// A journal as it was read, by someone who does not write it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JournalText {
    /// Its whole lines, byte for byte.
    pub lines: Vec<u8>,
    /// What follows them: a line in the making, or what a crash left of one.
    pub torn: Vec<u8>,
}

impl<D: Disk> Journal<D> {
    /// Makes a journal with its first line. When this returns, the line, the file and its name
    /// are on the disk.
    ///
    /// # Errors
    /// [`StoreFault::Taken`] when there is one already, [`StoreFault::NotALine`], or what the
    /// disk refused.
    pub fn create(disk: D, path: &Path, first: &[u8]) -> Result<Self, StoreFault> {
        check_line(first)?;
        let file = disk
            .create_new(path, Mode::Shared)
            .map_err(StoreFault::of(Doing::Create, path))?;
        lock(&disk, &file, path)?;
        let mut journal = Self {
            disk,
            file,
            path: path.to_owned(),
            lines: 0,
            end: 0,
            refusal: None,
        };
        journal.append(first)?;
        sync_name(&journal.disk, path)?;
        Ok(journal)
    }

    /// Opens a journal to go on with it. What a crash left behind the last whole line is kept in
    /// a file of its own beside the journal and then cut off, in this order, so that a second
    /// crash on the way loses nothing. The cut is made even when nothing is seen behind the last
    /// line: it may be the one whose sync failed.
    ///
    /// # Errors
    /// [`StoreFault::InUse`] while another has it open, [`StoreFault::TooLarge`], or what the
    /// disk refused; the journal then stays as it was.
    pub fn resume(disk: D, path: &Path) -> Result<Resumed<D>, StoreFault> {
        let mut file = disk.open(path).map_err(StoreFault::of(Doing::Open, path))?;
        lock(&disk, &file, path)?;
        let bytes = disk
            .read_back(&mut file, MAX_TRIP)
            .map_err(StoreFault::of_reading(path, MAX_TRIP))?;
        let (whole, torn) = split_torn(&bytes);
        let torn = if torn.is_empty() {
            None
        } else {
            Some(set_aside(&disk, path, torn)?)
        };
        let end = length(whole);
        disk.cut(&mut file, end)
            .map_err(StoreFault::of(Doing::Write, path))?;
        make_certain(&disk, &mut file, whole).map_err(StoreFault::of(Doing::Sync, path))?;
        sync_name(&disk, path)?;
        let lines = whole.to_vec();
        let journal = Self {
            disk,
            file,
            path: path.to_owned(),
            lines: count(whole),
            end,
            refusal: None,
        };
        Ok(Resumed {
            journal,
            lines,
            torn,
        })
    }

    /// Appends one line, given without its line break. When this returns `Ok`, and only then, the
    /// line is on the disk.
    ///
    /// # Errors
    /// [`StoreFault::NotALine`] and [`StoreFault::JournalFull`] before anything is written;
    /// [`StoreFault::NotRecorded`] when the disk refused, and then again for every later line:
    /// after a failed write or sync a success says nothing about what was written before it.
    pub fn append(&mut self, line: &[u8]) -> Result<(), StoreFault> {
        if let Some(refusal) = &self.refusal {
            return Err(refusal.clone());
        }
        check_line(line)?;
        let line = [line, b"\n"].concat();
        let end = self.end.saturating_add(length(&line));
        if usize::try_from(end).map_or(true, |end| end > MAX_TRIP) {
            return Err(StoreFault::JournalFull {
                journal: self.path.clone(),
                recorded: self.lines,
            });
        }
        let written = self
            .disk
            .write_at(&mut self.file, self.end, &line)
            .and_then(|()| self.disk.sync(&mut self.file));
        if let Err(error) = written {
            let refusal = StoreFault::NotRecorded {
                journal: self.path.clone(),
                recorded: self.lines,
                cause: Cause::from(&error),
            };
            self.refusal = Some(refusal.clone());
            return Err(refusal);
        }
        self.end = end;
        self.lines += 1;
        Ok(())
    }

    /// How many lines are on the disk.
    pub fn lines(&self) -> u64 {
        self.lines
    }

    /// Why the journal takes no more lines, once the disk has refused one.
    pub fn refusal(&self) -> Option<&StoreFault> {
        self.refusal.as_ref()
    }

    /// Where the journal lies.
    pub fn path(&self) -> &Path {
        &self.path
    }
}

impl JournalText {
    /// Reads a journal without a lock and without changing anything.
    ///
    /// # Errors
    /// [`StoreFault::TooLarge`], or what the disk refused.
    pub fn read<D: Disk>(disk: &D, path: &Path) -> Result<Self, StoreFault> {
        let bytes = disk
            .read(path, MAX_TRIP)
            .map_err(StoreFault::of_reading(path, MAX_TRIP))?;
        let (lines, torn) = split_torn(&bytes);
        Ok(Self {
            lines: lines.to_vec(),
            torn: torn.to_vec(),
        })
    }
}

/// Takes the lock of a file, or says who has it.
pub(crate) fn lock<D: Disk>(disk: &D, file: &D::File, path: &Path) -> Result<(), StoreFault> {
    match disk.try_lock(file) {
        Ok(true) => Ok(()),
        Ok(false) => Err(StoreFault::InUse {
            path: path.to_owned(),
        }),
        Err(error) => Err(StoreFault::of(Doing::Lock, path)(error)),
    }
}

/// Writes the last line once more, the same bytes in the same place, and syncs.
///
/// It may be the one whose sync failed. The system then shows it to every reader, calls it clean
/// and never writes it: a line chained to it would stand on nothing after the next power loss.
pub(crate) fn make_certain<D: Disk>(disk: &D, file: &mut D::File, whole: &[u8]) -> io::Result<()> {
    let start = whole
        .iter()
        .rev()
        .skip(1)
        .position(|byte| *byte == b'\n')
        .map_or(0, |back| whole.len() - 1 - back);
    let (before, last) = whole.split_at(start);
    if !last.is_empty() {
        disk.write_at(file, length(before), last)?;
    }
    disk.sync(file)
}

/// Keeps a torn end in `trip.torn-1`, or the next free number, on the disk when this returns.
fn set_aside<D: Disk>(disk: &D, journal: &Path, torn: &[u8]) -> Result<PathBuf, StoreFault> {
    let mut number = 1_u32;
    loop {
        let path = journal.with_extension(format!("torn-{number}"));
        if !disk
            .exists(&path)
            .map_err(StoreFault::of(Doing::Read, &path))?
        {
            write_once(disk, &path, torn, Mode::Shared)?;
            return Ok(path);
        }
        // A crash between the keeping and the cutting: it is kept already.
        if disk.read(&path, MAX_TRIP).is_ok_and(|kept| kept == torn) {
            sync_name(disk, &path)?;
            return Ok(path);
        }
        number += 1;
    }
}

fn check_line(line: &[u8]) -> Result<(), StoreFault> {
    let problem = if line.is_empty() {
        LineProblem::Empty
    } else if line.len() > MAX_LINE {
        LineProblem::TooLong
    } else if line.iter().any(|byte| matches!(byte, b'\n' | 0)) {
        LineProblem::Broken
    } else {
        return Ok(());
    };
    Err(StoreFault::NotALine(problem))
}

fn length(bytes: &[u8]) -> u64 {
    u64::try_from(bytes.len()).unwrap_or(u64::MAX)
}

fn count(whole: &[u8]) -> u64 {
    let breaks = whole.split(|byte| *byte == b'\n').skip(1).count();
    u64::try_from(breaks).unwrap_or(u64::MAX)
}
