//! # Distance of two anchors in any turn

use crate::mechanics::chains::Anchor;
use crate::mechanics::chains::anchor::{ASSUMES, HOLDS, Pitch, SYMBOLS};
use crate::mechanics::chains::usual::full_turn;
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure max_anchor_distance` tells of it.
pub const PAGE: Page = Page {
    name: "max_anchor_distance",
    title: "Distance of two anchors in any turn",
    situation: "In a turn the trailer swings about the ball, and a point of it comes nearer to a \
                point of the truck or goes farther away. Whatever joins the two must reach as far \
                as they ever come apart.",
    formula: "d² = ra² + rb² - 2 ra rb cos(g + psi) + dz²; the most is sqrt((ra + rb)² + dz²) \
              where g + psi = 180 deg is in reach, else that of one end of the turn",
    symbols: SYMBOLS,
    holds: HOLDS,
    assumes: ASSUMES,
    never: "For a chain that runs round a part of the hitch, or hangs on the jack.",
    source: "plane geometry, any textbook: law of cosines",
};

/// Two anchors and how far the rig turns.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct InTurns {
    /// On the truck.
    pub truck_anchor_in: Anchor,
    /// On the trailer.
    pub trailer_anchor_in: Anchor,
    /// Sharpest turn to either side, deg.
    #[serde(default = "full_turn")]
    pub max_yaw_deg: f64,
    /// Pitch of the trailer against the truck, nose up, deg.
    #[serde(default)]
    pub pitch_deg: f64,
    /// Height of the ball's centre, which the trailer pitches about, in.
    #[serde(default)]
    pub ball_height_in: Option<f64>,
}

/// How far two anchors come apart.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Farthest {
    /// With the rig straight, in.
    pub straight_in: f64,
    /// The most in any turn, in.
    pub max_in: f64,
    /// The turn at which that is, deg.
    pub yaw_at_max_deg: f64,
    /// What the turn asks beyond the straight rig, in.
    pub extra_for_turn_in: f64,
}

/// The most two anchors come apart in any turn to either side.
///
/// # Errors
/// [`NoNumber`] for a number out of range.
pub fn max_anchor_distance(inputs: &InTurns) -> Result<Farthest, NoNumber> {
    let pitch = Pitch {
        deg: inputs.pitch_deg,
        ball_height_in: inputs.ball_height_in,
    };
    let mut ranges = Ranges::new();
    inputs.truck_anchor_in.look("truck_anchor_in", &mut ranges);
    inputs
        .trailer_anchor_in
        .look("trailer_anchor_in", &mut ranges);
    ranges.within("max_yaw_deg", inputs.max_yaw_deg, 0.0, 180.0);
    pitch.look(&mut ranges);
    ranges.checked()?;
    let trailer = inputs.trailer_anchor_in.pitched(pitch);
    let swing = inputs.truck_anchor_in.sees(trailer);
    let limit = inputs.max_yaw_deg.to_radians();
    let straight = finite("the distance straight", swing.distance(0.0))?;
    let (most, turn) = swing.most(-limit, limit);
    let most = finite("the distance in a turn", most)?;
    Ok(Farthest {
        straight_in: straight,
        max_in: most,
        yaw_at_max_deg: finite("the turn", turn.to_degrees())?,
        extra_for_turn_in: most - straight,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn turns(truck: [f64; 3], trailer: [f64; 3]) -> InTurns {
        InTurns {
            truck_anchor_in: truck.into(),
            trailer_anchor_in: trailer.into(),
            max_yaw_deg: 90.0,
            pitch_deg: 0.0,
            ball_height_in: None,
        }
    }

    #[test]
    fn the_mirrored_chain_comes_as_far_apart_in_the_mirrored_turn() {
        let left = max_anchor_distance(&turns([-6.0, -8.0, 13.0], [14.0, 5.0, 15.0])).unwrap();
        let right = max_anchor_distance(&turns([-6.0, 8.0, 13.0], [14.0, -5.0, 15.0])).unwrap();
        assert!((left.max_in - right.max_in).abs() < 1e-12);
        assert!((left.yaw_at_max_deg + right.yaw_at_max_deg).abs() < 1e-9);
    }

    #[test]
    fn an_anchor_at_the_ball_is_as_far_in_every_turn() {
        let at_ball = max_anchor_distance(&turns([0.0, 0.0, 13.0], [3.0, 4.0, 13.0])).unwrap();
        assert!((at_ball.max_in - 5.0).abs() < 1e-12);
        assert!(at_ball.yaw_at_max_deg.abs() < 1e-12);
    }

    /// Chain eyes lie below the ball, and a dip, which is nose down, opens the rig below it.
    #[test]
    fn a_dip_draws_chain_eyes_farther_apart_than_a_crest() {
        let inputs = turns([-6.0, -8.0, 13.0], [14.0, 5.0, 13.0]);
        let most = |pitch_deg| {
            let pitched = InTurns {
                pitch_deg,
                ball_height_in: Some(18.0),
                ..inputs
            };
            max_anchor_distance(&pitched).unwrap().max_in
        };
        let level = max_anchor_distance(&inputs).unwrap().max_in;
        assert!((most(0.0) - level).abs() < 1e-12);
        assert!(most(-10.0) > most(10.0) && most(-10.0) > level);
        let about_what = InTurns {
            pitch_deg: 10.0,
            ..inputs
        };
        let refused = max_anchor_distance(&about_what).unwrap_err().to_string();
        assert!(refused.contains("ball_height_in"), "{refused}");
    }
}
