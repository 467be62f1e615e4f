//! # How low the coupler drops at a gap

use crate::mechanics::chains::cradle::look_at_coupler;
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure coupler_drop` tells of it.
pub const PAGE: Page = Page {
    name: "coupler_drop",
    title: "How low the coupler drops at a gap",
    situation: "The coupler has left the ball and the trailer stands so far behind the truck. The \
                tongue drops until the chains are tight, and hangs there, if the road does not \
                stop it first.",
    formula: "coupler bottom = zA - sqrt(L² - dy² - gap²) - c",
    symbols: &[
        ("zA", "height of the truck's eyes, in"),
        ("L", "length of each chain, in"),
        ("dy", "across from eye to eye, in"),
        (
            "gap",
            "along the rig from the truck's eyes to the trailer's, in",
        ),
        ("c", "underside of the coupler below the trailer's eyes, in"),
    ],
    holds: "chains that reach over the gap; truck's eyes higher than c",
    assumes: "Both chains pull alike. The jack does not reach the road first.",
    never: "As a promise that the coupler stays up: the gap changes as the trailer rolls.",
    source: "geometry of a triangle, any textbook",
};

/// A chain, and how far apart truck and trailer are.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Drop {
    /// Height of the truck's eyes, in.
    pub truck_anchor_z_in: f64,
    /// Height of the trailer's eyes, coupled, in.
    pub trailer_anchor_z_in: f64,
    /// Across from eye to eye, in.
    pub lateral_offset_in: f64,
    /// Length of each chain, in.
    pub chain_length_in: f64,
    /// Along the rig from the truck's eyes to the trailer's, in.
    pub x_gap_in: f64,
    /// Underside of the coupler below the trailer's eyes, in.
    pub coupler_bottom_below_anchor_in: f64,
}

/// Where a dropped coupler hangs.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct DroppedCoupler {
    /// Whether the chains hold it off the road.
    pub status: Held,
    /// Height of the trailer's eyes, in; what would be under the road is told as it is.
    pub anchor_height_in: Option<f64>,
    /// Height of the coupler's underside, in; what would be under the road is below 0.
    pub coupler_bottom_in: Option<f64>,
}

/// Whether chains hold a dropped coupler off the road.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Held {
    /// Tight chains hold it off the road.
    Clear,
    /// It reaches the road before the chains are tight.
    OnTheRoad,
    /// The gap is wider than the chains let it become.
    BeyondReach,
}

/// How low the coupler drops when truck and trailer are this far apart.
///
/// # Errors
/// [`NoNumber`] for a number out of range.
pub fn coupler_drop(inputs: &Drop) -> Result<DroppedCoupler, NoNumber> {
    let high = inputs.truck_anchor_z_in;
    let below = inputs.coupler_bottom_below_anchor_in;
    let mut ranges = Ranges::new();
    ranges
        .finite("truck_anchor_z_in", high)
        .finite("trailer_anchor_z_in", inputs.trailer_anchor_z_in)
        .finite("lateral_offset_in", inputs.lateral_offset_in)
        .positive("chain_length_in", inputs.chain_length_in)
        .finite("x_gap_in", inputs.x_gap_in);
    look_at_coupler(high, below, &mut ranges);
    ranges.checked()?;
    let square = |length: f64| length * length;
    let hangs2 = finite(
        "the drop",
        square(inputs.chain_length_in) - square(inputs.lateral_offset_in) - square(inputs.x_gap_in),
    )?;
    let anchor = high - hangs2.max(0.0).sqrt();
    // Chains that would be tight before the tongue drops at all never let the gap become so wide.
    if hangs2 < 0.0 || anchor > inputs.trailer_anchor_z_in {
        return Ok(DroppedCoupler {
            status: Held::BeyondReach,
            anchor_height_in: None,
            coupler_bottom_in: None,
        });
    }
    let bottom = anchor - below;
    Ok(DroppedCoupler {
        status: if bottom < 0.0 {
            Held::OnTheRoad
        } else {
            Held::Clear
        },
        anchor_height_in: Some(anchor),
        coupler_bottom_in: Some(bottom),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(x_gap_in: f64) -> DroppedCoupler {
        coupler_drop(&Drop {
            truck_anchor_z_in: 13.0,
            trailer_anchor_z_in: 15.0,
            lateral_offset_in: 13.0,
            chain_length_in: 27.0,
            x_gap_in,
            coupler_bottom_below_anchor_in: 3.0,
        })
        .unwrap()
    }

    #[test]
    fn the_farther_back_the_trailer_the_higher_the_coupler_until_the_chains_end() {
        assert_eq!(at(20.0).status, Held::OnTheRoad);
        assert!(at(23.0).coupler_bottom_in.unwrap() > at(22.0).coupler_bottom_in.unwrap());
        assert_eq!(at(24.0).status, Held::BeyondReach);
        assert_eq!(at(24.0).coupler_bottom_in, None);
    }
}
