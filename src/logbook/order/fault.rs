//! What is wrong with the order of trips, in facts; the sentences are made here.

use crate::logbook::order::closings::GoesOn;
use crate::logbook::order::placed::{Ending, Placed};
use crate::logbook::order::witness::Witness;
use crate::record::{Digest, Finding, Gone, Id, Previous, called};
use std::fmt;

/// So many letters of a hash are shown in a sentence; the whole of it stands in the files.
const HASH_LETTERS: usize = 16;

/// A trip that stands beside what is told.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Neighbour {
    /// Its number.
    pub seq: u64,
    /// The trip.
    pub trip: Id,
    /// How it ends.
    pub ends: Previous,
}

/// What is wrong with the order of a device's trips.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum OrderFault {
    /// Trips are missing before one that is there.
    Gap {
        /// The device.
        device: Id,
        /// The first number missing.
        from: u64,
        /// The last number missing.
        to: u64,
        /// The trip before them.
        before: Option<Neighbour>,
        /// The trip behind them.
        after: Neighbour,
        /// How the last of them ended, as the one behind says.
        named: Option<Previous>,
    },
    /// Trips a manager has witnessed are missing.
    Unseen {
        /// The device.
        device: Id,
        /// The first number missing.
        from: u64,
        /// The last number missing.
        to: u64,
        /// Who witnessed the last.
        witness: Witness,
        /// The newest trip of the device that is here.
        newest: Option<Neighbour>,
    },
    /// Two different trips have the same number.
    Fork {
        /// The device.
        device: Id,
        /// The number.
        seq: u64,
        /// The trips.
        trips: Vec<Neighbour>,
        /// What managers say, where they closed it in opposite ways.
        said: Vec<GoesOn>,
    },
    /// A trip ended otherwise than the next one says.
    Ending {
        /// The device.
        device: Id,
        /// The trip that ended.
        trip: Neighbour,
        /// How it stands to what the next one says.
        stands: Ending,
        /// The next one.
        next: Neighbour,
    },
    /// A trip ended otherwise than a manager has witnessed.
    Pinned {
        /// The device.
        device: Id,
        /// The trip.
        trip: Neighbour,
        /// How it stands to what was witnessed.
        stands: Ending,
        /// How it ended then.
        ends: Previous,
        /// Who witnessed it.
        witness: Witness,
    },
    /// A history of a closed fork is not here.
    Branch {
        /// The device.
        device: Id,
        /// The history.
        branch: Neighbour,
        /// Who closed the fork.
        by: Witness,
    },
    /// A trip quotes a statement that is not here.
    Statement {
        /// The device.
        device: Id,
        /// The first trip that quotes it.
        seq: u64,
        /// The statement.
        named: Digest,
    },
    /// A trip was signed with a key that had been taken out, or nothing shows that it was before.
    TakenOut {
        /// The device.
        device: Id,
        /// The trip.
        trip: Neighbour,
        /// Whose key.
        who: Id,
        /// How it was taken out.
        how: Gone,
        /// Where.
        by: Witness,
    },
    /// A manager countersigned a trip they took part in.
    Own {
        /// The device.
        device: Id,
        /// The trip.
        trip: Neighbour,
        /// The countersign.
        by: Witness,
    },
}

impl OrderFault {
    /// What it amounts to.
    pub const fn finding(&self) -> Finding {
        match self {
            Self::Gap { .. }
            | Self::Unseen { .. }
            | Self::Branch { .. }
            | Self::Statement { .. } => Finding::Gap,
            Self::Fork { .. } => Finding::Fork,
            Self::Ending { stands, .. } | Self::Pinned { stands, .. } => match stands {
                Ending::Shorter => Finding::Truncated,
                Ending::OtherSeal => Finding::Fork,
            },
            Self::TakenOut { how, .. } => how.finding(),
            Self::Own { .. } => Finding::NotCountersigned,
        }
    }

    /// Whether it says that a key this trip is signed with had left the crew.
    pub fn is_of_a_key_of(&self, trip: Option<&Id>) -> bool {
        matches!(self, Self::TakenOut { trip: signed, .. } if Some(&signed.trip) == trip)
    }

