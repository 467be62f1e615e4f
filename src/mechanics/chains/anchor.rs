//! A point in space that a chain, lanyard or cord is fixed to.

use crate::mechanics::Ranges;
use crate::mechanics::chains::swing::Swing;
use serde::Deserialize;

/// The symbols of the two formulas that reckon the distance of anchors.
pub(super) const SYMBOLS: &[(&str, &str)] = &[
    (
        "ra, rb",
        "from the ball to the anchors, seen from above, in",
    ),
    ("g", "angle between them with the rig straight, deg"),
    (
        "psi",
        "turn, deg; positive with the trailer's tail to the right",
    ),
    ("dz", "difference of the anchors' heights, in"),
];

/// Where both hold.
pub(super) const HOLDS: &str = "places within 10,000 in of the ball, turns up to 180 deg either way, pitch up to \
            30 deg";

/// What both take for granted.
pub(super) const ASSUMES: &str = "Truck and trailer are stiff and meet in the ball. A dip pitches the trailer about \
              the ball before it turns.";

/// A point by the ball, written `[rearward, right, up]`, in.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(from = "[f64; 3]")]
pub struct Anchor {
    /// Rearward from the ball; negative is ahead of it.
    pub x_in: f64,
    /// To the right of the middle; negative is left.
    pub y_in: f64,
    /// Above the ground.
    pub z_in: f64,
}

impl From<[f64; 3]> for Anchor {
    fn from([x_in, y_in, z_in]: [f64; 3]) -> Self {
        Self { x_in, y_in, z_in }
    }
}

/// A pitch of the trailer about the ball, as a dip in the road brings it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pitch {
    /// Nose up, deg.
    pub(super) deg: f64,
    /// Height of the ball's centre, in.
    pub(super) ball_height_in: Option<f64>,
}

/// No part of a rig is farther from its ball, in.
pub(super) const FARTHEST_IN: f64 = 10_000.0;

/// Steepest pitch between truck and trailer that is taken, deg.
const STEEPEST: f64 = 30.0;

impl Pitch {
    pub(super) fn look(self, ranges: &mut Ranges) {
        ranges.within("pitch_deg", self.deg, -STEEPEST, STEEPEST);
        if let Some(height) = self.ball_height_in {
            ranges.positive("ball_height_in", height);
        } else {
            let level = self.deg == 0.0 || self.deg.is_nan();
            let takes = "0 unless ball_height_in, which it turns about, is given too";
            ranges.holds(level, "pitch_deg", self.deg, takes);
        }
    }
}

impl Anchor {
    /// Looks at each of its numbers.
    pub(super) fn look(&self, what: &str, ranges: &mut Ranges) {
        for (axis, given) in [("x", self.x_in), ("y", self.y_in), ("z", self.z_in)] {
            ranges.within(&format!("{what} {axis}"), given, -FARTHEST_IN, FARTHEST_IN);
        }
    }

    /// Where a point of the trailer is when the trailer pitches about the ball.
    pub(super) fn pitched(self, pitch: Pitch) -> Self {
        let Some(ball) = pitch.ball_height_in else {
            return self;
        };
        let theta = pitch.deg.to_radians();
        let (sin, cos) = (libm::sin(theta), libm::cos(theta));
        let (back, up) = (self.x_in, self.z_in - ball);
        Self {
            x_in: back * cos + up * sin,
            y_in: self.y_in,
            z_in: ball + up * cos - back * sin,
        }
    }

    /// A point of the trailer that yaws about the ball, seen from this point of the truck. Turns
    /// are positive when the trailer's tail goes right.
    pub(super) fn sees(self, trailer: Self) -> Swing {
        let ahead = libm::atan2(self.y_in, self.x_in);
        let behind = libm::atan2(trailer.y_in, trailer.x_in);
        Swing {
            reach: libm::hypot(self.x_in, self.y_in),
            radius: libm::hypot(trailer.x_in, trailer.y_in),
            start: behind - ahead,
            beside: trailer.z_in - self.z_in,
        }
    }
}
