//! # A stop from a speed

use crate::mechanics::constants::{FOOT_IN, GRAVITY_M_S2, INCH_M, MPH_M_S};
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure stopping` tells of it.
pub const PAGE: Page = Page {
    name: "stopping",
    title: "A stop from a speed",
    situation: "A rig slows down evenly from a speed to a stand. Its speed with the distance, the \
                time or the deceleration gives the other two, and the force that did it.",
    formula: "a = v^2 / 2 s = v / t; s = v^2 / 2 a; F = (a / g) W",
    symbols: &[
        ("v", "speed at the start, mph; 20 where nothing is given"),
        ("s, t", "distance, ft, and time, s, with the brakes on"),
        ("a", "deceleration, ft/s^2, and of gravity"),
        ("F", "force that holds the rig back, lb"),
        ("W", "weight of all that is slowed, lb"),
    ],
    holds: "speed more than 0 and up to 100 mph; up to 1.5 of gravity; just one of distance, time \
            and deceleration",
    assumes: "The same deceleration from first to last, on the level.",
    never: "To compare with a distance counted from the first touch of the pedal, as laws count: \
            that distance holds the time the brakes take to come on as well.",
    source: "even deceleration, any textbook of physics",
};

/// A stop.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Stop {
    /// Speed at the start, mph.
    #[serde(default = "twenty")]
    pub speed_mph: f64,
    /// Distance with the brakes on, ft.
    #[serde(default)]
    pub distance_ft: Option<f64>,
    /// Time with the brakes on, s.
    #[serde(default)]
    pub time_s: Option<f64>,
    /// Deceleration, of gravity.
    #[serde(default)]
    pub decel_g: Option<f64>,
    /// Weight of all that is slowed, lb.
    #[serde(default, alias = "combined_lb")]
    pub weight_lb: Option<f64>,
}

/// A stop, whole.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Stopped {
    /// Deceleration, of gravity.
    pub decel_g: f64,
    /// Deceleration, ft/s².
    pub decel_ft_s2: f64,
    /// Force that holds back, of the weight, %.
    pub force_pct_of_weight: f64,
    /// Distance, ft.
    pub distance_ft: f64,
    /// Time, s.
    pub time_s: f64,
    /// Force that holds back, lb; nothing without a weight.
    pub force_lb: Option<f64>,
}

/// Foot, m.
pub(super) const FOOT_M: f64 = FOOT_IN * INCH_M;

/// One g, ft/s².
pub(super) const GRAVITY_FT_S2: f64 = GRAVITY_M_S2 / FOOT_M;

/// Hardest stop reckoned, of gravity.
const MOST_DECEL_G: f64 = super::rig::MOST_DECEL_G;

/// Deceleration, distance, time and force of a stop.
///
/// # Errors
/// [`NoNumber`] when a number is out of range, or not just one of distance, time and deceleration
/// is given.
pub fn stopping(inputs: &Stop) -> Result<Stopped, NoNumber> {
    let mut ranges = Ranges::new();
    let mph = inputs.speed_mph;
    ranges.holds(
        mph > 0.0 && mph <= 100.0,
        "speed_mph",
        mph,
        "more than 0 and up to 100",
    );
    for (what, given) in [
        ("distance_ft", inputs.distance_ft),
        ("time_s", inputs.time_s),
        ("decel_g", inputs.decel_g),
        ("weight_lb", inputs.weight_lb),
    ] {
        if let Some(given) = given {
            ranges.positive(what, given);
        }
    }
    ranges.checked()?;
    let speed_ft_s = mph * MPH_M_S / FOOT_M;
    let decel_ft_s2 = match (inputs.distance_ft, inputs.time_s, inputs.decel_g) {
        (Some(distance), None, None) => speed_ft_s * speed_ft_s / (2.0 * distance),
        (None, Some(time), None) => speed_ft_s / time,
        (None, None, Some(decel)) => decel * GRAVITY_FT_S2,
        _ => {
            return Err(NoNumber::because(
                "A stop is told by one of distance_ft, time_s and decel_g: give just one of them.",
            ));
        }
    };
    let decel_g = decel_ft_s2 / GRAVITY_FT_S2;
    if decel_g > MOST_DECEL_G {
        return Err(NoNumber::because(format!(
            "That would be {decel_g:.1} of gravity, and no tire on any road gives more than \
             {MOST_DECEL_G}. Look at the speed, and at the distance or time."
        )));
    }
    Ok(Stopped {
        decel_g,
        decel_ft_s2,
        force_pct_of_weight: 100.0 * decel_g,
        distance_ft: finite(
            "the distance",
            speed_ft_s * speed_ft_s / (2.0 * decel_ft_s2),
        )?,
        time_s: finite("the time", speed_ft_s / decel_ft_s2)?,
        force_lb: inputs.weight_lb.map(|weight| decel_g * weight),
    })
}

fn twenty() -> f64 {
    20.0
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stop() -> Stop {
        Stop {
            speed_mph: 20.0,
            distance_ft: None,
            time_s: None,
            decel_g: None,
            weight_lb: None,
        }
    }

    #[test]
    fn distance_time_and_deceleration_of_one_stop_tell_the_same_stop() {
        let by_distance = stopping(&Stop {
            distance_ft: Some(60.0),
            ..stop()
        })
        .unwrap();
        for told in [
            Stop {
                time_s: Some(by_distance.time_s),
                ..stop()
            },
            Stop {
                decel_g: Some(by_distance.decel_g),
                ..stop()
            },
        ] {
            let again = stopping(&told).unwrap();
            assert!((again.distance_ft - 60.0).abs() < 1e-9);
            assert!((again.decel_g - by_distance.decel_g).abs() < 1e-12);
        }
    }

    #[test]
    fn a_stop_told_twice_or_not_at_all_is_refused() {
        let twice = Stop {
            distance_ft: Some(60.0),
            time_s: Some(4.0),
            ..stop()
        };
        for told in [stop(), twice] {
            assert!(
                stopping(&told)
                    .unwrap_err()
                    .to_string()
                    .contains("just one")
            );
        }
    }
}
