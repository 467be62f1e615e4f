//! # Lengths at which a lanyard works

use crate::mechanics::chains::chain_longest::Slack;
use crate::mechanics::chains::tight::Tight;
use crate::mechanics::chains::usual::{clearance, cord_margin, drop_limit, full_turn, pin_travel};
use crate::mechanics::chains::{Anchor, CordNeeds, InTurns, cord_needs, max_anchor_distance};
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure lanyard_window` tells of it.
pub const PAGE: Page = Page {
    name: "lanyard_window",
    title: "Lengths at which a lanyard works",
    situation: "The lanyard must hang loose in the sharpest turn, or it pulls the pin there. The \
                trade has two schools of when it must pull: before the chains are tight, so that \
                the brakes are on early, or only when the chains have let go as well.",
    formula: "before-chains: most in any turn + margin < length < least with chains tight - pin \
              travel. after-chains: the greater of most in any turn and most with chains tight, \
              + margin < length < longest that hangs off the road. Chains tight means with the \
              coupler dropped by anything from 0 to the limit",
    symbols: &[
        (
            "most in any turn",
            "from the lanyard's anchor to the switch, in",
        ),
        (
            "least, most with chains tight",
            "the same with the trailer back on its chains, in",
        ),
        ("margin", "what must hang loose in the sharpest turn, in"),
        (
            "pin travel",
            "what the lanyard must still draw to open the switch, in",
        ),
        ("limit", "the most the coupler drops, in"),
    ],
    holds: "chains that reach straight; turns up to 180 deg either way",
    assumes: "The trailer comes straight back. Where none is given: a margin of 3 in, a pin travel \
              of 1 in, a drop of up to 12 in and 3 in of clearance; common practice, no source.",
    never: "For a lanyard that runs round a part or through a chain link: its way is longer.",
    source: "plane geometry, any textbook; both schools are common practice, no source",
};

/// A lanyard, the chain that ends the trailer's way back, and the cord.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LanyardWindow {
    /// What the lanyard is clipped to on the truck.
    pub lanyard_truck_in: Anchor,
    /// The switch on the trailer.
    pub switch_in: Anchor,
    /// The truck's eye of the chain that is tight first.
    pub chain_truck_in: Anchor,
    /// Its eye on the trailer.
    pub chain_trailer_in: Anchor,
    /// Its length, in.
    pub chain_length_in: f64,
    /// The cord's socket on the truck.
    #[serde(default)]
    pub cord_truck_in: Option<Anchor>,
    /// Where the cord is held on the trailer.
    #[serde(default)]
    pub cord_trailer_in: Option<Anchor>,
    /// Sharpest turn to either side, deg.
    #[serde(default = "full_turn")]
    pub max_yaw_deg: f64,
    /// When the lanyard must pull.
    #[serde(default)]
    pub school: School,
    /// What must hang loose in the sharpest turn, of lanyard and cord, in.
    #[serde(default = "cord_margin")]
    pub margin_in: f64,
    /// What the lanyard must still draw to open the switch, in.
    #[serde(default = "pin_travel")]
    pub pin_travel_in: f64,
    /// The most the coupler drops, in.
    #[serde(default = "drop_limit")]
    pub drop_limit_in: f64,
    /// What the lanyard's loop must clear the road by, in.
    #[serde(default = "clearance")]
    pub clearance_in: f64,
}

/// When the lanyard must pull.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum School {
    /// Before the chains are tight.
    #[default]
    BeforeChains,
    /// Only when the chains have let go as well.
    AfterChains,
}

/// Between which lengths a lanyard works.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Window {
    /// Whether any length works.
    pub status: Valid,
    /// The lanyard must be longer than this, in.
    pub min_length_in: f64,
    /// It must be shorter than this, in; nothing when its ends are too low for any loop.
    pub max_length_in: Option<f64>,
    /// From the one to the other, in; below 0 when no length works.
    pub window_in: Option<f64>,
    /// The longest whose loop clears the road with the rig straight, in.
    pub off_road_in: Option<f64>,
    /// How far the trailer comes away level before the chain is tight, in.
    pub chain_taut_travel_in: f64,
    /// Least length of the cord, where its ends are given, in.
    pub cord_min_length_in: Option<f64>,
}

/// Whether any length of lanyard works.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Valid {
    /// Between the two lengths it works.
    Ok,
    /// No length does: the anchor, the switch or the chains must change.
    NoValidLength,
}

/// Between which lengths a lanyard holds in every turn and still pulls when it must.
///
/// # Errors
/// [`NoNumber`] for a number out of range, for half a cord, and for a chain that does not reach.
pub fn lanyard_window(inputs: &LanyardWindow) -> Result<Window, NoNumber> {
    look(inputs)?;
    let tight = Tight::of(
        inputs.chain_truck_in,
        inputs.chain_trailer_in,
        inputs.chain_length_in,
    )?;
    let turn = max_anchor_distance(&InTurns {
        truck_anchor_in: inputs.lanyard_truck_in,
        trailer_anchor_in: inputs.switch_in,
        max_yaw_deg: inputs.max_yaw_deg,
        pitch_deg: 0.0,
        ball_height_in: None,
    })?
    .max_in;
    let (least, most) = tight.distances(
        inputs.lanyard_truck_in,
        inputs.switch_in,
        inputs.drop_limit_in,
    );
    let off_road = Slack::between(inputs.lanyard_truck_in, inputs.switch_in)
        .longest_above(inputs.clearance_in);
    let (low, high) = match inputs.school {
        School::BeforeChains => (turn, Some(least - inputs.pin_travel_in)),
        School::AfterChains => (turn.max(most), off_road),
    };
    let low = finite("the least length", low + inputs.margin_in)?;
    let window = high.map(|high| high - low);
    Ok(Window {
        status: match window {
            Some(window) if window > 0.0 => Valid::Ok,
            _ => Valid::NoValidLength,
        },
        min_length_in: low,
        max_length_in: high.map(|high| finite("the longest", high)).transpose()?,
        window_in: window
            .map(|window| finite("the window", window))
            .transpose()?,
        off_road_in: off_road,
        chain_taut_travel_in: finite("the chain's travel", tight.travel())?,
        cord_min_length_in: cord(inputs)?,
    })
}

fn look(inputs: &LanyardWindow) -> Result<(), NoNumber> {
    let mut ranges = Ranges::new();
    for (what, anchor) in [
        ("lanyard_truck_in", Some(inputs.lanyard_truck_in)),
        ("switch_in", Some(inputs.switch_in)),
        ("chain_truck_in", Some(inputs.chain_truck_in)),
        ("chain_trailer_in", Some(inputs.chain_trailer_in)),
        ("cord_truck_in", inputs.cord_truck_in),
        ("cord_trailer_in", inputs.cord_trailer_in),
    ] {
        if let Some(anchor) = anchor {
            anchor.look(what, &mut ranges);
        }
    }
    ranges
        .positive("chain_length_in", inputs.chain_length_in)
        .within("max_yaw_deg", inputs.max_yaw_deg, 0.0, 180.0)
        .not_negative("margin_in", inputs.margin_in)
        .not_negative("pin_travel_in", inputs.pin_travel_in)
        .not_negative("drop_limit_in", inputs.drop_limit_in)
        .not_negative("clearance_in", inputs.clearance_in)
        .checked()?;
    if inputs.cord_truck_in.is_some() == inputs.cord_trailer_in.is_some() {
        return Ok(());
    }
    Err(NoNumber::because(
        "a cord has two ends: give cord_truck_in and cord_trailer_in, or neither",
    ))
}

fn cord(inputs: &LanyardWindow) -> Result<Option<f64>, NoNumber> {
    let (Some(truck), Some(trailer)) = (inputs.cord_truck_in, inputs.cord_trailer_in) else {
        return Ok(None);
    };
    let cord = cord_needs(&CordNeeds {
        cord_truck_in: truck,
        cord_trailer_in: trailer,
        chain_truck_in: Some(inputs.chain_truck_in),
        chain_trailer_in: Some(inputs.chain_trailer_in),
        chain_length_in: Some(inputs.chain_length_in),
        max_yaw_deg: inputs.max_yaw_deg,
        margin_in: inputs.margin_in,
        drop_limit_in: inputs.drop_limit_in,
    })?;
    Ok(Some(cord.min_length_in))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(more: &str) -> LanyardWindow {
        let text = format!(
            r#"{{"lanyard_truck_in": [-3, 5, 14], "switch_in": [9, 4, 21],
            "chain_truck_in": [-6, -8, 13], "chain_trailer_in": [14, 5, 15]{more}}}"#
        );
        serde_json::from_str(&text).unwrap()
    }

    #[test]
    fn short_chains_and_a_full_jackknife_leave_no_length() {
        let found = lanyard_window(&of(r#", "chain_length_in": 26"#)).unwrap();
        assert_eq!(found.status, Valid::NoValidLength);
        assert!(found.window_in.unwrap() < 0.0);
    }

    #[test]
    fn after_the_chains_means_longer_than_they_let_the_trailer_go_and_off_the_road() {
        let before = lanyard_window(&of(r#", "chain_length_in": 34"#)).unwrap();
        let after = of(r#", "chain_length_in": 34, "school": "after-chains""#);
        let found = lanyard_window(&after).unwrap();
        assert!(found.min_length_in > before.max_length_in.unwrap());
        assert_eq!(found.max_length_in, found.off_road_in);
        let low = LanyardWindow {
            clearance_in: 15.0,
            ..after
        };
        let none = lanyard_window(&low).unwrap();
        assert_eq!(
            (none.status, none.max_length_in),
            (Valid::NoValidLength, None)
        );
    }

    #[test]
    fn half_a_cord_and_a_chain_that_does_not_reach_are_refused() {
        let half = of(r#", "chain_length_in": 34, "cord_truck_in": [-5, 12, 18]"#);
        assert!(
            lanyard_window(&half)
                .unwrap_err()
                .to_string()
                .contains("two ends")
        );
        let short = of(r#", "chain_length_in": 20"#);
        assert!(
            lanyard_window(&short)
                .unwrap_err()
                .to_string()
                .contains("does not reach")
        );
    }
}
