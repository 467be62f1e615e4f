//! # Forces a hitch is tested with

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure hitch_test` tells of it.
pub const PAGE: Page = Page {
    name: "hitch_test",
    title: "Forces a hitch is tested with",
    situation: "A hitch on the truck is loaded on a bench in steps: down and along together, then \
                along with the tongue's weight, then to the side. What it is rated for decides how \
                hard.",
    formula: "carrying: V = L = 0.47 R + 480; then L = 0.23 R + 1530, V = 0.15 R; T = 0.20 R + 500. \
              distributing: V = 0.045 R + 1650 and a couple of 51,000 lb in; then L = 0.067 R + \
              2070, V = 0.15 R; T as before",
    symbols: &[
        ("R", "trailer weight the hitch is rated for, lb"),
        ("V", "down, lb"),
        ("L", "along, lb"),
        ("T", "to the side, lb"),
    ],
    holds: "R more than 0 and up to 10,000 lb, the end of the classes",
    assumes: "The hitch stands on a bench as on its truck.",
    never: "For telling what a hitch in use may carry: that is its rating.",
    source: "COMAR 11.13.08.10 table 2, after SAE J684 and VESC V-5",
};

/// A hitch by its rating.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HitchTest {
    /// Trailer weight it is rated for, lb.
    pub rating_lb: f64,
    /// How it carries the tongue.
    pub kind: Kind,
}

/// How a hitch carries the tongue.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Kind {
    /// Alone.
    Carrying,
    /// With spring bars.
    Distributing,
}

/// The forces of the test.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct HitchForces {
    /// First step: down, lb.
    pub first_down_lb: f64,
    /// First step: along, lb; nothing with spring bars.
    pub first_along_lb: Option<f64>,
    /// First step with spring bars: the couple of the bars, lb in.
    pub first_couple_lb_in: Option<f64>,
    /// Second and third step: down, lb.
    pub second_down_lb: f64,
    /// Second and third step: along, lb.
    pub second_along_lb: f64,
    /// Fourth and fifth step: to the side, lb.
    pub side_lb: f64,
}

/// The forces a hitch of this rating is tested with.
///
/// # Errors
/// [`NoNumber`] for a rating above the classes.
pub fn hitch_test(inputs: &HitchTest) -> Result<HitchForces, NoNumber> {
    let rating = inputs.rating_lb;
    Ranges::new()
        .holds(
            rating > 0.0 && rating <= 10_000.0,
            "rating_lb",
            rating,
            "more than 0 and up to 10000; the classes end there",
        )
        .checked()?;
    let carrying = inputs.kind == Kind::Carrying;
    let (first, along) = if carrying {
        (0.47 * rating + 480.0, 0.23 * rating + 1530.0)
    } else {
        (0.045 * rating + 1650.0, 0.067 * rating + 2070.0)
    };
    Ok(HitchForces {
        first_down_lb: finite("the first force", first)?,
        first_along_lb: carrying.then_some(first),
        first_couple_lb_in: (!carrying).then_some(51_000.0),
        second_down_lb: 0.15 * rating,
        second_along_lb: along,
        side_lb: 0.20 * rating + 500.0,
    })
}