    /// Whether it is told of this trip of this device, which quotes this statement.
    pub fn is_of(&self, device: &Id, seq: u64, trip: &Id, quotes: Option<Digest>) -> bool {
        let same = match self {
            // It is told once, and is of every trip that quotes the statement.
            Self::Statement { named, .. } => return quotes == Some(*named),
            Self::Gap { .. } | Self::Unseen { .. } => false,
            Self::Fork { seq: of, .. } => *of == seq,
            Self::Branch { branch, .. } => branch.seq == seq,
            Self::Ending { trip: of, .. }
            | Self::Pinned { trip: of, .. }
            | Self::TakenOut { trip: of, .. }
            | Self::Own { trip: of, .. } => of.seq == seq && of.trip == *trip,
        };
        same && self.device() == device
    }

    /// Whether it is told of what is missing or otherwise next to this trip of this device.
    pub fn is_beside(&self, device: &Id, seq: u64) -> bool {
        let next_to = match self {
            Self::Gap { before, after, .. } => {
                after.seq == seq || before.as_ref().is_some_and(|before| before.seq == seq)
            }
            Self::Unseen { newest, .. } => newest.as_ref().is_some_and(|newest| newest.seq == seq),
            Self::Ending { next, .. } => next.seq == seq,
            _ => false,
        };
        next_to && self.device() == device
    }

    /// The device it is told of.
    pub const fn device(&self) -> &Id {
        match self {
            Self::Gap { device, .. }
            | Self::Unseen { device, .. }
            | Self::Fork { device, .. }
            | Self::Ending { device, .. }
            | Self::Pinned { device, .. }
            | Self::Branch { device, .. }
            | Self::Statement { device, .. }
            | Self::TakenOut { device, .. }
            | Self::Own { device, .. } => device,
        }
    }

    /// The first and the last number it is told of.
    pub const fn numbers(&self) -> (u64, u64) {
        match self {
            Self::Gap { from, to, .. } | Self::Unseen { from, to, .. } => (*from, *to),
            Self::Fork { seq, .. } | Self::Statement { seq, .. } => (*seq, *seq),
            Self::Ending { trip, .. }
            | Self::Pinned { trip, .. }
            | Self::Branch { branch: trip, .. }
            | Self::TakenOut { trip, .. }
            | Self::Own { trip, .. } => (trip.seq, trip.seq),
        }
    }
}

impl Neighbour {
    pub(super) fn of(placed: &Placed) -> Self {
        Self {
            seq: placed.stub.seq,
            trip: placed.stub.trip.clone(),
            ends: placed.ends(),
        }
    }
}

impl fmt::Display for OrderFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Gap {
                device,
                from,
                to,
                before,
                after,
                named,
            } => {
                let (trips, are) = Numbers::of(called(&after.trip), *from, *to);
                write!(
                    f,
                    "{trips} of {device} {are} not here, or cannot be relied on"
                )?;
                if let Some(before) = before {
                    write!(f, "; before stands {before}")?;
                }
                write!(f, "; behind stands {after}")?;
                let named = named.map(Ends);
                named.map_or(Ok(()), |named| write!(f, ", which names {named}"))
            }
            Self::Unseen {
                device,
                from,
                to,
                witness,
                newest,
            } => {
                let (trips, are) = Numbers::of("trip", *from, *to);
                write!(
                    f,
                    "{trips} of {device} {are} witnessed by {witness} and not here, or cannot be relied on"
                )?;
                if let Some(newest) = newest {
                    write!(f, "; the newest here is {newest}")?;
                }
                write!(
                    f,
                    "; this logbook was put back from a backup, or has not been merged"
                )
            }
            Self::Fork {
                device,
                seq,
                trips,
                said,
            } => {
                let what = trips.first().map_or("trip", |one| called(&one.trip));
                write!(f, "{device} has {} different {what}s {seq}:", trips.len())?;
                for (at, trip) in trips.iter().enumerate() {
                    let sign = if at == 0 { "" } else { ";" };
                    write!(f, "{sign} {} ({})", trip.trip, Ends(trip.ends))?;
                }
                if said.is_empty() {
                    return f
                        .write_str("; a backup was put back, or a disk was copied; both are kept");
                }
                let said: Vec<String> = said.iter().map(ToString::to_string).collect();
                write!(
                    f,
                    "; managers closed this fork in opposite ways: {}; it stays open until one of \
                     them, with both statements at hand, closes it again: hames logbook close-fork \
                     {device} {seq}",
                    said.join(", and ")
                )
            }
            _ => self.tell_of_one(f),
        }
    }
}

