//! # Distance of two anchors at one turn

use crate::mechanics::chains::Anchor;
use crate::mechanics::chains::anchor::{ASSUMES, HOLDS, Pitch, SYMBOLS};
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure anchor_distance` tells of it.
pub const PAGE: Page = Page {
    name: "anchor_distance",
    title: "Distance of two anchors at one turn",
    situation: "The trailer stands at an angle to the truck, perhaps in a dip. A point of the one \
                and a point of the other are so far apart.",
    formula: "d² = ra² + rb² - 2 ra rb cos(g + psi) + dz²",
    symbols: SYMBOLS,
    holds: HOLDS,
    assumes: ASSUMES,
    never: "In place of the most in any turn when a chain is cut to length.",
    source: "plane geometry, any textbook: law of cosines",
};

/// Two anchors and one turn.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AtAngle {
    /// On the truck.
    pub truck_anchor_in: Anchor,
    /// On the trailer.
    pub trailer_anchor_in: Anchor,
    /// The turn, deg; positive with the trailer's tail to the right.
    pub yaw_deg: f64,
    /// Pitch of the trailer against the truck, nose up, deg.
    #[serde(default)]
    pub pitch_deg: f64,
    /// Height of the ball's centre, which the trailer pitches about, in.
    #[serde(default)]
    pub ball_height_in: Option<f64>,
}

/// How far two anchors are apart.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Distance {
    /// The distance, in.
    pub distance_in: f64,
}

/// The distance of two anchors at one turn.
///
/// # Errors
/// [`NoNumber`] for a number out of range.
pub fn anchor_distance(inputs: &AtAngle) -> Result<Distance, NoNumber> {
    let pitch = Pitch {
        deg: inputs.pitch_deg,
        ball_height_in: inputs.ball_height_in,
    };
    let mut ranges = Ranges::new();
    inputs.truck_anchor_in.look("truck_anchor_in", &mut ranges);
    inputs
        .trailer_anchor_in
        .look("trailer_anchor_in", &mut ranges);
    ranges.within("yaw_deg", inputs.yaw_deg, -180.0, 180.0);
    pitch.look(&mut ranges);
    ranges.checked()?;
    let swing = inputs
        .truck_anchor_in
        .sees(inputs.trailer_anchor_in.pitched(pitch));
    let distance = swing.distance(inputs.yaw_deg.to_radians());
    Ok(Distance {
        distance_in: finite("the distance", distance)?,
    })
}
