//! What the disk refused, as facts, and the one place where it becomes a sentence.

use std::error::Error;
use std::fmt;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// Why something is not stored or cannot be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum StoreFault {
    /// The disk refused a line. The journal takes no more, whatever the disk says later.
    NotRecorded {
        /// The journal.
        journal: PathBuf,
        /// How many lines are certainly on the disk.
        recorded: u64,
        /// What the disk said.
        cause: Cause,
    },
    /// The journal has reached the size that every reader accepts.
    JournalFull {
        /// The journal.
        journal: PathBuf,
        /// How many lines it has, all of them on the disk.
        recorded: u64,
    },
    /// The bytes are not one line of text. Nothing was written.
    NotALine(LineProblem),
    /// Another process has the file.
    InUse {
        /// The locked file.
        path: PathBuf,
    },
    /// The name is taken, and what lies there is never replaced.
    Taken {
        /// The name.
        path: PathBuf,
    },
    /// The file is larger than any honest one.
    TooLarge {
        /// The file.
        path: PathBuf,
        /// The most bytes it may have.
        most: usize,
    },
    /// There is no logbook in the folder.
    NotALogbook {
        /// The folder.
        folder: PathBuf,
    },
    /// Something lies in a folder that is to be new.
    NotEmpty {
        /// The folder.
        folder: PathBuf,
    },
    /// The device has used the last place in its sequence of trips.
    NoSeqLeft {
        /// The folder of the device's trips.
        folder: PathBuf,
    },
    /// The disk refused anything else.
    Refused {
        /// What was tried.
        doing: Doing,
        /// With which file or folder.
        path: PathBuf,
        /// What the disk said.
        cause: Cause,
    },
}

/// Why some bytes are not one line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LineProblem {
    /// There are none.
    Empty,
    /// There is a line break or a NUL among them.
    Broken,
    /// There are too many.
    TooLong,
}

/// What was tried when the disk refused.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Doing {
    /// Making a file or a folder.
    Create,
    /// Opening a file.
    Open,
    /// Locking a file.
    Lock,
    /// Reading a file or a folder.
    Read,
    /// Writing a file.
    Write,
    /// Waiting until the disk has it.
    Sync,
    /// Giving a file its name.
    Rename,
    /// Removing what was pruned.
    Remove,
}

/// What the disk said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cause {
    /// The kind of refusal.
    pub kind: ErrorKind,
    /// The system's own words.
    pub said: String,
}

impl StoreFault {
    /// The fault for an answer of the disk that is not about a line of a journal.
    pub(crate) fn of(doing: Doing, path: &Path) -> impl FnOnce(io::Error) -> Self {
        let path = path.to_owned();
        move |error| match (doing, error.kind()) {
            (Doing::Create | Doing::Rename, ErrorKind::AlreadyExists) => Self::Taken { path },
            _ => Self::Refused {
                doing,
                path,
                cause: Cause::from(&error),
            },
        }
    }

    /// As [`of`](Self::of) for reading at most so many bytes.
    pub(crate) fn of_reading(path: &Path, most: usize) -> impl FnOnce(io::Error) -> Self {
        let path = path.to_owned();
        move |error| match error.kind() {
            ErrorKind::FileTooLarge => Self::TooLarge { path, most },
            _ => Self::of(Doing::Read, &path)(error),
        }
    }
}

impl From<&io::Error> for Cause {
    fn from(error: &io::Error) -> Self {
        Self {
            kind: error.kind(),
            said: error.to_string(),
        }
    }
}

impl Error for StoreFault {}

/// What a person does when the journal takes no more.
const ON_PAPER: &str = "Finish on paper: write down each step that is left, what you read or \
    saw, the time and your name, and keep the sheet with this trip";

