//! # Heaviest trailer on surge brakes

use crate::mechanics::{NoNumber, Page, Ranges};
use serde::{Deserialize, Serialize};

/// What `hames figure surge_ratio` tells of it.
pub const PAGE: Page = Page {
    name: "surge_ratio",
    title: "Heaviest trailer on surge brakes",
    situation: "Surge brakes come on when the trailer pushes at the truck, so the truck must be \
                heavy enough to be pushed at. A trailer may be rated so many times the truck.",
    formula: "rating of the trailer at most 1.75 times the truck's up to 12,000 lb; 1.25 times \
              the truck's over 12,000 and under 20,001 lb",
    symbols: &[
        (
            "trailer, truck",
            "ratings (GVWR), lb; the trailer's actual weight may stand in its place",
        ),
        (
            "most",
            "heaviest trailer behind this truck, in the class of the one given, lb",
        ),
        ("least", "lightest truck before this trailer, lb"),
    ],
    holds: "ratings more than 0, a trailer under 20,001 lb",
    assumes: "The rig is under this law at all: it binds commercial vehicles.",
    never: "Across 12,000 lb by rule of thumb: one pound more takes the most down by two sevenths.",
    source: "49 CFR 393.48(d)(1)(i) and (ii)",
};

/// A truck and a trailer on surge brakes.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SurgeRig {
    /// Rating of the truck, lb.
    pub truck_gvwr_lb: f64,
    /// Rating of the trailer, or its weight, lb.
    pub trailer_lb: f64,
}

/// What the law says of it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SurgeAllowed {
    /// Times the truck's rating.
    pub ratio: f64,
    /// Heaviest trailer behind this truck in the class of the one given, lb.
    pub most_trailer_lb: f64,
    /// Lightest truck before this trailer, lb.
    pub least_truck_lb: f64,
    /// Whether surge brakes do for this rig.
    pub allowed: bool,
}

/// Lightest trailer, lb, that the lower ratio binds, is the first over this.
const CLIFF_LB: f64 = 12_000.0;

/// Heaviest trailer that may have surge brakes, lb, is lighter than this.
const TOO_HEAVY_LB: f64 = 20_001.0;

/// Whether surge brakes do for a trailer behind a truck.
///
/// # Errors
/// [`NoNumber`] when a rating is out of range.
pub fn surge_ratio(inputs: &SurgeRig) -> Result<SurgeAllowed, NoNumber> {
    let SurgeRig {
        truck_gvwr_lb: truck,
        trailer_lb: trailer,
    } = *inputs;
    let mut ranges = Ranges::new();
    ranges.positive("truck_gvwr_lb", truck).holds(
        trailer > 0.0 && trailer < TOO_HEAVY_LB,
        "trailer_lb",
        trailer,
        "more than 0 and less than 20001; a heavier trailer may not have surge brakes",
    );
    ranges.checked()?;
    let (ratio, heaviest) = if trailer <= CLIFF_LB {
        (1.75, CLIFF_LB)
    } else {
        (1.25, TOO_HEAVY_LB)
    };
    Ok(SurgeAllowed {
        ratio,
        most_trailer_lb: (ratio * truck).min(heaviest),
        least_truck_lb: trailer / ratio,
        allowed: trailer <= ratio * truck,
    })
}
