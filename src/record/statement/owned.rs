//! Who sees to a defect, and by when, as a manager states it. Version 2 of the format has it.

use crate::record::wire::StoredTyped;
use crate::record::{Digest, Id, Unreadable};
use crate::units::{Dimension, Typed};
use crate::walk::Words;
use chrono::{Datelike, NaiveDate};
use serde::{Deserialize, Serialize};

/// A defect has an owner. It closes none: only a later reading does.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct DefectOwned {
    /// A trip on which it was found.
    pub trip: Id,
    /// The device that kept it.
    pub device: Id,
    /// Its number there.
    pub seq: u64,
    /// Its seal.
    pub seal: Digest,
    /// The step it was found by, with its part.
    pub step: Words,
    /// Who sees to it.
    pub owner: Owner,
    /// The last day it is in time.
    pub by_day: Option<NaiveDate>,
    /// The odometer up to which it is in time.
    pub by_odometer: Option<Odometer>,
    /// What is said of it.
    pub words: Option<Words>,
}

/// Who sees to a defect.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Owner {
    /// One of the crew.
    Crew(Id),
    /// Somebody else, in words: a shop.
    Outside(Words),
}

/// An odometer as it was typed.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(try_from = "StoredTyped", into = "StoredTyped")]
pub struct Odometer(pub Typed);

impl DefectOwned {
    /// What the fields alone cannot say.
    pub(super) fn fault(&self) -> Option<&'static str> {
        let is_day = |day: &NaiveDate| (1..=9999).contains(&day.year());
        let is_odometer = |Odometer(typed): &Odometer| {
            let read = typed.quantity();
            read.dimension() == Dimension::Length && !read.value.is_negative()
        };
        if self.seq == 0 {
            Some("trips are numbered from 1")
        } else if !self.by_day.as_ref().is_none_or(is_day) {
            Some("a day is of a year of four digits")
        } else if !self.by_odometer.as_ref().is_none_or(is_odometer) {
            Some("an odometer shows a length, from 0 on")
        } else {
            None
        }
    }
}

impl TryFrom<StoredTyped> for Odometer {
    type Error = Unreadable;

    fn try_from(stored: StoredTyped) -> Result<Self, Unreadable> {
        stored.meant().map(Self)
    }
}

impl From<Odometer> for StoredTyped {
    fn from(Odometer(typed): Odometer) -> Self {
        Self::of(&typed)
    }
}
