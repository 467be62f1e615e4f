//! # Whether a light trailer needs brakes

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure brakes_required` tells of it.
pub const PAGE: Page = Page {
    name: "brakes_required",
    title: "Whether a light trailer needs brakes",
    situation: "A light trailer may go without brakes of its own, but not behind a truck that it \
                outweighs too far: what it weighs is set against what the truck's axles carry.",
    formula: "brakes are asked for when the trailer weighs more than 3,000 lb, or when its axles \
              together (full trailer), or its weight on the truck (semitrailer), come to more \
              than 40 % of the truck's axles together",
    symbols: &[
        ("gross", "weight of the trailer, lb"),
        (
            "compared",
            "axles of a full trailer, or weight that a semitrailer puts on the truck, lb",
        ),
        ("truck axles", "what the truck's axles carry together, lb"),
    ],
    holds: "weights more than 0",
    assumes: "The rig is under this law at all: it binds commercial vehicles. States set their \
              own weights, from 1,000 to 10,000 lb.",
    never: "As leave to drop brakes that a trailer has: horses are a load that moves.",
    source: "49 CFR 393.42(b)(3) and (4) with its guidance, question 3",
};

/// A trailer and the truck before it.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LightTrailer {
    /// Weight of the trailer, lb.
    pub gross_lb: f64,
    /// Axles of a full trailer, or weight that a semitrailer puts on the truck, lb.
    pub compared_lb: f64,
    /// Axles of the truck together, lb.
    pub truck_axles_lb: f64,
}

/// What the law says of it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct BrakesAsked {
    /// Of the truck's axles together, %.
    pub compared_pct: f64,
    /// Whether brakes are asked for.
    pub required: bool,
}

/// Heaviest trailer that may go without, lb.
const LIGHT_LB: f64 = 3000.0;

/// Most it may put beside the truck's axles.
const SHARE_PCT: f64 = 40.0;

/// Whether the law asks for brakes on a trailer.
///
/// # Errors
/// [`NoNumber`] when a weight is not more than 0.
pub fn brakes_required(inputs: &LightTrailer) -> Result<BrakesAsked, NoNumber> {
    let mut ranges = Ranges::new();
    ranges
        .positive("gross_lb", inputs.gross_lb)
        .positive("compared_lb", inputs.compared_lb)
        .positive("truck_axles_lb", inputs.truck_axles_lb);
    ranges.checked()?;
    Ok(BrakesAsked {
        compared_pct: finite(
            "the share",
            100.0 * inputs.compared_lb / inputs.truck_axles_lb,
        )?,
        required: inputs.gross_lb > LIGHT_LB
            || 100.0 * inputs.compared_lb > SHARE_PCT * inputs.truck_axles_lb,
    })
}
