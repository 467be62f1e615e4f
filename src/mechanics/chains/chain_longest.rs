//! # Longest chain that keeps off the road

use crate::mechanics::chains::cradle::look_at_coupler;
use crate::mechanics::chains::usual::{clearance, crossed};
use crate::mechanics::chains::{Anchor, EyePair};
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure chain_longest` tells of it.
pub const PAGE: Page = Page {
    name: "chain_longest",
    title: "Longest chain that keeps off the road",
    situation: "A slack chain that drags wears thin, and a long one lets a dropped coupler down to \
                the road. Each of the two sets a longest length.",
    formula: "off the road: L = sqrt(c² + (z1 + z2 - 2 h)²); holds the coupler up where it drops: \
              L = sqrt(gap² + dy² + (zA - b)²); holds it up anywhere: L = sqrt(dy² + (zA - b)²)",
    symbols: &[
        ("c", "distance of the eyes seen from above, in"),
        ("z1, z2", "heights of the eyes, in"),
        ("h", "clearance asked for, in"),
        ("gap, dy", "along and across from eye to eye, in"),
        ("zA", "height of the truck's eyes, in"),
        ("b", "underside of the coupler below the trailer's eyes, in"),
    ],
    holds: "eyes higher than the clearance asked for",
    assumes: "A chain may be pulled down into a V, by a bounce or a branch. A clearance of 3 in \
              where none is given: common practice, no source.",
    never: "Without the length that turns need beside it.",
    source: "geometry: the V is the bottom of the ellipse with the eyes as foci",
};

/// Two mirrored chains and what they must clear.
// A flattened struct and `deny_unknown_fields` go together as long as the inner one denies nothing.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChainLongest {
    /// The eyes.
    #[serde(flatten)]
    pub eyes: EyePair,
    /// What a slack chain must clear the road by, in.
    #[serde(default = "clearance")]
    pub clearance_in: f64,
    /// Underside of the coupler below the trailer's eyes, in.
    #[serde(default)]
    pub coupler_bottom_below_anchor_in: Option<f64>,
    /// Whether the chains cross under the coupler.
    #[serde(default = "crossed")]
    pub crossed: bool,
}

/// How long a chain may be.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LongestChain {
    /// The longest that keeps off the road slack, in.
    pub off_road_in: f64,
    /// The longest that holds the coupler off the road where it drops, in.
    pub holds_where_it_drops_in: Option<f64>,
    /// The longest that holds it off the road wherever the trailer goes, in.
    pub holds_anywhere_in: Option<f64>,
}

/// Something slack between two points.
#[derive(Clone, Copy, Debug)]
pub(super) struct Slack {
    one: Anchor,
    other: Anchor,
}

impl Slack {
    pub(super) fn between(one: Anchor, other: Anchor) -> Self {
        Self { one, other }
    }

    /// The longest of which no shape comes lower than this; nothing when an end does itself.
    pub(super) fn longest_above(&self, clearance: f64) -> Option<f64> {
        let (one, other) = (self.one, self.other);
        if one.z_in < clearance || other.z_in < clearance {
            return None;
        }
        let along = other.x_in - one.x_in;
        let across = other.y_in - one.y_in;
        let both = one.z_in + other.z_in - 2.0 * clearance;
        let longest = (along * along + across * across + both * both).sqrt();
        longest.is_finite().then_some(longest)
    }
}

/// The longest a chain may be.
///
/// # Errors
/// [`NoNumber`] for a number out of range, and for eyes lower than the clearance asked for.
pub fn chain_longest(inputs: &ChainLongest) -> Result<LongestChain, NoNumber> {
    let mut ranges = Ranges::new();
    inputs.eyes.look(&mut ranges);
    ranges.not_negative("clearance_in", inputs.clearance_in);
    if let Some(below) = inputs.coupler_bottom_below_anchor_in {
        look_at_coupler(inputs.eyes.truck_z_in, below, &mut ranges);
    }
    ranges.checked()?;
    let (truck, trailer) = inputs.eyes.left(inputs.crossed);
    let off_road = Slack::between(truck, trailer)
        .longest_above(inputs.clearance_in)
        .ok_or_else(|| {
            NoNumber::because(format!(
                "an eye is lower than the {} in asked for; no chain keeps off the road there",
                inputs.clearance_in
            ))
        })?;
    let along = trailer.x_in - truck.x_in;
    let across = trailer.y_in - truck.y_in;
    let held = |gap: f64| {
        inputs
            .coupler_bottom_below_anchor_in
            .map(|below| {
                let high = truck.z_in - below;
                let longest = (gap * gap + across * across + high * high).sqrt();
                finite("the chain's length", longest)
            })
            .transpose()
    };
    Ok(LongestChain {
        off_road_in: off_road,
        holds_where_it_drops_in: held(along)?,
        holds_anywhere_in: held(0.0)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::chains::{ChainSag, Cradle, chain_sag, cradle};

    const EYES: EyePair = EyePair {
        truck_x_in: -6.0,
        truck_half_width_in: 8.0,
        truck_z_in: 13.0,
        trailer_x_in: 14.0,
        trailer_half_width_in: 5.0,
        trailer_z_in: 15.0,
    };

    #[test]
    fn at_the_longest_the_other_formulas_find_the_clearance_and_the_coupler_at_the_road() {
        let found = chain_longest(&ChainLongest {
            eyes: EYES,
            clearance_in: 3.0,
            coupler_bottom_below_anchor_in: Some(3.0),
            crossed: true,
        })
        .unwrap();
        let hung = chain_sag(&ChainSag {
            span_x_in: 20.0,
            span_y_in: 13.0,
            z1_in: 13.0,
            z2_in: 15.0,
            length_in: found.off_road_in,
        })
        .unwrap();
        assert!((hung.low_point_v_in.unwrap() - 3.0).abs() < 1e-9);
        let needed = |chain_length_in| {
            cradle(&Cradle {
                eyes: EYES,
                chain_length_in,
                coupler_bottom_below_anchor_in: 3.0,
                crossed: true,
            })
            .unwrap()
            .travel_needed_to_clear_in
        };
        let longest = found.holds_where_it_drops_in.unwrap();
        assert!(needed(longest) < 1e-6 && needed(longest + 0.1) > 0.01);
    }

    #[test]
    fn eyes_below_the_clearance_have_no_longest_chain() {
        let low = ChainLongest {
            eyes: EyePair {
                truck_z_in: 2.0,
                ..EYES
            },
            clearance_in: 3.0,
            coupler_bottom_below_anchor_in: None,
            crossed: true,
        };
        assert!(chain_longest(&low).is_err());
    }
}
