//! # The gap ahead

use crate::mechanics::constants::{FOOT_IN, INCH_M, MPH_M_S};
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure following_gap` tells of it.
pub const PAGE: Page = Page {
    name: "following_gap",
    title: "The gap ahead",
    situation: "A loaded rig needs more road to stop, and horses need to be stopped gently. The \
                gap to the vehicle ahead is counted in seconds: it passes a mark, and the truck \
                passes the same mark so many seconds later.",
    formula: "gap = v t",
    symbols: &[
        ("v", "speed, mph"),
        ("t", "seconds counted, s; 4 on a dry road, 6 on a bad one"),
        ("gap", "the same as a distance, ft"),
    ],
    holds: "up to 80 mph and 20 s",
    assumes: "Both go equally fast.",
    never: "As a stopping distance, or to call a speed right.",
    source: "4 and 6 seconds from a magazine's towing test, 2008; distance from speed and time",
};

/// Seconds on a dry road.
const DRY_S: f64 = 4.0;

/// Inches in a foot, as metres.
const FOOT_M: f64 = FOOT_IN * INCH_M;

/// Following someone.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Following {
    /// Speed, mph.
    pub speed_mph: f64,
    /// Seconds counted; those of a dry road unless given.
    #[serde(default = "dry")]
    pub seconds: f64,
}

/// The gap.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Gap {
    /// As a distance, ft.
    pub gap_ft: f64,
}

fn dry() -> f64 {
    DRY_S
}

/// A gap of seconds as a distance.
///
/// # Errors
/// [`NoNumber`] outside the ranges.
pub fn following_gap(inputs: &Following) -> Result<Gap, NoNumber> {
    let mut ranges = Ranges::new();
    ranges
        .within("speed_mph", inputs.speed_mph, 0.0, 80.0)
        .within("seconds", inputs.seconds, 0.0, 20.0)
        .checked()?;
    let feet = inputs.speed_mph * MPH_M_S * inputs.seconds / FOOT_M;
    Ok(Gap {
        gap_ft: finite("the gap", feet)?,
    })
}
