//! # Length a cord needs

use crate::mechanics::chains::tight::Tight;
use crate::mechanics::chains::usual::{cord_margin, drop_limit, full_turn};
use crate::mechanics::chains::{Anchor, InTurns, max_anchor_distance};
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure cord_needs` tells of it.
pub const PAGE: Page = Page {
    name: "cord_needs",
    title: "Length a cord needs",
    situation: "The cord must reach in the sharpest turn, and still when the coupler has left the \
                ball and the trailer hangs on its chains: as long as the cord holds, the driver \
                has lamps and brakes there.",
    formula: "needed = the greater of the most in any turn and the most with chains tight, the \
              coupler dropped by 0 to the limit, + margin",
    symbols: &[
        ("most in any turn", "distance of the cord's two ends, in"),
        (
            "most with chains tight",
            "the same with the trailer back on its chains, in",
        ),
        ("margin", "what must hang loose even then, in"),
    ],
    holds: "chains that reach straight; turns up to 180 deg either way",
    assumes: "A margin of 3 in and a drop of up to 12 in where none is given: common practice, no \
              source. Without chains only the turn is told.",
    never: "For a cord that runs through loops: add what the loops take.",
    source: "plane geometry, any textbook; margin common practice, no source",
};

/// A cord, and the chain that ends the trailer's way back.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CordNeeds {
    /// Its socket on the truck.
    pub cord_truck_in: Anchor,
    /// Where it is held on the trailer.
    pub cord_trailer_in: Anchor,
    /// The truck's eye of the chain that is tight first.
    #[serde(default)]
    pub chain_truck_in: Option<Anchor>,
    /// Its eye on the trailer.
    #[serde(default)]
    pub chain_trailer_in: Option<Anchor>,
    /// Its length, in.
    #[serde(default)]
    pub chain_length_in: Option<f64>,
    /// Sharpest turn to either side, deg.
    #[serde(default = "full_turn")]
    pub max_yaw_deg: f64,
    /// What must hang loose even then, in.
    #[serde(default = "cord_margin")]
    pub margin_in: f64,
    /// The most the coupler drops, in.
    #[serde(default = "drop_limit")]
    pub drop_limit_in: f64,
}

/// What a cord needs.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct NeededCord {
    /// With the rig straight, in.
    pub straight_in: f64,
    /// The most in any turn, in.
    pub turn_max_in: f64,
    /// The most with the trailer back on its chains, in.
    pub chains_taut_max_in: Option<f64>,
    /// Least length, in.
    pub min_length_in: f64,
}

/// The least length of a cord.
///
/// # Errors
/// [`NoNumber`] for a number out of range, and for a chain that does not reach.
pub fn cord_needs(inputs: &CordNeeds) -> Result<NeededCord, NoNumber> {
    let mut ranges = Ranges::new();
    ranges
        .not_negative("margin_in", inputs.margin_in)
        .not_negative("drop_limit_in", inputs.drop_limit_in);
    for (what, anchor) in [
        ("chain_truck_in", inputs.chain_truck_in),
        ("chain_trailer_in", inputs.chain_trailer_in),
    ] {
        if let Some(anchor) = anchor {
            anchor.look(what, &mut ranges);
        }
    }
    if let Some(length) = inputs.chain_length_in {
        ranges.positive("chain_length_in", length);
    }
    ranges.checked()?;
    let turn = max_anchor_distance(&InTurns {
        truck_anchor_in: inputs.cord_truck_in,
        trailer_anchor_in: inputs.cord_trailer_in,
        max_yaw_deg: inputs.max_yaw_deg,
        pitch_deg: 0.0,
        ball_height_in: None,
    })?;
    let ends = (inputs.cord_truck_in, inputs.cord_trailer_in);
    let taut = chain(inputs)?.map(|tight| tight.distances(ends.0, ends.1, inputs.drop_limit_in).1);
    let most = taut.map_or(turn.max_in, |taut| taut.max(turn.max_in));
    Ok(NeededCord {
        straight_in: turn.straight_in,
        turn_max_in: turn.max_in,
        chains_taut_max_in: taut,
        min_length_in: finite("the cord's length", most + inputs.margin_in)?,
    })
}

/// The chain, where one is given.
fn chain(inputs: &CordNeeds) -> Result<Option<Tight>, NoNumber> {
    match (
        inputs.chain_truck_in,
        inputs.chain_trailer_in,
        inputs.chain_length_in,
    ) {
        (Some(truck), Some(trailer), Some(length)) => Tight::of(truck, trailer, length).map(Some),
        (None, None, None) => Ok(None),
        _ => Err(NoNumber::because(
            "a chain has two eyes and a length: give chain_truck_in, chain_trailer_in and \
             chain_length_in, or none of them",
        )),
    }
}
