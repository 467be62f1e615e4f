//! The clock, against the newest time anybody wrote in the logbook.

use crate::cli::doctor::check::Check;
use crate::walk::Moment;
use chrono::{DateTime, FixedOffset, TimeDelta};

const OF: &str = "clock";

/// So far may two laptops' clocks lie apart.
const APART: TimeDelta = TimeDelta::minutes(5);

/// Nobody walked for so long, or the clock is ahead.
const LONG: TimeDelta = TimeDelta::days(400);

/// How the clock stands; `newest` is the newest time in the logbook.
pub(super) fn clock(now: &Moment, newest: Option<DateTime<FixedOffset>>) -> Vec<Check> {
    vec![against(now.wall, newest), start(&now.boot)]
}

fn against(now: DateTime<FixedOffset>, newest: Option<DateTime<FixedOffset>>) -> Check {
    const SHOWN: &str = "%Y-%m-%d %H:%M %:z";
    let shown = now.format(SHOWN);
    let Some(newest) = newest else {
        return Check::ok(OF, format!("it says {shown}; nothing here is later"));
    };
    let (behind, written) = (newest - now, newest.format(SHOWN));
    if behind > APART {
        return Check::look(
            OF,
            format!(
                "it says {shown}, and the newest time written here is {written}. One of the two \
                 clocks was wrong: look at this one, and set it if need be. Walks go on meanwhile, and \
                 their order does not rest on it"
            ),
        );
    }
    if -behind > LONG {
        return Check::look(
            OF,
            format!(
                "it says {shown}, and the newest time written here is {written}. If somebody has \
                 walked since, the clock is ahead"
            ),
        );
    }
    Check::ok(OF, format!("it says {shown}; nothing here is later"))
}

/// Whether the system tells its starts apart.
fn start(boot: &str) -> Check {
    if boot.starts_with("program-") {
        Check::look(
            OF,
            "this system does not say when it was started, so the time a laptop slept during a \
             walk is not told",
        )
    } else {
        Check::ok(OF, "this system says when it was started")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cli::doctor::check::Stands;

    #[test]
    fn a_clock_behind_what_is_written_or_far_ahead_of_it_is_worth_a_look_and_no_more() {
        let at = |text| DateTime::parse_from_rfc3339(text).unwrap();
        let now = at("2026-11-25T07:14:00-05:00");
        for (newest, stands) in [
            (None, Stands::Ok),
            (Some("2026-11-25T07:00:00-05:00"), Stands::Ok),
            (Some("2026-11-25T07:18:00-05:00"), Stands::Ok),
            (Some("2026-11-25T09:18:00-05:00"), Stands::Look),
            (Some("2027-11-27T09:18:00-05:00"), Stands::Look),
            (Some("2024-11-27T09:18:00-05:00"), Stands::Look),
        ] {
            assert_eq!(against(now, newest.map(at)).stands, stands, "{newest:?}");
        }
        assert_eq!(start("program-17").stands, Stands::Look);
        assert_eq!(start("5c1e09b4").stands, Stands::Ok);
    }
}
