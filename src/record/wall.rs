//! Wall-clock time as written in a record: RFC 3339 with offset, to the millisecond.

use chrono::{DateTime, Datelike, FixedOffset, NaiveDate, SecondsFormat, Timelike};
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
        let digits: &[u8; 29] = text.as_bytes().try_into().ok()?;
        let &[
            y1,
            y2,
            y3,
            y4,
            b'-',
            m1,
            m2,
            b'-',
            d1,
            d2,
            b'T',
            h1,
            h2,
            b':',
            n1,
            n2,
            b':',
            s1,
            s2,
            b'.',
            f1,
            f2,
            f3,
            sign @ (b'+' | b'-'),
            oh1,
            oh2,
            b':',
            on1,
            on2,
        ] = digits
        else {
            return None;
        };
        let year = i32::try_from(number(&[y1, y2, y3, y4])?).ok()?;
        let day = NaiveDate::from_ymd_opt(year, number(&[m1, m2])?, number(&[d1, d2])?)?;
        // A leap second is the second before, gone on with.
        let (second, more) = match number(&[s1, s2])? {
            60 => (59, 1000),
            second => (second, 0),
        };
        let millis = number(&[f1, f2, f3])? + more;
        let (hour, minute) = (number(&[h1, h2])?, number(&[n1, n2])?);
        let local = day.and_hms_milli_opt(hour, minute, second, millis)?;
        let minutes = number(&[on1, on2]).filter(|minutes| *minutes < 60)?;
        let east = i32::try_from((number(&[oh1, oh2])? * 60 + minutes) * 60).ok()?;
        let offset = match (sign, east) {
            (b'+', east) => FixedOffset::east_opt(east)?,
            (_, 0) => return None,
            (_, west) => FixedOffset::west_opt(west)?,
        };
        Self::new(local.and_local_timezone(offset).single()?)
    }

    /// The moment.
    pub const fn moment(&self) -> DateTime<FixedOffset> {
        self.0
    }
}

/// A number of digits and nothing else.
fn number(digits: &[u8]) -> Option<u32> {
    digits.iter().try_fold(0, |number, digit| {
        let digit = digit.is_ascii_digit().then(|| u32::from(digit - b'0'))?;
        Some(number * 10 + digit)
    })
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

        /// Held against a reader of every spelling of RFC 3339.
        #[test]
        fn a_spelling_is_read_where_it_is_the_one_a_moment_is_written_in(
            text in "[0-9]{4}-[01][0-9]-[0-3][0-9][Tt ][0-2][0-9]:[0-6][0-9]:[0-6][0-9](\\.[0-9]{3})?([-+][0-2][0-9]:[0-6][0-9]|Z)",
        ) {
            let any = DateTime::parse_from_rfc3339(&text).ok().and_then(Wall::new);
            let wall = any.filter(|wall| wall.to_string() == text);
            prop_assert_eq!(Wall::read(&text), wall);
        }
    }
}
