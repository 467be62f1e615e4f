//! How near a thing is before it is told as coming.

use crate::units::{Exact, Quantity, Unit};
use chrono::NaiveDate;
use std::cmp::Ordering;

/// What is due within this is told: common practice, no source.
pub(super) const SOON: Soon = Soon {
    days: 30,
    miles: 500,
};

/// What is done every few weeks would be coming all the time: of a short interval, its last part
/// of so many is near.
const PARTS: i64 = 4;

/// A span of days and one of distance.
#[derive(Clone, Copy, Debug)]
pub(super) struct Soon {
    pub(super) days: i64,
    miles: i64,
}

impl Soon {
    /// Whether a day is that near, of an interval that runs from another.
    pub(super) fn is_near(self, left: i64, from: NaiveDate, to: NaiveDate) -> bool {
        let whole = to.signed_duration_since(from).num_days();
        left <= self.days.min(whole / PARTS)
    }

    /// Whether a distance is that near, of an interval.
    pub(super) fn is_close(self, left: &Quantity, whole: &Quantity) -> bool {
        let near = Quantity::whole(self.miles, Unit::Mile);
        let part = Exact::ratio(1, PARTS.into()).map(|part| whole.times(&part));
        let within = |most: &Quantity| left.compare(most) != Some(Ordering::Greater);
        within(&near) && part.is_none_or(|part| within(&part))
    }
}
