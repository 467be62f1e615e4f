//! What can be wrong with the statements of a logbook.

use crate::record::{Digest, Finding, Gone, Id, Mode, Refused, Unreadable};
use std::fmt;

/// What is wrong. `at` is the place in what was given to be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum StatementFault {
    /// It cannot be read.
    Unreadable {
        /// Which.
        at: usize,
        /// Why.
        reason: Unreadable,
    },
    /// It is of another mode than the logbook.
    OtherMode {
        /// Which.
        at: usize,
        /// Its mode.
        found: Mode,
    },
    /// Its signature is not here.
    NoSignature {
        /// Whose.
        manager: Id,
        /// Its number.
        number: u64,
    },
    /// Its signature does not hold.
    NotSigned {
        /// Whose.
        manager: Id,
        /// Its number.
        number: u64,
        /// Why.
        why: Refused,
    },
    /// It rests on a crew file that no roster leads to.
    UnknownCrew {
        /// Whose.
        manager: Id,
        /// Its number.
        number: u64,
    },
    /// The crew file it follows is not here, or cannot be relied on.
    CrewBefore {
        /// Whose.
        manager: Id,
        /// Its number.
        number: u64,
    },
    /// It puts a crew file in force that cannot be.
    CrewFile {
        /// Whose.
        manager: Id,
        /// Its number.
        number: u64,
        /// Why.
        why: String,
    },
    /// Two crew files were put in the place of the same one.
    RosterFork {
        /// The number of the second.
        number: u64,
    },
    /// No crew file of the roster is one the verifier trusts.
    NotTrusted,
    /// Numbers of a manager are missing.
    Gap {
        /// The manager.
        manager: Id,
        /// The first missing.
        from: u64,
        /// The last missing.
        to: u64,
    },
    /// A manager has two statements of the same number, and no manager has joined them.
    Fork {
        /// The manager.
        manager: Id,
        /// The number, the first of several in a row.
        number: u64,
    },
    /// It names a statement that is not here.
    Missing {
        /// Whose.
        manager: Id,
        /// Its number.
        number: u64,
        /// The one named.
        named: Digest,
    },
    /// It was signed with a key that had been taken out, or nothing shows that it was before.
    TakenOut {
        /// Whose.
        manager: Id,
        /// Its number.
        number: u64,
        /// The statement.
        statement: Digest,
        /// How the key was taken out.
        how: Gone,
    },
}

impl StatementFault {
    /// What it amounts to.
    pub const fn finding(&self) -> Finding {
        match self {
            Self::Unreadable { .. } => Finding::Unreadable,
            Self::OtherMode { .. } => Finding::OtherMode,
            Self::NoSignature { .. } => Finding::Unsealed,
            Self::NotSigned { why, .. } => why.finding(),
            Self::UnknownCrew { .. } | Self::NotTrusted => Finding::UnknownSigner,
            Self::CrewFile { .. } => Finding::Altered,
            Self::CrewBefore { .. } | Self::Gap { .. } | Self::Missing { .. } => Finding::Gap,
            Self::RosterFork { .. } | Self::Fork { .. } => Finding::Fork,
            Self::TakenOut { how, .. } => how.finding(),
        }
    }
}

impl fmt::Display for StatementFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unreadable { reason, .. } => write!(f, "a statement cannot be read: {reason}"),
            Self::OtherMode { found, .. } => write!(f, "a statement is a {found} one"),
            Self::NoSignature { manager, number } => {
                write!(f, "statement {number} of {manager} is not signed")
            }
            Self::NotSigned {
                manager,
                number,
                why,
            } => write!(f, "statement {number} of {manager} does not count: {why}"),
            Self::UnknownCrew { manager, number } => write!(
                f,
                "statement {number} of {manager} rests on a crew file that no manager has signed for here"
            ),
            Self::CrewBefore { manager, number } => write!(
                f,
                "statement {number} of {manager} changes a crew file that is not here, or that cannot be relied on"
            ),
            Self::CrewFile {
                manager,
                number,
                why,
            } => write!(
                f,
                "statement {number} of {manager} puts no crew file in force: {why}"
            ),
            Self::RosterFork { number } => write!(
                f,
                "the crew was changed twice apart, so there are two crew files {number}; both are \
                 kept and neither is in force. A manager says which one goes on, with: hames crew settle"
            ),
            Self::NotTrusted => f.write_str("what managers signed leads to no crew file you trust"),
            Self::Gap { manager, from, to } if from == to => {
                write!(f, "statement {from} of {manager} is not here")
            }
            Self::Gap { manager, from, to } => {
                write!(f, "statements {from} to {to} of {manager} are not here")
            }
            Self::Fork { manager, number } => write!(
                f,
                "{manager} signed different statements {number}: on two laptops that did not know of \
                 each other, or somebody has a copy of the key. All are kept, and a manager looks \
                 into them: hames logbook close-fork {manager} {number}"
            ),
            Self::Missing {
                manager,
                number,
                named,
            } => write!(
                f,
                "statement {number} of {manager} names a statement that is not here, {named}"
            ),
            Self::TakenOut {
                manager,
                number,
                how: Gone::NotAdded,
                ..
            } => write!(
                f,
                "statement {number} of {manager} is not among those known when the change of the \
                 crew that had added {manager} ended; it is signed by somebody not in the crew"
            ),
            Self::TakenOut {
                manager,
                number,
                how,
                ..
            } => write!(
                f,
                "statement {number} of {manager} is not among those known when the key of {manager} was {}",
                match how {
                    Gone::Retired => "retired",
                    _ => "revoked",
                }
            ),
        }
    }
}
