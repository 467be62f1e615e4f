//! Whether `crew/allowed_signers` is the file that managers put in force, and what puts that one
//! there: one judgement, which beginning, signing, verification and the doctor tell alike.

use crate::cli::clerk::{Books, Clerk, Trouble, mode_of};
use crate::cli::command::quoted;
use crate::record::{Crew, CrewFaults, Digest, Finding, Revision, Statements, counted};
use crate::store::{Disk, Logbook, MOST_FILE_BYTES, StatementFolder, StatementText, StoreFault};
use std::fmt;
use std::io::ErrorKind;
use std::path::PathBuf;

/// Marks a text as UTF-8, to some editors.
const BYTE_ORDER_MARK: &[u8] = b"\xef\xbb\xbf";

/// A crew file that nobody goes by, and the one to go by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::cli) struct NotInForce {
    /// Where it lies.
    place: PathBuf,
    lies: Lies,
    /// The number of the file to go by.
    number: u64,
    /// The statement that put it in force, and whose it is.
    beside: (u64, String),
    /// A copy of it, beside that statement.
    copy: PathBuf,
}

/// What lies where the crew file in force should.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Lies {
    Nothing,
    /// A folder, or something else that is no file: what is copied there would end up inside.
    NoFile,
    /// A file that a manager signed for earlier, by its number.
    Earlier(u64),
    /// The file beside a statement that does not count, by the name of its folder. What is wrong
    /// with that is told of the statement; most often one before it has not arrived.
    Ahead(String),
    /// One that a manager signed for, but for its line ends.
    LineEnds,
    /// The same, but for a mark before its first line.
    Marked,
    /// What is no crew file.
    Damaged(CrewFaults),
    /// A crew file that no manager ever signed for.
    Unsigned,
}

impl NotInForce {
    /// How what lies in the crew file's place, if anything, stands to what managers stated. While
    /// two changes of the crew wait to be settled, each that a manager signed will do.
    pub(in crate::cli) fn of<D: Disk>(
        logbook: &Logbook<D>,
        file: Option<&[u8]>,
        statements: &Statements,
    ) -> Option<Self> {
        let roster = statements.roster();
        let (in_force, branches) = (roster.in_force(), roster.branches());
        let force = in_force.or_else(|| branches.first().copied())?;
        let own = file.and_then(|file| roster.crew(&Digest::of(file)));
        let goes = |own: &Revision| match in_force {
            Some(force) => {
                own.change.file == force.change.file
                    || !statements.behind(&force.statement).contains(&own.statement)
            }
            None => true,
        };
        if own.is_some_and(goes) {
            return None;
        }
        let lies = match (own, file) {
            (Some(own), _) => Lies::Earlier(own.change.number),
            (None, None) if has_no_file(logbook) => Lies::NoFile,
            (None, None) => Lies::Nothing,
            (None, Some(file)) => ahead(file, logbook)
                .unwrap_or_else(|| Lies::of(file, |file| roster.crew(&Digest::of(file)).is_some())),
        };
        let stated = statements.find(&force.statement)?;
        let (statement, hash) = (stated.statement(), stated.hash());
        let folder = logbook.statement(&statement.manager, statement.number, &hash);
        Some(Self {
            place: logbook.crew(),
            lies,
            number: force.change.number,
            beside: (statement.number, statement.name.to_string()),
            copy: folder.crew(),
        })
    }

    /// The same of a logbook that cannot be opened for want of a crew file. The crew files beside
    /// the statements tell what the logbook is for.
    pub(super) fn of_one_without<D: Disk>(
        logbook: &Logbook<D>,
    ) -> Result<Option<Self>, StoreFault> {
        let mut texts = Vec::new();
        for folder in logbook.statements()? {
            // One that cannot be read hides none of the others.
            texts.extend(logbook.read_statement(&folder).ok().flatten());
        }
        let mut crews = texts.iter().filter_map(|text| text.crew.as_ref());
        let Some(crew) = crews.find_map(|crew| Crew::read(crew).ok()) else {
            return Ok(None);
        };
        let files: Vec<_> = texts.iter().map(StatementText::files).collect();
        let statements = Statements::read(&files, mode_of(&crew), &[]);
        Ok(Self::of(logbook, file(logbook)?.as_deref(), &statements))
    }

    /// Whether no manager ever signed for it.
    pub(super) const fn is_unsigned(&self) -> bool {
        !matches!(self.lies, Lies::Earlier(_) | Lies::Ahead(_))
    }

    /// What verification finds by it: an earlier one is what a copy from before brings. Nothing
    /// where it is found by its statement already.
    pub(in crate::cli) const fn finding(&self) -> Option<Finding> {
        match self.lies {
            Lies::Ahead(_) => None,
            Lies::Earlier(_) => Some(Finding::Gap),
            _ => Some(Finding::Altered),
        }
    }

    /// Why nothing is done by it.
    pub(super) fn told(&self, refused: &str) -> Trouble {
        let sentence = format!("{refused}: {self}. The crew is changed with hames crew.");
        match self.lies {
            Lies::Earlier(_) | Lies::Ahead(_) | Lies::Unsigned => Trouble::Said(sentence),
            _ => Trouble::Unusable(sentence),
        }
    }
}

/// Whether something lies in the crew file's place, and is no file.
fn has_no_file<D: Disk>(logbook: &Logbook<D>) -> bool {
    let path = logbook.crew();
    let is_there = logbook.has(&path).unwrap_or_default();
    is_there && logbook.is_file(&path).is_ok_and(|is_file| !is_file)
}

