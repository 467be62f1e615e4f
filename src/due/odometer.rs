//! The odometer that distances are held to, and whence it is known.

use crate::due::{Due, Walked};
use crate::rig::Rig;
use crate::units::Quantity;
use chrono::NaiveDate;
use std::cmp::Ordering;
use std::fmt;

/// An odometer that a walk has read.
#[derive(Clone, Debug, PartialEq)]
pub struct OdometerRead {
    /// What it showed.
    pub shown: Quantity,
    /// On which day.
    pub on: NaiveDate,
    /// Who read it.
    pub by: String,
}

/// What is known of the truck's odometer.
#[derive(Clone, Debug, PartialEq)]
pub enum Odometer {
    /// It was read today.
    Today(Quantity),
    /// The furthest that was ever written down: it shows that much by now, or more.
    Written(Quantity, Whence),
}

/// Where an odometer is written down.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Whence {
    /// In the rig file, beside a service of this day.
    File(NaiveDate),
    /// In a walk of this day, read by this person.
    Walk(NaiveDate, String),
}

impl Odometer {
    /// What it shows, or at least shows by now.
    pub const fn shown(&self) -> &Quantity {
        match self {
            Self::Today(shown) | Self::Written(shown, _) => shown,
        }
    }

    pub(super) fn of(rig: &Rig, today: Option<&Quantity>, walked: Walked<'_>) -> Option<Self> {
        if let Some(today) = today {
            return Some(Self::Today(today.clone()));
        }
        let filed = rig.services.iter().filter_map(|one| one.last.as_ref());
        let filed = filed.filter_map(|last| Some((last.odometer.as_ref()?, Whence::File(last.on))));
        let read = walked.odometer.into_iter();
        let read = read.map(|read| (&read.shown, Whence::Walk(read.on, read.by.clone())));
        let done = walked.done.iter();
        let done = done.filter_map(|done| {
            Some((
                done.odometer.as_ref()?,
                Whence::Walk(done.on, done.by.clone()),
            ))
        });
        let furthest = filed.chain(read).chain(done).reduce(|one, other| {
            if other.0.compare(one.0) == Some(Ordering::Greater) {
                other
            } else {
                one
            }
        });
        furthest.map(|(shown, whence)| Self::Written(shown.clone(), whence))
    }
}

/// From where the distances are reckoned that are left of these, as a sentence; of none, nothing.
pub fn reckoned(due: &[Due], from: Option<&Odometer>) -> Option<String> {
    let any = due.iter().any(|one| one.when.left.is_some());
    let from = from.filter(|_| any)?;
    Some(format!("What is left to drive is reckoned from {from}."))
}

impl fmt::Display for Odometer {
    /// `47190 mi, read on 2026-11-10 by Wren Ashdown`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Today(shown) => write!(f, "{shown}, as told today"),
            Self::Written(shown, Whence::File(on)) => {
                write!(f, "{shown}, of the service of {on} in the rig file")
            }
            Self::Written(shown, Whence::Walk(on, by)) => {
                write!(f, "{shown}, read on {on} by {by}")
            }
        }
    }
}
