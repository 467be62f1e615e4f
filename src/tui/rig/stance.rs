//! How truck and trailer stand once coupled: the ball, what carries it, and the trailer's tilt.

use crate::figures::Figure;
use crate::rig::{Joint, Rig};
use crate::tui::rig::hang::Spot;
use crate::tui::rig::measure::{Truck, inches};
use crate::units::Unit;

/// What carries the ball; heights above the ground, the truck settled.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Carrier {
    /// A drawbar in a receiver.
    Drawbar {
        /// Inside top of the receiver.
        top: f64,
        /// Top of the platform the ball stands on.
        platform: f64,
        pin_radius: f64,
    },
    /// The floor of the bed.
    Bed { floor: f64 },
}

/// How truck and trailer stand once coupled.
pub(crate) struct Stance {
    pub(crate) joint: Carrier,
    /// Middle of the ball above the ground.
    pub(crate) ball: f64,
    /// How much higher than level the coupler stands.
    pub(crate) nose_up: f64,
    /// How much the frame rises toward the nose, an inch along, where that is solved.
    pub(crate) slope: Option<f64>,
}

/// Where a described rig comes to rest.
struct Solved {
    ball: f64,
    slope: f64,
}

impl Solved {
    /// Nothing where the rig file does not say how truck and trailer are sprung.
    fn of(rig: &Rig) -> Option<Self> {
        let number = |figure: Figure, unit| {
            let found = figure.of(rig, None).ok()?;
            found.quantity.in_unit(unit)?.value.to_f64()
        };
        let pitch = number(Figure::AttitudePitch, Unit::Degree)?.clamp(-STEEPEST, STEEPEST);
        Some(Self {
            ball: number(Figure::AttitudeBallHeight, Unit::Inch)?.clamp(8.0, 70.0),
            slope: pitch.to_radians().tan(),
        })
    }
}

/// The steepest pitch that is drawn, in degrees; no trailer is towed so.
const STEEPEST: f64 = 15.0;

impl Stance {
    /// How this rig stands.
    pub(crate) fn of(rig: &Rig) -> Self {
        let level = inches(&rig.trailer.level_coupler_height).clamp(8.0, 70.0);
        let above_platform = inches(&rig.hitch.ball.height).clamp(1.0, 9.0);
        let platform = match &rig.hitch.joint {
            Joint::BumperPull {
                receiver, drawbar, ..
            } => inches(&receiver.height) + inches(&drawbar.rise).clamp(-14.0, 14.0),
            Joint::Gooseneck { bed_height, .. } => inches(bed_height),
        };
        let free = (platform + above_platform).clamp(8.0, 70.0);
        let solved = Solved::of(rig);
        let settled = (free - level).clamp(0.0, MOST_SETTLING);
        let ball = solved.as_ref().map_or(free - settled, |solved| solved.ball);
        let platform = ball - above_platform;
        let joint = match &rig.hitch.joint {
            Joint::BumperPull { drawbar, pin, .. } => Carrier::Drawbar {
                top: platform - inches(&drawbar.rise).clamp(-14.0, 14.0),
                platform,
                pin_radius: (inches(&pin.diameter) / 2.0).clamp(0.2, 0.8),
            },
            Joint::Gooseneck { .. } => Carrier::Bed { floor: platform },
        };
        Self {
            joint,
            ball,
            nose_up: ball - level,
            slope: solved.map(|solved| solved.slope),
        }
    }

    /// Where the cord's two ends would be that nobody described: the socket on the truck, the clip on
    /// the trailer.
    pub(crate) fn cord_ends(&self, truck: &Truck) -> (Spot, Spot) {
        let (socket, clip_height) = match self.joint {
            Carrier::Drawbar { top, .. } => (
                Spot {
                    behind: truck.tail - 1.0,
                    right: 12.0,
                    above: top + 3.0,
                },
                self.ball + 3.0,
            ),
            Carrier::Bed { .. } => (
                Spot {
                    behind: truck.tail - 8.0,
                    right: 0.0,
                    above: truck.rail - 8.0,
                },
                truck.rail + 10.0,
            ),
        };
        let clip = Spot {
            behind: CORD_CLIP,
            right: 0.0,
            above: clip_height,
        };
        (socket, clip)
    }
}

/// Where no springs are described: a truck settles under the tongue until the trailer stands
/// level, but hardly more than this; what the ball is too high beyond it tips the trailer in the
/// drawing too.
const MOST_SETTLING: f64 = 4.0;

/// Where a cord is clipped to the tongue or neck, behind the ball.
const CORD_CLIP: f64 = 30.0;
