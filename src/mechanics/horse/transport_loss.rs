//! # What a horse loses on the road

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure transport_loss` tells of it.
pub const PAGE: Page = Page {
    name: "transport_loss",
    title: "What a horse loses on the road",
    situation: "A horse on the road loses weight by the hour, most of it water. It tells how much \
                drinking there is to catch up on at the other end.",
    formula: "loss = 0.005 W t",
    symbols: &[
        ("W", "weight of the horse when loaded, lb"),
        ("t", "hours on the road, h"),
        ("loss", "weight lost, lb"),
    ],
    holds: "up to 24 h",
    assumes: "0.45 to 0.55 % of its weight an hour, in fair weather, with water offered.",
    never: "To take weight off the trailer's axles: what a horse loses lies in the bedding or is \
            carried on.",
    source: "0.45 to 0.55 % an hour, from a farming paper, read in a copy",
};

/// Share of its weight a horse loses an hour.
const SHARE_PER_H: f64 = 0.005;

/// A horse hauled.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Hauled {
    /// Its weight when loaded, lb.
    pub weight_lb: f64,
    /// Hours on the road.
    pub hours: f64,
}

/// What it lost.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Loss {
    /// Weight, lb.
    pub loss_lb: f64,
}

/// The weight a horse loses on the road.
///
/// # Errors
/// [`NoNumber`] outside the ranges.
pub fn transport_loss(inputs: &Hauled) -> Result<Loss, NoNumber> {
    let mut ranges = Ranges::new();
    ranges
        .within("weight_lb", inputs.weight_lb, 50.0, 3_000.0)
        .within("hours", inputs.hours, 0.0, 24.0)
        .checked()?;
    let loss = SHARE_PER_H * inputs.weight_lb * inputs.hours;
    Ok(Loss {
        loss_lb: finite("the loss", loss)?,
    })
}
