//! # When the nuts are to be looked at again

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure retorque_due` tells of it.
pub const PAGE: Page = Page {
    name: "retorque_due",
    title: "When the nuts are to be looked at again",
    situation: "A wheel that was off settles on its seat in the first miles and its nuts lose some \
                of their clamp. Axle makers ask for the torque wrench three times before it is \
                trusted.",
    formula: "due 10, 25 and 50 miles after the wheel was off; a re-check counts for every mark \
              it was driven past",
    symbols: &[
        ("wheel off", "odometer when the wheel went on again, mi"),
        ("last re-check", "odometer when its nuts were last set, mi"),
        ("due", "odometer of the next re-check, mi"),
    ],
    holds: "odometers that do not run backward",
    assumes: "The odometer of the truck that pulls it; a trailer that changed trucks is counted \
              by hand.",
    never: "To drive on past a mark because the next one is near.",
    source: "axle makers' manuals: re-torque after the first 10, 25 and 50 miles after every wheel \
             removal",
};

/// Miles after which the nuts are looked at again.
const MARKS_MI: [f64; 3] = [10.0, 25.0, 50.0];

/// A wheel that was off.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WheelOff {
    /// Odometer when it went on again, mi.
    pub wheel_off_at_mi: f64,
    /// Odometer now, mi.
    pub odometer_mi: f64,
    /// Odometer at the last re-check since, mi.
    #[serde(default)]
    pub last_recheck_at_mi: Option<f64>,
}

/// When its nuts are to be looked at again.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct RetorqueDue {
    /// Odometer of the next re-check, mi; nothing when all were done.
    pub due_at_mi: Option<f64>,
    /// Miles until then; below 0 when driven past.
    pub miles_left: Option<f64>,
    /// Whether it is due.
    pub status: DueStatus,
}

/// Whether a re-check is due.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum DueStatus {
    /// Not before the miles are driven.
    NotYet,
    /// Now, before driving on.
    Due,
    /// All three were done.
    AllDone,
}

/// The next re-check of a wheel that was off.
///
/// # Errors
/// [`NoNumber`] for odometers that run backward.
pub fn retorque_due(inputs: &WheelOff) -> Result<RetorqueDue, NoNumber> {
    let WheelOff {
        wheel_off_at_mi: off,
        odometer_mi: now,
        last_recheck_at_mi: last,
    } = *inputs;
    let checked_at = last.unwrap_or(off);
    let mut ranges = Ranges::new();
    ranges
        .not_negative("wheel_off_at_mi", off)
        .finite("odometer_mi", now)
        .holds(now >= off, "odometer_mi", now, "wheel_off_at_mi or more")
        .holds(
            checked_at >= off && checked_at <= now,
            "last_recheck_at_mi",
            checked_at,
            "an odometer between the two",
        )
        .checked()?;
    let next = MARKS_MI.into_iter().find(|mark| checked_at - off < *mark);
    let Some(mark) = next else {
        return Ok(RetorqueDue {
            due_at_mi: None,
            miles_left: None,
            status: DueStatus::AllDone,
        });
    };
    let due_at = finite("the odometer", off + mark)?;
    let left = due_at - now;
    Ok(RetorqueDue {
        due_at_mi: Some(due_at),
        miles_left: Some(left),
        status: if left > 0.0 {
            DueStatus::NotYet
        } else {
            DueStatus::Due
        },
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(now: f64, last: Option<f64>) -> (Option<f64>, DueStatus) {
        let due = retorque_due(&WheelOff {
            wheel_off_at_mi: 1000.0,
            odometer_mi: now,
            last_recheck_at_mi: last,
        })
        .unwrap();
        (due.due_at_mi, due.status)
    }

    #[test]
    fn each_mark_is_due_until_a_re_check_was_done_at_or_past_it() {
        assert_eq!(told(1000.0, None), (Some(1010.0), DueStatus::NotYet));
        assert_eq!(told(1010.0, None), (Some(1010.0), DueStatus::Due));
        assert_eq!(told(1040.0, None), (Some(1010.0), DueStatus::Due));
        assert_eq!(told(1012.0, Some(1009.0)), (Some(1010.0), DueStatus::Due));
        assert_eq!(
            told(1012.0, Some(1012.0)),
            (Some(1025.0), DueStatus::NotYet)
        );
        assert_eq!(told(1060.0, Some(1051.0)), (None, DueStatus::AllDone));
    }

    #[test]
    fn an_odometer_does_not_run_backward() {
        for (now, last) in [(999.0, None), (1020.0, Some(1030.0)), (1020.0, Some(990.0))] {
            let told = retorque_due(&WheelOff {
                wheel_off_at_mi: 1000.0,
                odometer_mi: now,
                last_recheck_at_mi: last,
            });
            assert!(told.is_err());
        }
    }
}
