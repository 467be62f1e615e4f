//! One table of clocks: what each line shows, and what is told of it.

use super::*;
use chrono::TimeDelta;
use proptest::prelude::*;

/// Runs one watch over lines of `boot steady-minutes wall`, all of one walk, and says what was odd
/// at each line that was.
fn odd(lines: &[&str]) -> Vec<String> {
    let (mut watch, thresholds) = (Watch::default(), Thresholds::default());
    let mut told = Vec::new();
    for (number, line) in (1..).zip(lines) {
        let [boot, minutes, wall] = line.splitn(3, ' ').collect::<Vec<_>>().try_into().unwrap();
        let at = Moment {
            wall: DateTime::parse_from_rfc3339(wall).unwrap(),
            boot: boot.to_owned(),
            mono_ms: minutes.parse::<u64>().unwrap() * 60_000,
        };
        for odd in watch.step(&at, number > 1, false, &thresholds) {
            told.push(match odd {
                Odd::SetBack { .. } => format!("{number} back"),
                Odd::FarAhead { .. } => format!("{number} ahead"),
                Odd::Set(by) => format!("{number} set {}", by / 60_000),
                Odd::Restarted => format!("{number} restarted"),
                Odd::Still(ms) => format!("{number} still {}", ms / 60_000),
            });
        }
        watch.highest = watch.highest.max(Some(at.wall));
    }
    told
}

#[test]
fn a_clock_that_runs_is_not_marked_whatever_it_is_called_in_its_zone() {
    let cases: [(&str, &[&str]); 5] = [
        (
            "the end of summer time",
            &[
                "m 0 2026-11-01T01:50:00-04:00",
                "m 20 2026-11-01T01:10:00-05:00",
            ],
        ),
        (
            "across a border of zones",
            &[
                "m 0 2026-11-20T10:00:00-05:00",
                "m 10 2026-11-20T09:10:00-06:00",
            ],
        ),
        (
            "a second put in at the end of a year",
            &[
                "m 0 2016-12-31T23:59:59+00:00",
                "m 0 2016-12-31T23:59:60+00:00",
                "m 0 2017-01-01T00:00:00+00:00",
            ],
        ),
        (
            "over the end of thirty-two bits",
            &[
                "m 0 2038-01-19T03:14:00+00:00",
                "m 1 2038-01-19T03:15:00+00:00",
            ],
        ),
        (
            "two minutes off, as a time service puts right",
            &[
                "m 0 2026-11-20T10:00:00-05:00",
                "m 5 2026-11-20T10:03:00-05:00",
            ],
        ),
    ];
    for (what, lines) in cases {
        assert_eq!(odd(lines), [""; 0], "{what}");
    }
}

#[test]
fn a_clock_that_was_set_is_marked_once() {
    let cases: [(&[&str], &[&str]); 5] = [
        // Set back while running, and caught up at last.
        (
            &[
                "m 0 2026-11-20T10:00:00-05:00",
                "m 1 2026-11-20T09:50:00-05:00",
                "m 2 2026-11-20T09:51:00-05:00",
                "m 20 2026-11-20T10:09:00-05:00",
            ],
            &["2 back", "2 set -11"],
        ),
        // A battery that died: 1970, then put right.
        (
            &[
                "m 0 2026-11-20T10:00:00-05:00",
                "n 1 1970-01-01T00:01:00+00:00",
                "n 2 2026-11-20T10:20:00-05:00",
            ],
            &["2 back", "2 restarted", "3 set 29919798"],
        ),
        // Set forward by a year.
        (
            &[
                "m 0 2026-11-20T10:00:00-05:00",
                "m 1 2027-11-20T10:01:00-05:00",
            ],
            &["2 set 525600"],
        ),
        // Asleep: both counts go on.
        (
            &[
                "m 0 2026-11-20T10:00:00-05:00",
                "m 90 2026-11-20T11:30:00-05:00",
            ],
            &["2 still 90"],
        ),
        // Asleep, and the count stands still with the laptop: nobody set a clock.
        (
            &[
                "program-1 0 2026-11-20T10:00:00-05:00",
                "program-1 1 2026-11-20T11:30:00-05:00",
            ],
            &[],
        ),
    ];
    for (lines, expected) in cases {
        assert_eq!(odd(lines), expected, "{lines:?}");
    }
}

proptest! {
    #[test]
    fn a_clock_nobody_set_is_never_doubted_wherever_the_laptop_goes(
        steps in proptest::collection::vec((0i64..200_000_000, -14i32..15), 1..20),
        start in -2_000_000_000i64..4_000_000_000,
    ) {
        let (mut watch, thresholds) = (Watch::default(), Thresholds::default());
        let mut mono_ms = 0;
        for (passed, zone) in steps {
            mono_ms += passed;
            let zone = FixedOffset::east_opt(zone * 3600).unwrap();
            let wall = DateTime::from_timestamp(start, 0).unwrap() + TimeDelta::milliseconds(mono_ms);
            let at = Moment {
                wall: wall.with_timezone(&zone),
                boot: "m".to_owned(),
                mono_ms: mono_ms.unsigned_abs(),
            };
            let odd = watch.step(&at, true, false, &thresholds);
            prop_assert!(odd.iter().all(|odd| matches!(odd, Odd::Still(_))), "{odd:?}");
            watch.highest = watch.highest.max(Some(at.wall));
        }
    }
}