fn ahead<D: Disk>(file: &[u8], logbook: &Logbook<D>) -> Option<Lies> {
    let beside = |folder: &StatementFolder| {
        let read = logbook.read_statement(folder).ok().flatten();
        read.and_then(|text| text.crew).as_deref() == Some(file)
    };
    let folder = logbook.statements().ok()?.into_iter().find(beside)?;
    Some(Lies::Ahead(folder.path.display().to_string()))
}

impl Lies {
    fn of(file: &[u8], is_known: impl Fn(&[u8]) -> bool) -> Self {
        let bare = file.strip_prefix(BYTE_ORDER_MARK);
        let rest = bare.unwrap_or(file);
        let plain: Vec<u8> = rest.iter().copied().filter(|byte| *byte != b'\r').collect();
        if bare.is_some_and(&is_known) {
            Self::Marked
        } else if is_known(&plain) {
            Self::LineEnds
        } else {
            Crew::read(file).map_or_else(Self::Damaged, |_| Self::Unsigned)
        }
    }
}

/// What lies there, which file is in force, and the next step; without a point at its end.
impl fmt::Display for NotInForce {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} ", self.place.display())?;
        match &self.lies {
            Lies::Nothing => write!(f, "is not there: it was taken away, or has not arrived")?,
            Lies::NoFile => write!(f, "is a folder or a link that leads nowhere, and no file")?,
            Lies::Earlier(number) => write!(f, "is crew file {number}, an earlier one")?,
            Lies::Ahead(statement) => {
                return write!(
                    f,
                    "is the one of {statement}, which does not count here: a change before it has \
                     not arrived, or it is damaged. Take in what is missing from where it was \
                     made: hames logbook merge FOLDER"
                );
            }
            Lies::LineEnds => write!(f, "had its line ends changed on the way")?,
            Lies::Marked => write!(f, "was saved with a byte order mark before its first line")?,
            Lies::Damaged(CrewFaults(faults)) => {
                write!(f, "is damaged")?;
                if let Some((first, others)) = faults.split_first() {
                    write!(f, ", {first}")?;
                    if !others.is_empty() {
                        write!(f, ", and {}", counted(others.len(), "more fault"))?;
                    }
                }
            }
            Lies::Unsigned => write!(
                f,
                "was changed, and no manager has signed that as far as is known here; where its \
                 statement has not arrived yet, merge first"
            )?,
        }
        let (number, (statement, name)) = (self.number, &self.beside);
        write!(
            f,
            ". In force is crew file {number}, by statement {statement} of {name}. Put it in its \
             place: "
        )?;
        let place = quoted(&self.place);
        if self.lies == Lies::NoFile {
            let mut away = self.place.clone().into_os_string();
            away.push(".moved");
            write!(f, "mv {place} {} && ", quoted(away.as_ref()))?;
        }
        write!(f, "cp {} {place}", quoted(&self.copy))
    }
}

/// The crew file of a logbook.
///
/// # Errors
/// Why it cannot be used; with what puts the right one in its place, where managers stated one.
pub(in crate::cli) fn crew<D: Disk>(logbook: &Logbook<D>) -> Result<Crew, Trouble> {
    let read = logbook.read(&logbook.crew()).map_err(Trouble::from);
    let read = read.and_then(|file| Ok(Crew::read(&file)?));
    // One with nobody in it does not even tell what the logbook is for.
    if read.as_ref().is_ok_and(|crew| !crew.signers().is_empty()) {
        return read;
    }
    match NotInForce::of_one_without(logbook).ok().flatten() {
        Some(not) => Err(not.told("Nothing is done by this crew file")),
        None => read,
    }
}

/// The bytes in the crew file's place; nothing where there is no file.
pub(in crate::cli) fn file<D: Disk>(logbook: &Logbook<D>) -> Result<Option<Vec<u8>>, StoreFault> {
    let path = logbook.crew();
    match logbook.disk().read(&path, MOST_FILE_BYTES) {
        Ok(bytes) => Ok(Some(bytes)),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(None),
        Err(_) if has_no_file(logbook) => Ok(None),
        Err(error) => Err(StoreFault::of_reading(&path, MOST_FILE_BYTES)(error)),
    }
}

impl<D: Disk> Clerk<D> {
    /// The logbook, to walk or sign by its crew.
    ///
    /// # Errors
    /// A sentence with its next step, where its crew file is not the one in force.
    pub(super) fn books_in_force(&self) -> Result<Books<D>, Trouble> {
        let books = self.books()?;
        books.is_in_force()?;
        Ok(books)
    }
}

impl<D: Disk> Books<D> {
    /// Refuses to begin or to seal a walk by a crew file that is not in force.
    pub(super) fn is_in_force(&self) -> Result<(), Trouble> {
        // Most often it is, and then the statements need not be read.
        let now = self.crew.revision();
        let in_force = self.roster.in_force();
        if in_force.is_some_and(|force| force.change.file == now)
            || self.roster.revisions().is_empty()
        {
            return Ok(());
        }
        match self.not_in_force(&self.statements()?) {
            None => Ok(()),
            Some(not) => Err(not.told("Nothing is walked or signed by this crew file")),
        }
    }

    /// How the crew file here stands to what managers stated, where it is not in force.
    pub(in crate::cli) fn not_in_force(&self, statements: &Statements) -> Option<NotInForce> {
        NotInForce::of(&self.logbook, Some(self.crew.text().as_bytes()), statements)
    }
}
