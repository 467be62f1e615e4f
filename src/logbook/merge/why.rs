//! Why a file cannot be used as it is; the sentences are made here.

use crate::logbook::merge::piece::Damage;
use crate::record::Mode;
use std::fmt;

/// Why a file is kept aside.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Why {
    /// It is no record any more.
    Damaged(Damage),
    /// It can be read and does not verify; every fault, as a sentence.
    Faults(Vec<String>),
    /// Something it stands on is not here yet. It is taken up by the merge that brings it.
    Waits(Awaited),
    /// It is of another barn.
    Foreign,
    /// It is of a demo or a drill among real trips, or the other way about.
    OtherMode {
        /// Of the record.
        found: Mode,
        /// Of the logbook.
        mode: Mode,
    },
    /// It lies beside records and belongs to none of them.
    Unknown,
    /// A signature that holds for nothing here.
    NoOnesSignature,
    /// A signature that lay beside a seal it does not sign, as one that came showed.
    OfAnotherSeal,
    /// A seal that no signature here holds for, of a trip that another seal closes.
    NoOnesSeal,
    /// A journal that ends otherwise than the one that was sealed.
    SealedOtherwise,
    /// A second signature, where there is one already.
    SecondSignature,
    /// A crew file that no roster here leads to.
    Crew,
    /// Another file has its place.
    Taken,
    /// It was damaged where it lay, and what is whole has its place now; every fault, as a sentence.
    Healed(Vec<String>),
    /// All that is in it is held where this says.
    Held(String),
}

/// What a file waits for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Awaited {
    /// A seal for its journal.
    Journal,
    /// A file for its signatures.
    Signatures,
    /// A file for the crew file it is judged by.
    Crew,
    /// A statement for those before it.
    Before,
    /// An approval for its checklist.
    Checklist,
    /// A checklist or a rig for the record that names it.
    Record,
}

impl Why {
    /// Whether nothing is wrong with the file, and only something else has not arrived.
    pub const fn waits(&self) -> bool {
        matches!(self, Self::Waits(_))
    }

    /// What to do about it.
    pub const fn next_step(&self) -> &'static str {
        match self {
            Self::Damaged(_) | Self::Faults(_) => {
                "Copy it again from the laptop that wrote it, then merge again."
            }
            Self::Waits(_) | Self::NoOnesSignature | Self::OfAnotherSeal => {
                "Merge again when the rest has been copied; this file is then taken up by itself."
            }
            Self::Foreign => "If it is of this barn, have the manager bring the crew file first.",
            Self::OtherMode { .. } => {
                "Nothing has to be done here; merge it into the logbook it is of, named with --logbook."
            }
            Self::Crew => {
                "Ask the manager which of the two is in force; a crew file counts when a manager has signed it."
            }
            Self::Unknown
            | Self::SecondSignature
            | Self::NoOnesSeal
            | Self::SealedOtherwise
            | Self::Taken
            | Self::Healed(_)
            | Self::Held(_) => "Nothing has to be done; it is kept in case somebody asks.",
        }
    }
}

impl fmt::Display for Why {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Damaged(damage) => damage.fmt(f),
            Self::Faults(faults) if faults.is_empty() => f.write_str("it cannot be relied on"),
            Self::Faults(faults) => f.write_str(&faults.join("; ")),
            Self::Waits(awaited) => awaited.fmt(f),
            Self::Foreign => f.write_str("it is of a barn whose crew is not known here"),
            Self::OtherMode { found, mode } => {
                write!(f, "it is of a {found} record, and this is a {mode} logbook")
            }
            Self::Unknown => f.write_str("it lies among records and belongs to none of them"),
            Self::NoOnesSignature => f.write_str("it is a signature of nothing that is here"),
            Self::OfAnotherSeal => {
                f.write_str("it lay beside a trip, and does not sign the seal that came for it")
            }
            Self::NoOnesSeal => f.write_str(
                "it is a seal that no signature here holds for, of a trip that another seal closes",
            ),
            Self::SealedOtherwise => f.write_str(
                "its last line is not the one that was sealed, and the journal that was sealed is here",
            ),
            Self::SecondSignature => f.write_str("it is a second signature of the same person"),
            Self::Crew => f.write_str(
                "it is a crew file that no signed statement leads to from the one in force here",
            ),
            Self::Taken => f.write_str("another file has its place here, and both are kept"),
            Self::Healed(faults) => write!(
                f,
                "it was damaged where it lay, and what is whole has its place now: {}",
                faults.join("; ")
            ),
            Self::Held(place) => write!(f, "all that is in it is held by {place}"),
        }
    }
}

impl fmt::Display for Awaited {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Journal => "the journal this seal closes, or the end of it, is not here yet",
            Self::Signatures => "no signature of it is here yet",
            Self::Crew => "the crew file it is judged by is not here yet",
            Self::Before => "a statement it stands on is not here yet",
            Self::Checklist => "the checklist it approves is not here yet",
            Self::Record => "the record that names it is not here yet, or cannot be used",
        })
    }
}
