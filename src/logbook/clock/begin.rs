//! What to tell of the clock before a walk is begun.

use crate::logbook::Thresholds;
use crate::logbook::clock::set_by;
use crate::walk::Moment;
use chrono::{DateTime, FixedOffset};
use std::fmt;

/// Why the clock is worth a look before a walk is begun. The walk can be begun all the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LookAtClock {
    /// It shows less than the newest record.
    Behind {
        /// What it shows.
        now: DateTime<FixedOffset>,
        /// The newest record.
        known: DateTime<FixedOffset>,
    },
    /// It was set, by so many milliseconds, since the last record of this laptop.
    Set(i64),
    /// It shows far more than the newest record.
    Ahead {
        /// What it shows.
        now: DateTime<FixedOffset>,
        /// The newest record.
        known: DateTime<FixedOffset>,
    },
}

impl LookAtClock {
    /// Holds the clock to the last moments in the logbook: of this laptop, and of every one.
    pub fn of<'m>(
        now: &Moment,
        here: Option<&Moment>,
        all: impl IntoIterator<Item = &'m Moment>,
        thresholds: &Thresholds,
    ) -> Option<Self> {
        let known = all.into_iter().map(|moment| moment.wall).max()?;
        let ahead = now.wall.signed_duration_since(known);
        if -ahead > thresholds.clock_slack {
            let now = now.wall;
            return Some(Self::Behind { now, known });
        }
        let set = here.and_then(|here| set_by(here, now, thresholds.clock_slack));
        let far = ahead > thresholds.long_unused;
        let now = now.wall;
        set.map(Self::Set)
            .or_else(|| far.then_some(Self::Ahead { now, known }))
    }
}

impl fmt::Display for LookAtClock {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let date = |at: &DateTime<FixedOffset>| at.format("%Y-%m-%d %H:%M").to_string();
        match self {
            Self::Behind { now, known } => write!(
                f,
                "This laptop's clock shows {}, and the newest record here is of {}. One of the two \
                 clocks was wrong. Look at this one, and set it if need be, before a walk is begun.",
                date(now),
                date(known)
            ),
            Self::Set(by) => write!(
                f,
                "This laptop's clock was set {} by {} since its last record. If nobody meant to, \
                 look at it before a walk is begun.",
                if *by < 0 { "back" } else { "forward" },
                super::span(by.saturating_abs())
            ),
            Self::Ahead { now, known } => write!(
                f,
                "This laptop's clock shows {}, and the newest record here is of {}. If there was a \
                 walk since, its clock is wrong, or the records of other laptops are not here yet.",
                date(now),
                date(known)
            ),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(boot: &str, minutes: u64, wall: &str) -> Moment {
        Moment {
            wall: DateTime::parse_from_rfc3339(wall).unwrap(),
            boot: boot.to_owned(),
            mono_ms: minutes * 60_000,
        }
    }

    #[test]
    fn a_clock_behind_set_or_far_ahead_is_told_before_a_walk_and_another_is_not() {
        let last = at("m", 10, "2026-11-20T10:00:00-05:00");
        let told = |now: Moment| {
            let look = LookAtClock::of(&now, Some(&last), [&last], &Thresholds::default());
            look.map(|look| look.to_string().split_once('.').unwrap().0.to_owned())
        };
        assert_eq!(told(at("m", 70, "2026-11-20T11:00:00-05:00")), None);
        assert_eq!(told(at("n", 1, "2027-01-18T10:00:00-05:00")), None);
        assert_eq!(told(at("n", 1, "2026-11-20T09:58:00-05:00")), None);
        for (now, expected) in [
            (
                at("n", 1, "2026-11-20T09:57:59-05:00"),
                "This laptop's clock shows 2026-11-20 09:57, and the newest record here is of \
                 2026-11-20 10:00",
            ),
            (
                at("m", 20, "2026-11-21T10:10:00-05:00"),
                "This laptop's clock was set forward by 1 d 0 h since its last record",
            ),
            (
                at("n", 1, "2038-01-19T03:14:08+00:00"),
                "This laptop's clock shows 2038-01-19 03:14, and the newest record here is of \
                 2026-11-20 10:00",
            ),
        ] {
            assert_eq!(told(now).as_deref(), Some(expected));
        }
    }
}
