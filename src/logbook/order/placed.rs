//! A trip as far as the order of the logbook needs it.

use crate::record::{Digest, Gone, Id, Previous, Stated, Stub, Verified, Wall};
use crate::walk::Event;

/// A trip, or the tombstone of one.
#[derive(Clone, Debug)]
pub(super) struct Placed<'s> {
    pub(super) stub: Stub,
    /// The hash of each line, as long as another trip may still quote one.
    lines: Vec<Digest>,
    /// The lines something quotes.
    quoted: Vec<Digest>,
    /// Who took it out, where only its tombstone is here.
    pub(super) pruned: Option<&'s Stated>,
    /// Whether its walk ended, signed or not.
    pub(super) ended: bool,
    /// Keys it was signed with that a later crew file took out.
    pub(super) taken_out: Vec<TakenOut>,
    /// Whose key was in use, from when to when by the laptop's clock.
    pub(super) used: Option<(Id, Wall, Wall)>,
}

/// A key that a later crew file took out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct TakenOut {
    pub(super) who: Id,
    pub(super) how: Gone,
    /// The statement that took it out.
    pub(super) by: Digest,
}

/// How a trip stands to what is quoted of its end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ending {
    /// A line is quoted that is not there any more.
    Shorter,
    /// Another seal is quoted.
    OtherSeal,
}

/// What order needs of a verified trip; what is left of it when it is pruned.
pub fn stub(trip: &Verified) -> Stub {
    let begun = trip.begun();
    let ends = trip.tip();
    Stub {
        device: begun.device.clone(),
        seq: begun.seq,
        trip: begun.trip.clone(),
        previous: begun.previous,
        lines: ends.lines,
        last: ends.last,
        seal: trip.sealed().map(|sealed| sealed.hash),
        outcome: trip.sealed().map(|sealed| sealed.seal.outcome),
        crew: begun.crew,
        manager: begun.manager,
    }
}

/// What a trip is told from every other by: its seal, or its last line.
pub fn end(trip: &Verified) -> Digest {
    let seal = trip.sealed().map(|sealed| sealed.hash);
    seal.unwrap_or_else(|| trip.tip().last)
}

impl<'s> Placed<'s> {
    pub(super) fn here(trip: &Verified, taken_out: Vec<TakenOut>) -> Self {
        let used = trip.sealed().zip(Wall::new(trip.at().wall));
        let typed_later = trip.begun().paper.is_some();
        Self {
            stub: stub(trip),
            lines: trip.lines().to_vec(),
            quoted: Vec::new(),
            pruned: None,
            ended: trip
                .entries()
                .iter()
                .any(|entry| matches!(entry.event, Event::Ended { .. })),
            taken_out,
            used: used
                .filter(|_| !typed_later)
                .map(|(sealed, from)| (sealed.seal.person.clone(), from, sealed.seal.wall)),
        }
    }

    pub(super) fn tombstone(stub: &Stub, by: &'s Stated) -> Self {
        Self {
            stub: stub.clone(),
            lines: Vec::new(),
            quoted: Vec::new(),
            pruned: Some(by),
            ended: stub.outcome.is_some(),
            taken_out: Vec::new(),
            used: None,
        }
    }

    /// What it is told from every other by.
    pub(super) fn end(&self) -> Digest {
        self.stub.seal.unwrap_or(self.stub.last)
    }

    pub(super) fn ends(&self) -> Previous {
        let unsealed = Previous::Unsealed(self.stub.last);
        self.stub.seal.map_or(unsealed, Previous::Sealed)
    }

    /// Keeps what something quotes of it, if it has it.
    pub(super) fn quote(&mut self, ends: Previous) {
        if let Previous::Unsealed(line) = ends
            && self.lines.contains(&line)
            && !self.quoted.contains(&line)
        {
            self.quoted.push(line);
        }
    }

    /// Lets go of the lines nothing has quoted.
    pub(super) fn settle(&mut self) {
        self.lines = Vec::new();
    }

    /// How it stands to what is quoted of its end; nothing when they agree.
    pub(super) fn stands_to(&self, quoted: Option<Previous>) -> Option<Ending> {
        match quoted {
            Some(Previous::Sealed(hash)) if self.stub.seal == Some(hash) => None,
            Some(Previous::Sealed(_)) if self.stub.seal.is_none() => Some(Ending::Shorter),
            Some(Previous::Sealed(_)) | None => Some(Ending::OtherSeal),
            // It may have been taken up again and sealed later; the line quoted has to be there.
            // A tombstone has no lines left; whoever signed it saw that they were whole.
            Some(Previous::Unsealed(line)) => {
                let there = self.pruned.is_some()
                    || self.stub.last == line
                    || self.lines.contains(&line)
                    || self.quoted.contains(&line);
                (!there).then_some(Ending::Shorter)
            }
        }
    }

    /// Whether one is the other, or its beginning: cut off on the way, not yet sealed, or pruned.
    pub(super) fn is_same(&self, other: &Self) -> bool {
        if let (Some(left), Some(right)) = (self.stub.seal, other.stub.seal) {
            return left == right;
        }
        let (short, long) = if self.stub.lines <= other.stub.lines {
            (self, other)
        } else {
            (other, self)
        };
        let at = usize::try_from(short.stub.lines).unwrap_or(usize::MAX);
        match at.checked_sub(1).and_then(|at| long.lines.get(at)) {
            Some(line) => *line == short.stub.last,
            // Its lines were let go: it is told by its id, which nobody else has.
            None => long.stub.last == short.stub.last || long.stub.trip == short.stub.trip,
        }
    }

    /// Takes what the fuller of two copies tells.
    pub(super) fn complete(&mut self, mut other: Self) {
        let size = |one: &Self| {
            let stub = &one.stub;
            (stub.seal.is_some(), stub.lines, one.pruned.is_none())
        };
        if size(&other) > size(self) {
            std::mem::swap(self, &mut other);
        } else if self.lines.is_empty() && self.stub.lines == other.stub.lines {
            self.lines = other.lines;
        }
        self.quoted.extend(other.quoted);
    }
}