impl OrderFault {
    /// What is wrong with one trip.
    fn tell_of_one(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Ending {
                device,
                trip,
                stands,
                next,
            } => {
                let how = match stands {
                    Ending::Shorter => "is shorter here than when the next one began",
                    Ending::OtherSeal => "has another seal than the next one quotes",
                };
                write!(
                    f,
                    "{} {} of {device} {how}: it is {trip}, and the next is {next}",
                    called(&trip.trip),
                    trip.seq
                )
            }
            Self::Pinned {
                device,
                trip,
                stands,
                ends,
                witness,
            } => {
                let how = match stands {
                    Ending::Shorter => "is shorter here than",
                    Ending::OtherSeal => "has another seal here than",
                };
                write!(
                    f,
                    "trip {} of {device} {how} {witness} says: it is {trip}, and was witnessed with {}; \
                     this logbook was put back from a backup, or two histories are mixed in it",
                    trip.seq,
                    Ends(*ends)
                )
            }
            Self::Branch { device, branch, by } => write!(
                f,
                "{branch} of {device} is a history that {by} closed a fork with, and it is not here, or cannot be relied on"
            ),
            Self::Statement { device, seq, named } => write!(
                f,
                "trip {seq} of {device} quotes a statement that is not here, or cannot be relied on: {}",
                short(named)
            ),
            Self::TakenOut {
                device,
                trip,
                who,
                how: Gone::NotAdded,
                by,
            } => write!(
                f,
                "{what} {} of {device} is signed by {who}, who is not in the crew: only a change that \
                 ended when {by} settled the crew had added {who}, and nothing known then shows that \
                 the {what} was there before",
                trip.seq,
                what = called(&trip.trip),
            ),
            Self::TakenOut {
                device,
                trip,
                who,
                how,
                by,
            } => {
                let how = match how {
                    Gone::Retired => "retired",
                    Gone::Revoked => "revoked",
                    Gone::LeftOut | Gone::NotAdded => "leaves out of the crew",
                };
                write!(
                    f,
                    "{what} {} of {device} is signed with the key of {who}, which {by} {how}, and nothing known then shows that the {what} was there before",
                    trip.seq,
                    what = called(&trip.trip),
                )
            }
            Self::Own { device, trip, by } => write!(
                f,
                "{by} countersigns trip {} of {device}, which {} signed, read, did or checked; it counts for nothing, and another manager has to look",
                trip.seq, by.name
            ),
            Self::Gap { .. } | Self::Unseen { .. } | Self::Fork { .. } => Ok(()),
        }
    }
}

impl fmt::Display for Neighbour {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (what, seq) = (called(&self.trip), self.seq);
        write!(f, "{what} {seq} ({}, {})", self.trip, Ends(self.ends))
    }
}

/// A seal or a last line, by the beginning of its hash.
pub(super) struct Ends(pub(super) Previous);

impl fmt::Display for Ends {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            Previous::Sealed(hash) => write!(f, "seal {}", short(&hash)),
            Previous::Unsealed(hash) => write!(f, "line {}", short(&hash)),
        }
    }
}

/// `trip 8` or `trips 8 to 9`, or drills, and the verb that fits.
pub(super) struct Numbers(&'static str, u64, u64);

impl Numbers {
    pub(super) const fn of(what: &'static str, from: u64, to: u64) -> (Self, &'static str) {
        (Self(what, from, to), if from == to { "is" } else { "are" })
    }
}

impl fmt::Display for Numbers {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self(what, from, to) if from == to => write!(f, "{what} {from}"),
            Self(what, from, to) => write!(f, "{what}s {from} to {to}"),
        }
    }
}

fn short(hash: &Digest) -> String {
    hash.to_string().chars().take(HASH_LETTERS).collect()
}
