//! # Length a chain needs to turn

use crate::mechanics::chains::usual::{chain_margin, crossed, full_turn};
use crate::mechanics::chains::{EyePair, InTurns, max_anchor_distance};
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure chain_needs` tells of it.
pub const PAGE: Page = Page {
    name: "chain_needs",
    title: "Length a chain needs to turn",
    situation: "Two chains mirror each other, crossed under the coupler or side by side. Each must \
                reach from eye to eye in the sharpest turn, with a little to spare.",
    formula: "needed = most distance of its eyes in any turn + margin",
    symbols: &[
        (
            "most distance",
            "as of two anchors in any turn, crossed with y on the far side, in",
        ),
        ("margin", "what must hang loose even then, in"),
    ],
    holds: "eyes in mirrored pairs; turns up to 180 deg either way; margin 0 in or more",
    assumes: "A margin of 2 in where none is given: common practice, no source. In a dip the \
              trailer pitches about the ball.",
    never: "For judging strength, or for chains that hook to one eye.",
    source: "plane geometry, any textbook: law of cosines; slack no more than turning needs: \
             49 CFR 393.70(d), from memory, and WAC 204-70-070",
};

/// Two mirrored chains and how far the rig turns.
// A flattened struct and `deny_unknown_fields` go together as long as the inner one denies nothing.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChainNeeds {
    /// The eyes.
    #[serde(flatten)]
    pub eyes: EyePair,
    /// Whether the chains cross under the coupler.
    #[serde(default = "crossed")]
    pub crossed: bool,
    /// Sharpest turn to either side, deg.
    #[serde(default = "full_turn")]
    pub max_yaw_deg: f64,
    /// What must hang loose in the sharpest turn, in.
    #[serde(default = "chain_margin")]
    pub margin_in: f64,
    /// Pitch of the trailer against the truck, nose up, deg.
    #[serde(default)]
    pub pitch_deg: f64,
    /// Height of the ball's centre, which the trailer pitches about, in.
    #[serde(default)]
    pub ball_height_in: Option<f64>,
}

/// What one of two mirrored chains needs.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct NeededChain {
    /// From eye to eye with the rig straight, in.
    pub straight_in: f64,
    /// The most in any turn, in.
    pub max_in: f64,
    /// The turn at which that is, of the chain on the truck's left eye, deg.
    pub yaw_at_max_deg: f64,
    /// What the turn asks beyond the straight rig, in.
    pub extra_for_turn_in: f64,
    /// The most in any turn and the margin, in.
    pub needed_in: f64,
}

/// The length each of two mirrored chains needs.
///
/// # Errors
/// [`NoNumber`] for a number out of range.
pub fn chain_needs(inputs: &ChainNeeds) -> Result<NeededChain, NoNumber> {
    let mut ranges = Ranges::new();
    inputs.eyes.look(&mut ranges);
    ranges.not_negative("margin_in", inputs.margin_in);
    ranges.checked()?;
    let (truck, trailer) = inputs.eyes.left(inputs.crossed);
    let farthest = max_anchor_distance(&InTurns {
        truck_anchor_in: truck,
        trailer_anchor_in: trailer,
        max_yaw_deg: inputs.max_yaw_deg,
        pitch_deg: inputs.pitch_deg,
        ball_height_in: inputs.ball_height_in,
    })?;
    Ok(NeededChain {
        straight_in: farthest.straight_in,
        max_in: farthest.max_in,
        yaw_at_max_deg: farthest.yaw_at_max_deg,
        extra_for_turn_in: farthest.extra_for_turn_in,
        needed_in: finite("the length", farthest.max_in + inputs.margin_in)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const TEXT: &str = r#"{"truck_x_in": -6, "truck_half_width_in": 8, "truck_z_in": 13,
        "trailer_x_in": 14, "trailer_half_width_in": 5, "trailer_z_in": 15"#;

    #[test]
    fn what_is_not_asked_for_is_refused_and_crossed_is_the_rule() {
        let plain: ChainNeeds = serde_json::from_str(&format!("{TEXT}}}")).unwrap();
        assert!(plain.crossed);
        let odd = serde_json::from_str::<ChainNeeds>(&format!(r#"{TEXT}, "crosed": false}}"#));
        assert!(odd.unwrap_err().to_string().contains("crosed"));
    }

    proptest! {
        /// Both are bound by the same most; only how much of it is slack when straight differs.
        #[test]
        fn crossed_chains_hang_less_slack_when_straight(
            ahead in 0.0..20.0_f64, behind in 4.0..30.0, truck in 0.0..15.0, trailer in 0.0..15.0,
            up in 8.0..25.0,
        ) {
            let needs = |crossed| chain_needs(&ChainNeeds {
                eyes: EyePair {
                    truck_x_in: -ahead,
                    truck_half_width_in: truck,
                    truck_z_in: 14.0,
                    trailer_x_in: behind,
                    trailer_half_width_in: trailer,
                    trailer_z_in: up,
                },
                crossed,
                max_yaw_deg: 90.0,
                margin_in: 2.0,
                pitch_deg: 0.0,
                ball_height_in: None,
            }).unwrap();
            let (crossed, beside) = (needs(true), needs(false));
            prop_assert!(crossed.straight_in >= beside.straight_in - 1e-9);
            prop_assert!(crossed.extra_for_turn_in <= beside.extra_for_turn_in + 1e-9);
            for found in [crossed, beside] {
                prop_assert!(found.max_in >= found.straight_in && found.needed_in > found.max_in);
            }
        }
    }
}
