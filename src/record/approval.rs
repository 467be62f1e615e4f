//! The approval of a checklist: who read it, in which role, when, and which bytes, in one line that
//! the manager signs as stored.

use crate::record::strict::{self, field};
use crate::record::{
    Crew, Deed, Digest, Id, MAX_LINE, Mode, Namespace, PrintedName, Role, Unreadable, Version, Wall,
};
use serde::{Deserialize, Serialize};
use std::borrow::Cow;
use std::fmt;

/// What a manager states who signs this.
const MEANING: &str =
    "I have read this checklist line by line as it stands here, and it is the barn's to walk by.";

/// What an approval says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Approved {
    /// The checklist's id.
    pub checklist: Id,
    /// The hash of the checklist put together, to the byte.
    pub hash: Digest,
    /// Whether it counts.
    pub mode: Mode,
    /// The manager's name as printed.
    pub name: PrintedName,
    /// The manager's id in the crew.
    pub person: Id,
    /// When it was approved.
    pub wall: Wall,
}

/// Why an approval does not stand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotApproved {
    /// No manager of the crew signed these bytes to approve a checklist.
    NotSigned,
    /// It cannot be read.
    Unreadable(Unreadable),
    /// It is signed by another person than it names.
    OtherPerson(Id),
    /// It is of another mode.
    OtherMode(Mode),
    /// It is of other bytes.
    OtherBytes,
}

/// The fields as stored, in the order stored.
#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct Stored<'a> {
    v: u64,
    #[serde(borrow)]
    checklist: Cow<'a, str>,
    #[serde(borrow)]
    hash: Cow<'a, str>,
    #[serde(borrow)]
    mode: Cow<'a, str>,
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

impl Approved {
    /// Reads the exact bytes of an approval: one line and its line end.
    ///
    /// # Errors
    /// [`Unreadable`] with the first reason.
    pub fn read(file: &[u8]) -> Result<Self, Unreadable> {
        let line = file.strip_suffix(b"\n").ok_or(Unreadable::NoLineEnd)?;
        let stored: Stored<'_> = strict::line(line, MAX_LINE, Version::V1)?;
        let id = |name, text: &str| field(name, text, |text| Id::read(text).ok());
        field("meaning", &stored.meaning, |text| {
            (text == MEANING).then_some(())
        })?;
        field("role", &stored.role, |text| {
            (text == Role::Manager.word()).then_some(())
        })?;
        Ok(Self {
            checklist: id("checklist", &stored.checklist)?,
            hash: field("hash", &stored.hash, |text| Digest::read(text).ok())?,
            mode: field("mode", &stored.mode, Mode::read)?,
            name: field("name", &stored.name, |text| PrintedName::read(text).ok())?,
            person: id("person", &stored.person)?,
            wall: field("wall", &stored.wall, Wall::read)?,
        })
    }

    /// The exact bytes of the approval, line end included. These are what is signed.
    ///
    /// # Errors
    /// [`Unreadable`] when the reader would refuse them.
    pub fn write(&self) -> Result<Vec<u8>, Unreadable> {
        let stored = Stored {
            v: Version::V1.number(),
            checklist: self.checklist.as_str().into(),
            hash: self.hash.to_string().into(),
            mode: self.mode.word().into(),
            meaning: MEANING.into(),
            name: self.name.as_str().into(),
            role: Role::Manager.word().into(),
            person: self.person.as_str().into(),
            wall: self.wall.to_string().into(),
        };
        let mut bytes = strict::write(&stored)?.into_bytes();
        bytes.push(b'\n');
        Self::read(&bytes).map(|_| bytes)
    }

    /// The namespace an approval in this mode is signed in.
    pub const fn namespace(mode: Mode) -> Namespace {
        Namespace::new(Deed::Approved, mode)
    }

    /// What who signs it states.
    pub const fn meaning() -> &'static str {
        MEANING
    }
}

/// The whole check: the signature of a manager of this crew, in this mode, over an approval of
/// exactly this checklist.
///
/// # Errors
/// [`NotApproved`] with the first reason.
pub fn approved(
    crew: &Crew,
    mode: Mode,
    checklist: &[u8],
    (file, armor): (&[u8], &str),
) -> Result<Approved, NotApproved> {
    let namespace = Approved::namespace(mode);
    let holds = |id: &Id| crew.verify((id, Role::Manager), namespace, file, armor);
    let mut known = crew.signers().iter();
    let signer = known
        .find(|signer| holds(&signer.id).is_ok())
        .ok_or(NotApproved::NotSigned)?;
    let approval = Approved::read(file).map_err(NotApproved::Unreadable)?;
    if approval.person != signer.id || approval.name != signer.name {
        return Err(NotApproved::OtherPerson(approval.person));
    }
    if approval.mode != mode {
        return Err(NotApproved::OtherMode(approval.mode));
    }
    if approval.hash != Digest::of(checklist) {
        return Err(NotApproved::OtherBytes);
    }
    Ok(approval)
}

impl fmt::Display for NotApproved {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotSigned => f.write_str("no manager of the crew in force has signed it"),
            Self::Unreadable(reason) => reason.fmt(f),
            Self::OtherPerson(id) => write!(f, "it names {id}, and another person signed it"),
            Self::OtherMode(mode) => write!(f, "it is a {mode} one"),
            Self::OtherBytes => f.write_str("it is of another checklist, or of other bytes"),
        }
    }
}
