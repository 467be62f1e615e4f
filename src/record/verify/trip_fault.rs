//! What is wrong with a trip, in facts; the sentences are made here.

use crate::record::{
    ChainFault, Digest, Finding, Mode, NotClosed, Refused, SignatureFault, Unreadable, counted,
};
use crate::walk::Departure;
use std::fmt;

/// What is missing is no sign of damage, and what to do about it.
const COMES: &str = "it may not have been copied yet: merge again from where the record came from";

/// One thing wrong with a trip, or missing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TripFault {
    /// A line of the journal, by its bytes.
    Journal(ChainFault),
    /// A journal without a line.
    Nothing,
    /// Not sealed, and the last line was not finished.
    Torn {
        /// Its bytes.
        bytes: usize,
    },
    /// Sealed, and yet the last line is not whole.
    CutShort {
        /// Bytes behind the last line end.
        bytes: usize,
    },
    /// The first line does not begin a walk.
    NotBegun,
    /// A later line begins a walk.
    BegunAgain {
        /// The line.
        line: usize,
    },
    /// A later line says what there is in drills alone, and the trip is no drill.
    DrilledOutside {
        /// The line.
        line: usize,
    },
    /// A file that a drill rests on is not the one it was played by.
    Beside(&'static str),
    /// There is no such file, or nothing in it.
    NotBeside(&'static str),
    /// The body of a line.
    Body {
        /// The line.
        line: usize,
        /// Why it cannot be read.
        reason: Unreadable,
    },
    /// The walk is of another mode than the logbook.
    OtherMode {
        /// Of the walk.
        found: Mode,
        /// Of the logbook.
        mode: Mode,
    },
    /// The checklist is not the file that was walked.
    Checklist,
    /// The rig is not the file that was described.
    Rig,
    /// There is no checklist, or nothing in it.
    NoChecklist,
    /// There is no rig file, or nothing in it.
    NoRig,
    /// No seal.
    NoSeal,
    /// No signature of the person beside the seal.
    NoPerson,
    /// No signature of the device beside the seal.
    NoDevice,
    /// No signature of the examiner beside the seal of a check ride.
    NoExaminer,
    /// Whoever is named as examiner may not examine this person.
    Examiner(String),
    /// The seal cannot be read.
    Seal(Unreadable),
    /// The seal was made for something else; in which point.
    OtherSeal(&'static str),
    /// The seal does not close this journal.
    NotClosed(NotClosed),
    /// The crew file in force is not among those trusted.
    Crew(Digest),
    /// A signature that does not count.
    Signature(Refused),
    /// A signature file that is no text.
    NotText,
    /// The person's printed name is another one in the crew.
    Name {
        /// In the seal.
        sealed: String,
        /// In the crew.
        crew: String,
    },
    /// Walked again, the walk does not come to what the journal says.
    Rules {
        /// The first line that differs.
        line: usize,
        /// How.
        why: Departure,
        /// The program that wrote it.
        program: String,
    },
}

impl TripFault {
    /// What it amounts to.
    pub const fn finding(&self) -> Finding {
        match self {
            Self::Torn { .. }
            | Self::NoSeal
            | Self::NoPerson
            | Self::NoDevice
            | Self::NoExaminer => Finding::Unsealed,
            Self::OtherMode { .. } => Finding::OtherMode,
            Self::NoChecklist | Self::NoRig | Self::NotBeside(_) => Finding::Gap,
            Self::Crew(_) | Self::Examiner(_) => Finding::UnknownSigner,
            Self::Signature(refused) => refused.finding(),
            Self::CutShort { .. } => Finding::Truncated,
            Self::NotClosed(NotClosed::Lines { sealed, found }) if *found < *sealed => {
                Finding::Truncated
            }
            Self::Journal(
                ChainFault::Long(_) | ChainFault::Unreadable(_, Unreadable::Version { .. }),
            )
            | Self::Nothing
            | Self::NotBegun
            | Self::BegunAgain { .. }
            | Self::DrilledOutside { .. }
            | Self::Body { .. }
            | Self::Seal(_) => Finding::Unreadable,
            Self::Journal(_)
            | Self::Checklist
            | Self::Rig
            | Self::Beside(_)
            | Self::OtherSeal(_)
            | Self::NotClosed(_)
            | Self::NotText
            | Self::Name { .. } => Finding::Altered,
            Self::Rules { .. } => Finding::AgainstTheRules,
        }
    }
}

impl Refused {
    /// What it amounts to.
    pub const fn finding(&self) -> Finding {
        match self {
            Self::Unknown(_)
            | Self::Role(..)
            | Self::Namespace(..)
            | Self::Name(_)
            | Self::Signature(_, SignatureFault::OtherKey(_)) => Finding::UnknownSigner,
            Self::Signature(..) => Finding::Altered,
        }
    }
}

impl fmt::Display for TripFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Journal(fault) => fault.fmt(f),
            Self::Nothing => write!(f, "the journal has no line"),
            Self::Torn { bytes } => {
                match bytes {
                    1 => write!(f, "the last byte is")?,
                    bytes => write!(f, "the last {bytes} bytes are")?,
                }
                write!(
                    f,
                    " a line that was not finished; the lines before it stand"
                )
            }
            Self::CutShort { bytes } => {
                let bytes = counted(*bytes, "byte");
                write!(
                    f,
                    "the sealed journal ends with {bytes} of a line that is not whole"
                )
            }
            Self::NotBegun => write!(f, "line 1 does not begin a walk"),
            Self::BegunAgain { line } => write!(f, "line {line} begins a walk inside another"),
            Self::DrilledOutside { line } => {
                write!(f, "line {line} is one of a drill, and this trip is none")
            }
            Self::Beside(file) => write!(
                f,
                "{file} beside the record is not the one the drill was played by"
            ),
            Self::NotBeside(file) => write!(
                f,
                "what the drill was played by, {file}, is missing here; {COMES}"
            ),
            Self::Body { line, reason } => {
                write!(f, "what line {line} tells cannot be read: {reason}")
            }
            Self::OtherMode { found, mode } => {
                write!(f, "this is a {found} record in a {mode} logbook")
            }
            Self::Checklist => write!(
                f,
                "the checklist beside the record is not the one that was walked"
            ),
            Self::Rig => write!(
                f,
                "the rig file beside the record is not the one the walk was judged by"
            ),
            Self::NoChecklist => write!(
                f,
                "the checklist that was walked, checklist.yaml, is missing here; {COMES}"
            ),
            Self::NoRig => write!(
                f,
                "the rig file the walk was judged by, rig.yaml, is missing here; {COMES}"
            ),
            Self::NoSeal => write!(f, "the record is not sealed; nobody has signed for it"),
            Self::NoPerson => write!(
                f,
                "the person's signature, seal.person.sig, is missing here; {COMES}"
            ),
            Self::NoDevice => write!(
                f,
                "the device's signature, seal.device.sig, is missing here; {COMES}"
            ),
            Self::NoExaminer => write!(
                f,
                "the examiner's signature, seal.examiner.sig, is missing here: it was not signed \
                 yet, or {COMES}"
            ),
            Self::Examiner(name) => write!(
                f,
                "the examiner is named as {}, who is nobody of that crew who may examine, or is \
                 the person examined",
                name.escape_debug()
            ),
            Self::Seal(reason) => write!(f, "the seal cannot be read: {reason}"),
            Self::OtherSeal(point) => {
                write!(f, "the seal and the journal do not agree on the {point}")
            }
            Self::NotClosed(reason) => reason.fmt(f),
            Self::Crew(revision) => write!(
                f,
                "the crew file in force was {revision}, which is not one of those you trust; ask your manager for it"
            ),
            Self::Signature(reason) => reason.fmt(f),
            Self::NotText => write!(f, "a signature file is not text"),
            Self::Name { sealed, crew } => write!(
                f,
                "the seal prints the name {} and the crew file {}",
                sealed.escape_debug(),
                crew.escape_debug()
            ),
            Self::Rules { line, why, program } => write!(
                f,
                "walked again by the rules of this program, line {line} does not come about: {why} \
                 (written by {}; where this program is another, ask that one)",
                program.escape_debug()
            ),
        }
    }
}