impl fmt::Display for StoreFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotRecorded {
                journal,
                recorded,
                cause,
            } => write!(
                f,
                "The disk refused a line of {}: {cause}. {}. {ON_PAPER}.",
                journal.display(),
                Recorded(*recorded),
            ),
            Self::JournalFull { journal, recorded } => write!(
                f,
                "{} is as long as a journal may be. {}. {ON_PAPER}.",
                journal.display(),
                Recorded(*recorded),
            ),
            Self::NotALine(problem) => write!(
                f,
                "What should be recorded is not one line of text: {}. Nothing was written. \
                 Give it again, shorter and on one line.",
                match problem {
                    LineProblem::Empty => "it is empty",
                    LineProblem::Broken => "it holds a line break or a NUL",
                    LineProblem::TooLong => "it is too long",
                },
            ),
            Self::InUse { path } => write!(
                f,
                "Another window of this program is using {}. Go on there, or close it and try \
                 again here; nothing needs to be deleted.",
                path.display(),
            ),
            Self::Taken { path } => write!(
                f,
                "{} is there already, and what is stored is never replaced. Choose another \
                 name, or look at what is there.",
                path.display(),
            ),
            Self::TooLarge { path, most } => write!(
                f,
                "{} has more than {most} bytes, more than this program ever writes there. See \
                 how it came there; it was not read.",
                path.display(),
            ),
            Self::NotALogbook { folder } => write!(
                f,
                "There is no logbook in {}. Name the folder of one, or make a new one there.",
                folder.display(),
            ),
            Self::NotEmpty { folder } => write!(
                f,
                "{} is not empty, and nothing is put among what lies there. Name a folder that is \
                 not there yet.",
                folder.display(),
            ),
            Self::NoSeqLeft { folder } => write!(
                f,
                "{} has no number left for another trip. Enrol the device anew under another name.",
                folder.display(),
            ),
            Self::Refused { doing, path, cause } => write!(
                f,
                "The disk refused to {} {}: {cause}. {}.",
                match doing {
                    Doing::Create => "make",
                    Doing::Open => "open",
                    Doing::Lock => "lock",
                    Doing::Read => "read",
                    Doing::Write => "write",
                    Doing::Sync => "keep",
                    Doing::Rename => "name",
                    Doing::Remove => "remove",
                },
                path.display(),
                cause.next_step(),
            ),
        }
    }
}

impl fmt::Display for Cause {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self.kind {
            ErrorKind::StorageFull | ErrorKind::QuotaExceeded => "it is full",
            ErrorKind::ReadOnlyFilesystem => "it is read-only",
            ErrorKind::PermissionDenied => "this account is not permitted to",
            ErrorKind::NotFound => "there is no such file or folder",
            _ => &self.said,
        })
    }
}

impl Cause {
    fn next_step(&self) -> &'static str {
        match self.kind {
            ErrorKind::StorageFull | ErrorKind::QuotaExceeded => "Make room and try again",
            ErrorKind::ReadOnlyFilesystem => "Choose a disk that can be written",
            ErrorKind::PermissionDenied => "Choose another folder, or have its owner permit it",
            ErrorKind::NotFound => "See that the name is right and the disk is connected",
            _ => "See to the disk before trusting it with a record",
        }
    }
}

/// How much of a journal is certain.
struct Recorded(u64);

impl fmt::Display for Recorded {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            0 => f.write_str("Nothing of it is recorded"),
            1 => f.write_str("Its first line is recorded, and nothing after it"),
            lines => write!(
                f,
                "Its first {lines} lines are recorded, and nothing after them"
            ),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_refused_line_says_what_is_recorded_and_what_to_do() {
        let fault = StoreFault::NotRecorded {
            journal: "t/trip.jsonl".into(),
            recorded: 12,
            cause: Cause::from(&io::Error::from(ErrorKind::StorageFull)),
        };
        assert_eq!(
            fault.to_string(),
            "The disk refused a line of t/trip.jsonl: it is full. Its first 12 lines are \
             recorded, and nothing after them. Finish on paper: write down each step that is \
             left, what you read or saw, the time and your name, and keep the sheet with this \
             trip.",
        );
    }

    #[test]
    fn a_refusal_names_the_file_the_reason_and_the_next_step() {
        let path = Path::new("keys/wren");
        let said = |doing, kind: ErrorKind| StoreFault::of(doing, path)(kind.into()).to_string();
        assert_eq!(
            said(Doing::Create, ErrorKind::PermissionDenied),
            "The disk refused to make keys/wren: this account is not permitted to. Choose \
             another folder, or have its owner permit it.",
        );
        assert_eq!(
            said(Doing::Rename, ErrorKind::AlreadyExists),
            "keys/wren is there already, and what is stored is never replaced. Choose another \
             name, or look at what is there.",
        );
    }
}
