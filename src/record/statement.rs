//! A manager's statement: one line about the whole logbook, signed as stored.
//!
//! Each names the manager's own one before, the newest of every other manager, and the newest trip
//! of every device. So whoever has a statement can tell what may not be missing.

mod owned;
mod says;

pub use owned::{DefectOwned, Odometer, Owner};
pub use says::{
    Branch, Change, Changed, Countersigned, CrewChange, ForkClosed, Joined, LossAccepted, Opinion,
    Pruned, RideSignedOff, Says, SignedOff, Stub, crew_meaning,
};

use crate::record::json::{Text, Whole};
use crate::record::strict;
use crate::record::{
    Crew, Deed, Digest, Id, Mode, Namespace, Previous, PrintedName, Refused, Role, Tag, Unreadable,
    Version, Wall,
};
use serde::{Deserialize, Serialize};

/// Most bytes of a statement: room for the stubs of a thousand pruned trips.
pub const MAX_STATEMENT: usize = 512 * 1024;

/// What a manager states.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Statement {
    /// Whether it counts.
    pub mode: Mode,
    /// The manager's id in the crew.
    pub manager: Id,
    /// The name as printed.
    pub name: PrintedName,
    /// Its place among the manager's own, from 1.
    pub number: u64,
    /// The manager's own one before; nothing for the first.
    pub previous: Option<Digest>,
    /// The newest statement known of every other manager, by id.
    pub known: Vec<Known>,
    /// The crew file the signature is judged by.
    pub crew: Digest,
    /// The newest trip known of every device, by id.
    pub heads: Vec<Head>,
    /// The manager's clock.
    pub wall: Wall,
    /// What is stated.
    pub says: Says,
}

/// Another manager's newest statement.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Known {
    /// Whose.
    pub manager: Id,
    /// Its hash.
    pub hash: Digest,
}

/// The newest trip of a device, and how it ended.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Head {
    /// The device.
    pub device: Id,
    /// The trip's number.
    pub seq: u64,
    /// Its seal, or the last line there was.
    pub ends: Previous,
}

/// The fields as stored, in the order stored.
#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct Stored<'a> {
    v: u64,
    mode: Mode,
    manager: Id,
    name: PrintedName,
    role: Role,
    number: u64,
    previous: Option<Digest>,
    known: Vec<Known>,
    crew: Digest,
    heads: Vec<Head>,
    wall: Wall,
    #[serde(borrow)]
    meaning: Text<'a>,
    kind: Text<'a>,
    body: Whole<'a>,
}

impl Statement {
    /// Reads the exact bytes of a statement file: one line and its line end.
    ///
    /// # Errors
    /// [`Unreadable`] with the first reason.
    pub fn read(file: &[u8]) -> Result<Self, Unreadable> {
        let line = file.strip_suffix(b"\n").ok_or(Unreadable::NoLineEnd)?;
        let stored: Stored<'_> = strict::line(line, MAX_STATEMENT - 1, Version::V3)?;
        let says = Says::read(&stored.kind, stored.body.0)?;
        let demand = |holds: bool, what| holds.then_some(()).ok_or(Unreadable::Contradiction(what));
        demand(
            stored.v == says.version().number(),
            "it is written in another version than its kind has",
        )?;
        demand(
            stored.role == Role::Manager,
            "a statement is signed as manager",
        )?;
        demand(
            &*stored.meaning == says.meaning(),
            "what the signature means is in other words than its kind has",
        )?;
        demand(
            (stored.number == 1) == stored.previous.is_none() && stored.number > 0,
            "statements are numbered from 1, and all but the first name the one before",
        )?;
        demand(
            stored
                .known
                .is_sorted_by(|one, next| one.manager < next.manager)
                && stored.known.iter().all(|one| one.manager != stored.manager),
            "the other managers stand once each, by id",
        )?;
        demand(
            stored
                .heads
                .is_sorted_by(|one, next| one.device < next.device)
                && stored.heads.iter().all(|head| head.seq > 0),
            "the devices stand once each, by id, and their trips are numbered from 1",
        )?;
        says.check()?;
        Ok(Self {
            mode: stored.mode,
            manager: stored.manager,
            name: stored.name,
            number: stored.number,
            previous: stored.previous,
            known: stored.known,
            crew: stored.crew,
            heads: stored.heads,
            wall: stored.wall,
            says,
        })
    }

    /// The exact bytes of the statement file, line end included. These are what is signed.
    ///
    /// # Errors
    /// [`Unreadable`] when the reader would refuse them.
    pub fn write(&self) -> Result<Vec<u8>, Unreadable> {
        let this = self.clone();
        let says = strict::write(&this.says)?;
        let (kind, body) = Says::parts(&says)?;
        let stored = Stored {
            v: this.says.version().number(),
            mode: this.mode,
            manager: this.manager,
            name: this.name,
            role: Role::Manager,
            number: this.number,
            previous: this.previous,
            known: this.known,
            crew: this.crew,
            heads: this.heads,
            wall: this.wall,
            meaning: this.says.meaning().into(),
            kind: kind.into(),
            body: Whole(body),
        };
        let mut bytes = strict::write(&stored)?.into_bytes();
        bytes.push(b'\n');
        Self::read(&bytes).map(|_| bytes)
    }

    /// The statements it names: the manager's own before, the newest of the others, for a crew file
    /// the one before, and the ends of what it joins.
    pub fn names(&self) -> impl Iterator<Item = Digest> + Clone + '_ {
        let (before, ends) = match &self.says {
            Says::Crew(change) => (change.before, [].as_slice()),
            Says::Joined(joined) => (None, joined.ends.as_slice()),
            _ => (None, [].as_slice()),
        };
        let others = self.known.iter().map(|known| known.hash);
        let own = self.previous.into_iter().chain(before).chain(others);
        own.chain(ends.iter().copied())
    }

    /// The hash later statements and trips name it by.
    pub fn hash(file: &[u8]) -> Digest {
        Digest::tagged(Tag::Statement, file)
    }

    /// The namespace statements of this mode are signed in.
    pub const fn namespace(mode: Mode) -> Namespace {
        Namespace::new(Deed::Stated, mode)
    }

    /// Whether `armor` is the signature over `file`, these very bytes, of the manager named, by the
    /// crew given. Whether that crew counts is for the roster to say.
    pub(super) fn is_signed(&self, file: &[u8], armor: &str, crew: &Crew) -> Result<(), Refused> {
        let who = (&self.manager, Role::Manager);
        let signer = crew.verify(who, Self::namespace(self.mode), file, armor)?;
        if signer.name == self.name {
            Ok(())
        } else {
            Err(Refused::Name(self.manager.clone()))
        }
    }
}
