//! The seal: how a trip ended, in one line that the person and the device sign as stored.

use crate::record::strict::{self, field};
use crate::record::{
    Chain, Digest, Id, MAX_LINE, Mode, PrintedName, Role, Tag, Unreadable, Version, Wall, counted,
};
use crate::walk::Ended;
use serde::{Deserialize, Serialize};
use std::borrow::Cow;
use std::fmt;

/// What a seal says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Seal {
    /// The trip it closes.
    pub trip: Id,
    /// Whether the walk counts.
    pub mode: Mode,
    /// The device that kept the record.
    pub device: Id,
    /// The place of the trip in that device's sequence.
    pub seq: u64,
    /// How many lines the journal has.
    pub lines: u64,
    /// The hash of the last of them.
    pub last: Digest,
    /// How the walk ended.
    pub outcome: Ended,
    /// How many verdicts of each kind stand.
    pub counts: Counts,
    /// What the person's signature means, in words.
    pub meaning: String,
    /// The person's name as printed.
    pub name: PrintedName,
    /// The role they sign in.
    pub role: Role,
    /// The person's id in the crew.
    pub person: Id,
    /// When it was sealed.
    pub wall: Wall,
}

/// How many verdicts of each kind stand at the end.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Counts {
    /// Within limits.
    pub ok: u64,
    /// Within limits, with something to know.
    pub note: u64,
    /// To be put right.
    pub fix: u64,
    /// Not to be driven.
    pub stop: u64,
}

/// Why a seal does not close a journal.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotClosed {
    /// The journal has faults of its own, or a torn end.
    NotIntact,
    /// Fewer or more lines than were sealed.
    Lines {
        /// Lines the seal counts.
        sealed: u64,
        /// Lines there are.
        found: u64,
    },
    /// The last line is another one than was sealed.
    Last,
}

/// Most characters of the sentence that says what a signature means.
const LONGEST_MEANING: usize = 400;

/// The fields as stored, in the order stored.
#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct Stored<'a> {
    v: u64,
    #[serde(borrow)]
    trip: Cow<'a, str>,
    #[serde(borrow)]
    mode: Cow<'a, str>,
    #[serde(borrow)]
    device: Cow<'a, str>,
    seq: u64,
    lines: u64,
    #[serde(borrow)]
    last: Cow<'a, str>,
    #[serde(borrow)]
    outcome: Cow<'a, str>,
    counts: Counts,
    #[serde(borrow)]
    meaning: Cow<'a, str>,
    #[serde(borrow)]
    name: Cow<'a, str>,
    #[serde(borrow)]
    role: Cow<'a, str>,
    #[serde(borrow)]
    person: Cow<'a, str>,
    #[serde(borrow)]
    wall: Cow<'a, str>,
}

impl Seal {
    /// Reads the exact bytes of a seal file: one line and its line end.
    ///
    /// # Errors
    /// [`Unreadable`] with the first reason.
    pub fn read(file: &[u8]) -> Result<Self, Unreadable> {
        let line = file.strip_suffix(b"\n").ok_or(Unreadable::NoLineEnd)?;
        let stored: Stored<'_> = strict::line(line, MAX_LINE, Version::V1)?;
        let id = |name, text: &str| field(name, text, |text| Id::read(text).ok());
        Ok(Self {
            trip: id("trip", &stored.trip)?,
            mode: field("mode", &stored.mode, Mode::read)?,
            device: id("device", &stored.device)?,
            seq: stored.seq,
            lines: stored.lines,
            last: field("last", &stored.last, |text| Digest::read(text).ok())?,
            outcome: field("outcome", &stored.outcome, ended)?,
            counts: stored.counts,
            meaning: field("meaning", &stored.meaning, sentence)?,
            name: field("name", &stored.name, |text| PrintedName::read(text).ok())?,
            role: field("role", &stored.role, Role::read)?,
            person: id("person", &stored.person)?,
            wall: field("wall", &stored.wall, Wall::read)?,
        })
    }

    /// The exact bytes of the seal file, line end included. These are what is signed.
    ///
    /// # Errors
    /// [`Unreadable`] when the reader would refuse them: the meaning is blank, too long or has
    /// characters that cannot be printed, or a number has too many digits.
    pub fn write(&self) -> Result<Vec<u8>, Unreadable> {
        let stored = Stored {
            v: Version::V1.number(),
            trip: self.trip.as_str().into(),
            mode: self.mode.word().into(),
            device: self.device.as_str().into(),
            seq: self.seq,
            lines: self.lines,
            last: self.last.to_string().into(),
            outcome: self.outcome.word().into(),
            counts: self.counts,
            meaning: self.meaning.as_str().into(),
            name: self.name.as_str().into(),
            role: self.role.word().into(),
            person: self.person.as_str().into(),
            wall: self.wall.to_string().into(),
        };
        let mut bytes = strict::write(&stored)?.into_bytes();
        bytes.push(b'\n');
        Self::read(&bytes).map(|_| bytes)
    }

    /// The hash later records name a sealed trip by, and its receipt is made from.
    pub fn hash(file: &[u8]) -> Digest {
        Digest::tagged(Tag::Seal, file)
    }

    /// Whether `chain` is the whole journal this seal was made for.
    ///
    /// # Errors
    /// [`NotClosed`] with the reason.
    pub fn closes(&self, chain: &Chain) -> Result<(), NotClosed> {
        let tip = chain.tip();
        if !chain.is_intact() {
            Err(NotClosed::NotIntact)
        } else if tip.lines != self.lines {
            Err(NotClosed::Lines {
                sealed: self.lines,
                found: tip.lines,
            })
        } else if tip.last != self.last {
            Err(NotClosed::Last)
        } else {
            Ok(())
        }
    }
}

/// What a person states who signs a walk of this mode that ended so.
pub const fn meaning_in(mode: Mode, outcome: Ended) -> &'static str {
    match mode {
        Mode::Drill => {
            "This was a drill on an invented rig, and what is written here is how it was played."
        }
        Mode::Real | Mode::Demo => meaning(outcome),
    }
}

/// What a person states who signs a walk that ended so.
pub const fn meaning(outcome: Ended) -> &'static str {
    match outcome {
        Ended::Complete => {
            "Every step was done by the people named here, and what is written here is what we saw and read."
        }
        Ended::Incomplete => {
            "We stopped before the last step. What is written here is what we saw and read; the other steps were not looked at."
        }
        Ended::NotFitToGo => {
            "What is written here is what we saw and read. This rig is not fit to go as it stands."
        }
        Ended::Abandoned => {
            "This walk was given up. What is written here is what was seen and read until then."
        }
    }
}

fn ended(word: &str) -> Option<Ended> {
    let known = Ended::WORDS.into_iter().find(|(one, _)| *one == word);
    known.map(|(_, outcome)| outcome)
}

/// A sentence fit to print on one line.
fn sentence(text: &str) -> Option<String> {
    let printable = !text.trim().is_empty() && !text.chars().any(char::is_control);
    (printable && text.chars().count() <= LONGEST_MEANING).then(|| text.to_owned())
}

impl fmt::Display for NotClosed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotIntact => write!(f, "the journal is not intact"),
            Self::Lines { sealed, found } => write!(
                f,
                "the seal counts {} and the journal has {found}",
                counted(*sealed, "line")
            ),
            Self::Last => write!(
                f,
                "the last line of the journal is not the one that was sealed"
            ),
        }
    }
}
