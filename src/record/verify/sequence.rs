//! The order of trips: what a device's numbers and hashes say of trips that are not there.

use crate::record::{Finding, Id, Previous, Verified};
use std::collections::BTreeMap;
use std::fmt;

/// What is wrong with the order of a device's trips.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SequenceFault {
    /// Trips are missing between two that are there, or before the first.
    Gap {
        /// The device.
        device: Id,
        /// The first number missing.
        from: u64,
        /// The last number missing.
        to: u64,
    },
    /// Two different trips have the same number.
    Fork {
        /// The device.
        device: Id,
        /// The number.
        seq: u64,
        /// The trips.
        trips: Vec<Id>,
    },
    /// A trip ended otherwise than the next one says.
    Ending {
        /// The device.
        device: Id,
        /// The number of the trip that ended.
        seq: u64,
        /// How it stands to what the next one says.
        stands: Ending,
    },
}

/// How a trip stands to what the next one of its device says of its end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ending {
    /// The next one quotes a line that is not there any more.
    Shorter,
    /// The next one quotes another seal.
    OtherSeal,
}

/// Every fault in the order of verified trips, device by device.
///
/// Nothing can be said of what came after a device's newest trip: numbers that were never seen
/// leave no gap.
pub fn sequence<'a>(trips: impl IntoIterator<Item = &'a Verified>) -> Vec<SequenceFault> {
    let mut devices: BTreeMap<&Id, BTreeMap<u64, Vec<&Verified>>> = BTreeMap::new();
    for trip in trips {
        let numbers = devices.entry(&trip.begun().device).or_default();
        let same = numbers.entry(trip.begun().seq).or_default();
        // The same trip from two folders is one trip; its fuller copy speaks for it.
        match same.iter_mut().find(|other| is_same(other, trip)) {
            Some(other) if fuller(trip, other) => *other = trip,
            Some(_) => {}
            None => same.push(trip),
        }
    }
    devices
        .into_iter()
        .flat_map(|(device, numbers)| of_device(device, &numbers))
        .collect()
}

fn of_device(device: &Id, numbers: &BTreeMap<u64, Vec<&Verified>>) -> Vec<SequenceFault> {
    let mut faults = Vec::new();
    let mut expected = 1;
    let mut before: &[&Verified] = &[];
    for (&seq, trips) in numbers {
        let device = device.clone();
        if seq > expected {
            let (from, to) = (expected, seq - 1);
            let device = device.clone();
            faults.push(SequenceFault::Gap { device, from, to });
            before = &[];
        }
        if trips.len() > 1 {
            let trips = trips.iter().map(|trip| trip.begun().trip.clone()).collect();
            let device = device.clone();
            faults.push(SequenceFault::Fork { device, seq, trips });
        }
        // Of a fork one branch goes on; the other is no second fault.
        let next = trips.first().and_then(|trip| trip.begun().previous);
        let standings = before.iter().map(|trip| ending(trip, next));
        let goes_on = standings.clone().any(|stands| stands.is_none());
        if let Some(stands) = standings.flatten().next().filter(|_| !goes_on) {
            let seq = seq - 1;
            faults.push(SequenceFault::Ending {
                device,
                seq,
                stands,
            });
        }
        expected = seq.saturating_add(1);
        before = trips;
    }
    faults
}

/// How a trip stands to what the next one quotes; nothing when they agree.
fn ending(trip: &Verified, quoted: Option<Previous>) -> Option<Ending> {
    let sealed = trip.sealed().map(|sealed| sealed.hash);
    match quoted {
        Some(Previous::Sealed(hash)) if sealed == Some(hash) => None,
        Some(Previous::Sealed(_)) if sealed.is_none() => Some(Ending::Shorter),
        Some(Previous::Sealed(_)) | None => Some(Ending::OtherSeal),
        // It may have been taken up again and sealed later; the line quoted has to be there.
        Some(Previous::Unsealed(hash)) => {
            (!trip.lines().contains(&hash)).then_some(Ending::Shorter)
        }
    }
}

/// Whether one is the other, or its beginning: cut off on the way, or not yet sealed.
fn is_same(one: &Verified, other: &Verified) -> bool {
    let seals = one.sealed().zip(other.sealed());
    seals.is_none_or(|(left, right)| left.hash == right.hash)
        && one
            .lines()
            .iter()
            .zip(other.lines())
            .all(|(left, right)| left == right)
}

fn fuller(one: &Verified, other: &Verified) -> bool {
    let size = |trip: &Verified| (trip.sealed().is_some(), trip.lines().len());
    size(one) > size(other)
}

impl SequenceFault {
    /// What it amounts to.
    pub const fn finding(&self) -> Finding {
        match self {
            Self::Gap { .. } => Finding::Gap,
            Self::Fork { .. } => Finding::Fork,
            Self::Ending { stands, .. } => match stands {
                Ending::Shorter => Finding::Truncated,
                Ending::OtherSeal => Finding::Fork,
            },
        }
    }
}

impl fmt::Display for SequenceFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Gap { device, from, to } if from == to => {
                write!(
                    f,
                    "trip {from} of {device} is not here, or cannot be relied on"
                )
            }
            Self::Gap { device, from, to } => {
                write!(
                    f,
                    "trips {from} to {to} of {device} are not here, or cannot be relied on"
                )
            }
            Self::Fork { device, seq, trips } => {
                write!(f, "{device} has {} different trips {seq}:", trips.len())?;
                trips.iter().try_for_each(|trip| write!(f, " {trip}"))?;
                write!(
                    f,
                    "; a backup was put back, or a disk was copied; both are kept"
                )
            }
            Self::Ending {
                device,
                seq,
                stands,
            } => {
                let how = match stands {
                    Ending::Shorter => "is shorter here than when the next one began",
                    Ending::OtherSeal => "has another seal than the next one quotes",
                };
                write!(f, "trip {seq} of {device} {how}")
            }
        }
    }
}
