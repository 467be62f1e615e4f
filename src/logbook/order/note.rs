//! What is told of the order of trips without being wrong, and what a manager is asked.

use crate::logbook::order::fault::{Neighbour, Numbers};
use crate::logbook::order::witness::Witness;
use crate::record::{Id, Wall};
use std::fmt;

/// Told, and no fault.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Note {
    /// Trips were taken out by a manager's word; what order needs of them is kept.
    Pruned {
        /// The device.
        device: Id,
        /// The first number.
        from: u64,
        /// The last number.
        to: u64,
        /// Whose word.
        by: Witness,
    },
    /// Trips are lost, and a manager knows of it.
    Accepted {
        /// The device.
        device: Id,
        /// The first number.
        from: u64,
        /// The last number.
        to: u64,
        /// Whose word.
        by: Witness,
    },
    /// Trips are here that a manager gave up for lost.
    Found {
        /// The device.
        device: Id,
        /// The first number.
        from: u64,
        /// The last number.
        to: u64,
        /// Whose word.
        by: Witness,
    },
    /// A fork was closed.
    Closed {
        /// The device.
        device: Id,
        /// The number.
        seq: u64,
        /// The history that goes on.
        goes_on: Id,
        /// Those that end.
        ended: Vec<Id>,
        /// Whose word.
        by: Witness,
    },
    /// What a manager signed on two laptops apart was joined.
    Joined {
        /// Who signed it.
        manager: Id,
        /// Whose word.
        by: Witness,
    },
    /// A trip was never ended, and another began after it.
    Abandoned {
        /// The device.
        device: Id,
        /// The trip.
        trip: Neighbour,
        /// The next one.
        next: Neighbour,
    },
    /// A trip ended and was not signed, and another began after it.
    Unsigned {
        /// The device.
        device: Id,
        /// The trip.
        trip: Neighbour,
        /// The next one.
        next: Neighbour,
    },
    /// A trip quotes an older statement than the one before it.
    Backwards {
        /// The device.
        device: Id,
        /// The trip.
        seq: u64,
        /// What the one before quotes.
        before: Witness,
        /// What it quotes.
        after: Option<Witness>,
    },
    /// A question to the manager: one key in use on two devices at once, by their clocks.
    TwoPlaces {
        /// Whose key.
        who: Id,
        /// Where and when.
        one: InUse,
        /// Where and when else.
        other: InUse,
    },
}

/// Where a key was in use, by the device's clock.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InUse {
    /// The device.
    pub device: Id,
    /// The trip.
    pub seq: u64,
    /// When the walk began.
    pub from: Wall,
    /// When it was sealed.
    pub until: Wall,
}

impl Note {
    /// Whether somebody has to answer it.
    pub const fn is_question(&self) -> bool {
        matches!(self, Self::TwoPlaces { .. })
    }
}

impl fmt::Display for Note {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Pruned {
                device,
                from,
                to,
                by,
            } => {
                let (trips, are) = Numbers::of("trip", *from, *to);
                write!(
                    f,
                    "{trips} of {device} {are} taken out by {by}, which keeps what order needs"
                )
            }
            Self::Accepted {
                device,
                from,
                to,
                by,
            } => {
                let (trips, are) = Numbers::of("trip", *from, *to);
                write!(f, "{trips} of {device} {are} lost, as {by} accepts")
            }
            Self::Found {
                device,
                from,
                to,
                by,
            } => {
                let (trips, are) = Numbers::of("trip", *from, *to);
                write!(
                    f,
                    "{trips} of {device} {are} found again, which {by} gave up for lost"
                )
            }
            Self::Closed {
                device,
                seq,
                goes_on,
                ended,
                by,
            } => {
                let ended: Vec<&str> = ended.iter().map(Id::as_str).collect();
                write!(
                    f,
                    "the fork at trip {seq} of {device} was closed by {by}: {goes_on} goes on, {} is kept and ends",
                    ended.join(", ")
                )
            }
            Self::Joined { manager, by } => write!(
                f,
                "{manager} signed on laptops that did not know of each other; {by} joins it, and all of \
                 it counts"
            ),
            Self::Abandoned { device, trip, next } => write!(
                f,
                "abandoned: trip {} of {device} ({}) was never ended, and trip {} began after it",
                trip.seq, trip.trip, next.seq
            ),
            Self::Unsigned { device, trip, next } => write!(
                f,
                "ended and not signed: trip {} of {device} ({}); trip {} began after it",
                trip.seq, trip.trip, next.seq
            ),
            Self::Backwards {
                device,
                seq,
                before,
                after,
            } => {
                write!(f, "trip {seq} of {device} quotes ")?;
                match after {
                    Some(after) => write!(f, "{after}")?,
                    None => write!(f, "no statement")?,
                }
                write!(
                    f,
                    ", though the trip before it quotes {before}; its managers' statements may have been put back from a backup"
                )
            }
            Self::TwoPlaces { who, one, other } => write!(
                f,
                "was the key of {who} in use in two places? {one}; {other}, by the clocks of the laptops"
            ),
        }
    }
}

impl fmt::Display for InUse {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let time = |wall: &Wall| wall.moment().format("%Y-%m-%d %H:%M").to_string();
        write!(
            f,
            "trip {} of {} from {} to {}",
            self.seq,
            self.device,
            time(&self.from),
            time(&self.until)
        )
    }
}
