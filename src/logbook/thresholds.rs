//! From where on something is asked about. Common practice, no source: each is set so that an
//! ordinary week raises no question, since what is asked every day is soon answered unread.

use crate::units::{Quantity, Unit};
use chrono::TimeDelta;

/// From where on something is asked about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Thresholds {
    /// Miles of the truck between an unhitching and the next hitch-up. A truck is driven without
    /// its trailer, so that only a long way is asked about.
    pub unhitched: Quantity,
    /// Miles between two hauls where no walk tells of an unhitching: the trailer may have been
    /// behind the truck, and nobody walked round it.
    pub hitched: Quantity,
    /// Faster than this on the average, stops included, no truck with a trailer gets along.
    pub fastest: Quantity,
    /// Clocks of different laptops differ by so much, and nobody set one.
    pub clock_slack: TimeDelta,
    /// A clock so far ahead of everything else known is not merely on a laptop that nobody used.
    pub far_ahead: TimeDelta,
    /// So long a walk stands without an act and without being left by name, before it is told.
    pub still: TimeDelta,
    /// After so long without a record, whoever begins is told how old the newest one is.
    pub long_unused: TimeDelta,
}

impl Default for Thresholds {
    fn default() -> Self {
        Self {
            unhitched: Quantity::whole(500, Unit::Mile),
            hitched: Quantity::whole(100, Unit::Mile),
            fastest: Quantity::whole(85, Unit::MilePerHour),
            clock_slack: TimeDelta::minutes(2),
            far_ahead: TimeDelta::hours(24),
            still: TimeDelta::hours(1),
            long_unused: TimeDelta::days(60),
        }
    }
}
