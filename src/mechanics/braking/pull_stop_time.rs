//! # The lever pull by a watch

use crate::mechanics::braking::stopping::{Stop, stopping};
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure pull_stop_time` tells of it.
pub const PAGE: Page = Page {
    name: "pull_stop_time",
    title: "The lever pull by a watch",
    situation: "At a walking pace, foot off both pedals, the hand lever goes full on, and the \
                trailer's brakes alone stop truck and trailer. The seconds to a stand tell how \
                hard they hold.",
    formula: "a = B / W of gravity; t = v / (a g), and back",
    symbols: &[
        ("t", "time from lever to stand, s"),
        ("v", "speed at the start, mph; 5 where nothing is given"),
        ("a", "deceleration, of gravity"),
        ("B", "force of all trailer brakes at the road, lb"),
        ("W", "weight of truck and trailer together, lb"),
    ],
    holds: "speed more than 0 and up to 25 mph; just one of time, deceleration and brake force; \
            brake force with the combined weight",
    assumes: "Level ground, brakes at full force at once. A watch in the hand is good to about \
              0.3 s, and an engine in gear pulls on.",
    never: "To judge brakes that were not warmed by a few stops, or one wheel among several.",
    source: "even deceleration, any textbook of physics",
};

/// The speed of a lever pull, a walking pace, mph.
pub const PULL_MPH: f64 = 5.0;

/// A lever pull.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LeverPull {
    /// Speed at the start, mph.
    #[serde(default = "walking")]
    pub speed_mph: f64,
    /// Time to a stand, s.
    #[serde(default)]
    pub time_s: Option<f64>,
    /// Deceleration, of gravity.
    #[serde(default)]
    pub decel_g: Option<f64>,
    /// Force of all trailer brakes at the road, lb.
    #[serde(default)]
    pub brake_force_lb: Option<f64>,
    /// Truck and trailer together, lb.
    #[serde(default)]
    pub combined_lb: Option<f64>,
}

/// A lever pull, whole.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Pulled {
    /// Time to a stand, s.
    pub time_s: f64,
    /// Way to a stand, ft.
    pub distance_ft: f64,
    /// Deceleration, of gravity.
    pub decel_g: f64,
    /// Force that holds back, lb; nothing without the weight.
    pub force_lb: Option<f64>,
}

/// Time, way and force of a stop by the trailer's brakes alone.
///
/// # Errors
/// [`NoNumber`] when a number is out of range, or not just one of time, deceleration and brake
/// force is given.
pub fn pull_stop_time(inputs: &LeverPull) -> Result<Pulled, NoNumber> {
    let mut ranges = Ranges::new();
    let mph = inputs.speed_mph;
    ranges.holds(
        mph > 0.0 && mph <= 25.0,
        "speed_mph",
        mph,
        "more than 0 and up to 25",
    );
    for (what, given) in [
        ("brake_force_lb", inputs.brake_force_lb),
        ("combined_lb", inputs.combined_lb),
    ] {
        if let Some(given) = given {
            ranges.positive(what, given);
        }
    }
    ranges.checked()?;
    let decel_g = match (inputs.brake_force_lb, inputs.combined_lb, inputs.decel_g) {
        (None, _, decel) => decel,
        (Some(force), Some(weight), None) => Some(finite("the deceleration", force / weight)?),
        (Some(_), None, _) => {
            return Err(NoNumber::because(
                "Brake force slows what it has to stop: give combined_lb, truck and trailer \
                 together, as well.",
            ));
        }
        (Some(_), _, Some(_)) => return Err(told_twice()),
    };
    if inputs.time_s.is_some() == decel_g.is_some() {
        return Err(told_twice());
    }
    let stopped = stopping(&Stop {
        speed_mph: mph,
        distance_ft: None,
        time_s: inputs.time_s,
        decel_g,
        weight_lb: inputs.combined_lb,
    })?;
    Ok(Pulled {
        time_s: stopped.time_s,
        distance_ft: stopped.distance_ft,
        decel_g: stopped.decel_g,
        force_lb: stopped.force_lb,
    })
}

fn told_twice() -> NoNumber {
    NoNumber::because(
        "A pull is told by one of time_s, decel_g and brake_force_lb: give just one of them.",
    )
}

fn walking() -> f64 {
    PULL_MPH
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pull() -> LeverPull {
        LeverPull {
            speed_mph: 5.0,
            time_s: None,
            decel_g: None,
            brake_force_lb: None,
            combined_lb: Some(13_100.0),
        }
    }

    #[test]
    fn the_force_that_a_time_tells_gives_that_time_back() {
        let watched = pull_stop_time(&LeverPull {
            time_s: Some(2.3),
            ..pull()
        })
        .unwrap();
        let back = pull_stop_time(&LeverPull {
            brake_force_lb: watched.force_lb,
            ..pull()
        })
        .unwrap();
        assert!((back.time_s - 2.3).abs() < 1e-12);
    }

    #[test]
    fn a_pull_told_by_two_or_none_is_refused() {
        let two = LeverPull {
            time_s: Some(2.0),
            brake_force_lb: Some(900.0),
            ..pull()
        };
        for told in [pull(), two] {
            assert!(
                pull_stop_time(&told)
                    .unwrap_err()
                    .to_string()
                    .contains("just one")
            );
        }
        let weightless = LeverPull {
            brake_force_lb: Some(900.0),
            combined_lb: None,
            ..pull()
        };
        assert!(
            pull_stop_time(&weightless)
                .unwrap_err()
                .to_string()
                .contains("combined_lb")
        );
    }
}
