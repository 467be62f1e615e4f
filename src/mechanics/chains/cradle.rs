//! # What crossed chains do for a dropped coupler

use crate::mechanics::chains::EyePair;
use crate::mechanics::chains::tight::Tight;
use crate::mechanics::chains::usual::crossed;
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure cradle` tells of it.
pub const PAGE: Page = Page {
    name: "cradle",
    title: "What crossed chains do for a dropped coupler",
    situation: "When the coupler leaves the ball it drops, and the trailer drags back until the \
                chains are tight. The farther back it drags, the higher the tight chains hold the \
                coupler off the road.",
    formula: "tight: X = xA - xB + sqrt(L² - dy² - dz²); dy = a + b crossed, |a - b| side by side; \
              clear when the gap is at least sqrt(L² - dy² - (zA - c)²); lowest: \
              zA - sqrt(L² - dy²) - c, straight under the truck's eyes",
    symbols: &[
        ("L", "length of each chain, in"),
        (
            "xA, a, zA",
            "the truck's eyes: rearward, from the middle, up, in",
        ),
        ("xB, b", "the trailer's eyes, in"),
        ("dy, dz", "across and up from eye to eye, in"),
        ("c", "underside of the coupler below the trailer's eyes, in"),
        ("X", "how far the trailer drags back, in"),
    ],
    holds: "chains that reach straight; truck's eyes higher than c",
    assumes: "Both chains pull alike and the trailer comes straight back. The eyes hold, and the \
              jack does not reach the road first.",
    never: "As a promise that the coupler stays up: chains cradle it only while the trailer drags \
            back.",
    source: "geometry of a triangle, any textbook; must keep the coupler from the ground: \
             49 CFR 393.70(d), from memory",
};

/// Two mirrored chains and the coupler they are to hold.
// A flattened struct and `deny_unknown_fields` go together as long as the inner one denies nothing.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cradle {
    /// The eyes.
    #[serde(flatten)]
    pub eyes: EyePair,
    /// Length of each chain, in.
    pub chain_length_in: f64,
    /// Underside of the coupler below the trailer's eyes, in.
    pub coupler_bottom_below_anchor_in: f64,
    /// Whether the chains cross under the coupler.
    #[serde(default = "crossed")]
    pub crossed: bool,
}

/// What two chains do for a dropped coupler.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct HeldCoupler {
    /// From the truck's eyes to the trailer's, seen from the side, coupled, in.
    pub gap_coupled_in: f64,
    /// How far the trailer comes away level before the chains are tight, in.
    pub travel_to_taut_level_in: f64,
    /// How far the trailer must drag back before tight chains hold the coupler off the road, in;
    /// 0 when they do so where it dropped.
    pub travel_needed_to_clear_in: f64,
    /// Height of the coupler's underside when it drops straight down from the ball, in; what would
    /// be under the road is below 0.
    pub coupler_bottom_where_it_drops_in: f64,
    /// Height of the coupler's underside hung straight under the truck's eyes, in; what would be
    /// under the road is below 0.
    pub coupler_bottom_worst_in: f64,
    /// Whether the coupler stays off the road wherever the trailer goes.
    pub never_touches: bool,
    /// Whether it is off the road once the trailer has dragged back to the end of the chains.
    pub clear_when_dragging: bool,
    /// Where crossed chains cross, rearward from the ball, in.
    pub crossing_x_in: Option<f64>,
}

/// What two mirrored chains do for a coupler that has left the ball.
///
/// # Errors
/// [`NoNumber`] for a number out of range, and for chains that do not reach.
pub fn cradle(inputs: &Cradle) -> Result<HeldCoupler, NoNumber> {
    let eyes = &inputs.eyes;
    let below = inputs.coupler_bottom_below_anchor_in;
    let mut ranges = Ranges::new();
    eyes.look(&mut ranges);
    ranges.positive("chain_length_in", inputs.chain_length_in);
    look_at_coupler(eyes.truck_z_in, below, &mut ranges);
    ranges.checked()?;
    let (truck, trailer) = eyes.left(inputs.crossed);
    let travel = Tight::of(truck, trailer, inputs.chain_length_in)?.travel();
    let across = trailer.y_in - truck.y_in;
    let reach2 = inputs.chain_length_in * inputs.chain_length_in - across * across;
    let gap = trailer.x_in - truck.x_in;
    let high = eyes.truck_z_in - below;
    let clears = (reach2 - high * high).max(0.0).sqrt();
    let dropped = high - (reach2 - gap * gap).max(0.0).sqrt();
    let worst = finite("the coupler's height", high - reach2.sqrt())?;
    Ok(HeldCoupler {
        gap_coupled_in: gap,
        travel_to_taut_level_in: finite("the travel", travel)?,
        travel_needed_to_clear_in: (clears - gap).max(0.0),
        coupler_bottom_where_it_drops_in: finite("the coupler's height", dropped)?,
        coupler_bottom_worst_in: worst,
        never_touches: worst >= 0.0,
        clear_when_dragging: gap + travel >= clears,
        crossing_x_in: crossing(inputs),
    })
}

/// The coupler's underside, below eyes that must not be lower than that themselves.
pub(super) fn look_at_coupler(truck_z_in: f64, below: f64, ranges: &mut Ranges) {
    ranges.holds(
        below.is_finite() && below < truck_z_in,
        "coupler_bottom_below_anchor_in",
        below,
        "less than the height of the truck's eyes",
    );
}

fn crossing(inputs: &Cradle) -> Option<f64> {
    let eyes = &inputs.eyes;
    let (truck, trailer) = (eyes.truck_half_width_in, eyes.trailer_half_width_in);
    let wide = truck + trailer;
    let share = (inputs.crossed && wide > 0.0).then(|| truck / wide)?;
    Some(eyes.truck_x_in + share * (eyes.trailer_x_in - eyes.truck_x_in))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(chain_length_in: f64, crossed: bool) -> Cradle {
        Cradle {
            eyes: EyePair {
                truck_x_in: -6.0,
                truck_half_width_in: 8.0,
                truck_z_in: 13.0,
                trailer_x_in: 14.0,
                trailer_half_width_in: 5.0,
                trailer_z_in: 15.0,
            },
            chain_length_in,
            coupler_bottom_below_anchor_in: 3.0,
            crossed,
        }
    }

    #[test]
    fn chains_side_by_side_let_the_coupler_lower_than_crossed_ones_and_cross_nowhere() {
        let (crossed, beside) = (
            cradle(&of(27.0, true)).unwrap(),
            cradle(&of(27.0, false)).unwrap(),
        );
        assert!(beside.coupler_bottom_worst_in < crossed.coupler_bottom_worst_in);
        assert!(beside.travel_needed_to_clear_in > crossed.travel_needed_to_clear_in);
        assert_eq!(beside.crossing_x_in, None);
    }

    #[test]
    fn a_short_chain_holds_the_coupler_up_where_it_drops() {
        let short = cradle(&of(25.0, true)).unwrap();
        assert!(short.travel_needed_to_clear_in.abs() < 1e-12 && short.clear_when_dragging);
    }

    #[test]
    fn a_chain_that_does_not_reach_is_told_as_such() {
        let refused = cradle(&of(23.0, true)).unwrap_err().to_string();
        assert!(refused.contains("does not reach"), "{refused}");
    }
}
