//! Wall-clock time as written in a record: RFC 3339 with offset, to the millisecond.

use chrono::{DateTime, Datelike, FixedOffset, SecondsFormat, Timelike};
use std::fmt;

/// A moment on the wall clock of the place, with one spelling: `2026-11-25T07:14:03.250-05:00`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Wall(DateTime<FixedOffset>);

impl Wall {
    /// Takes a moment, cut to the millisecond. `None` where RFC 3339 cannot write it: a year
    /// outside 0 to 9999, or an offset with seconds in it.
    pub fn new(moment: DateTime<FixedOffset>) -> Option<Self> {
        let millis = moment.nanosecond() / 1_000_000 * 1_000_000;
        let cut = moment.with_nanosecond(millis)?;
        let writable = (0..=9999).contains(&cut.year()) && cut.offset().local_minus_utc() % 60 == 0;
        writable.then_some(Self(cut))
    }

    /// Reads the one spelling; `None` for any other, even one that names the same moment.
    pub fn read(text: &str) -> Option<Self> {
        let moment = DateTime::parse_from_rfc3339(text).ok()?;
        Self::new(moment).filter(|wall| wall.to_string() == text)
    }

    /// The moment.
    pub const fn moment(&self) -> DateTime<FixedOffset> {
        self.0
    }
}

impl fmt::Display for Wall {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0.to_rfc3339_opts(SecondsFormat::Millis, false))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use chrono::TimeZone;
    use proptest::prelude::*;

    #[test]
    fn a_moment_has_one_spelling() {
        for right in [
            "2026-11-25T07:14:03.250-05:00",
            "1970-01-01T00:00:00.000+00:00",
            "2038-01-19T03:14:08.000+10:30",
            "2016-12-31T23:59:60.999+00:00",
        ] {
            assert_eq!(Wall::read(right).unwrap().to_string(), right);
        }
        for wrong in [
            "2026-11-25T07:14:03-05:00",
            "2026-11-25T07:14:03.25-05:00",
            "2026-11-25T07:14:03.250Z",
            "2026-11-25t07:14:03.250-05:00",
            "2026-11-25 07:14:03.250-05:00",
            "2026-11-25T07:14:03.250-00:00",
            "2026-02-30T07:14:03.250-05:00",
            "",
        ] {
            assert_eq!(Wall::read(wrong), None, "{wrong}");
        }
    }

    proptest! {
        #[test]
        fn a_written_moment_reads_back_the_same(
            millis in -62_000_000_000_000i64..253_000_000_000_000,
            minutes in -1439i32..1440,
        ) {
            let offset = FixedOffset::east_opt(minutes * 60).unwrap();
            let moment = offset.timestamp_millis_opt(millis).unwrap();
            let wall = Wall::new(moment).unwrap();
            prop_assert_eq!(Wall::read(&wall.to_string()), Some(wall));
            prop_assert_eq!(wall.moment(), moment);
        }
    }
}
