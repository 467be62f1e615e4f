//! # Axle loads from a tape on the frame

use crate::mechanics::attitude::Status;
use crate::mechanics::attitude::tilt::{STEEPEST_RAD, Spring, Tilt};
use crate::mechanics::constants::FOOT_IN;
use crate::mechanics::{NoNumber, Page, Ranges, Springing, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure split_from_frame_heights` tells of it.
pub const PAGE: Page = Page {
    name: "split_from_frame_heights",
    title: "Axle loads from a tape on the frame",
    situation: "Two frame marks, a known base apart, show the pitch by their heights. From weight, \
                balance and spring rates that pitch tells how torsion axles share the load.",
    formula: "t = (Hf - Hr) / B; N_i = C / (n xb) + k t ((x_i - xb) - S / (n xb)); an axle that \
              comes out below 0 is off the road and the rest is reckoned again",
    symbols: &[
        ("Hf, Hr", "height of the front and the rear mark, in"),
        ("B", "base between the marks, in"),
        ("t", "pitch, nose up, rad"),
        (
            "N_i, x_i",
            "load of an axle, lb, and its place behind the ball, in",
        ),
        ("n, xb", "number of axles and the mean of their places, in"),
        ("S", "sum of (x_i - xb)^2, in2"),
        ("k", "rate of one axle with its tires, lb/in"),
        (
            "C",
            "moment of weight and spring bars about the ball, lb in",
        ),
    ],
    holds: "one to three axles alike, pitch up to 20 deg",
    assumes: "Level ground, linear springs, axles of one rate mounted at one height. An eighth of \
              an inch on the tape over 132 in is 0.05 deg, or some 30 lb between two axles.",
    never: "In place of a scale under each axle where there is one.",
    source: "statics of bodies on springs, any textbook; checked against an independent model",
};

/// What the tape and the scale say.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FrameHeights {
    /// Height of the front mark, in.
    pub front_frame_in: f64,
    /// Height of the rear mark, in.
    pub rear_frame_in: f64,
    /// Distance between the marks, in.
    pub base_in: f64,
    /// Each axle's place behind the ball, in.
    pub axle_x_in: Vec<f64>,
    /// Rate of one axle with tires, lb/in.
    pub rate_lb_in: f64,
    /// Weight of the loaded trailer, lb.
    pub gross_lb: f64,
    /// Its centre of gravity behind the ball, in.
    pub x_cg_in: f64,
    /// How the axles are sprung.
    #[serde(default = "torsion")]
    pub suspension: Springing,
    /// Couple of the spring bars, lb ft.
    #[serde(default)]
    pub wd_moment_lbft: f64,
}

fn torsion() -> Springing {
    Springing::Torsion
}

/// Pitch and split.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FrameSplit {
    /// Pitch, nose up, deg.
    pub pitch_deg: f64,
    /// Load of each axle, front to rear, lb.
    pub axle_lb: Vec<f64>,
    /// Whether each axle is on the road.
    pub on_road: Vec<bool>,
    /// Tongue weight, lb.
    pub tongue_lb: f64,
    /// Load of the rear axle less that of the front axle, lb.
    pub difference_rear_minus_front_lb: f64,
    /// Which axles are on the road.
    pub status: Status,
}

/// How the axles share the load at the pitch that two frame heights show.
///
/// # Errors
/// [`NoNumber`] when a number is out of range, or no axle would carry anything.
pub fn split_from_frame_heights(inputs: &FrameHeights) -> Result<FrameSplit, NoNumber> {
    let mut ranges = Ranges::new();
    let pitch = (inputs.front_frame_in - inputs.rear_frame_in) / inputs.base_in;
    ranges
        .positive("front_frame_in", inputs.front_frame_in)
        .positive("rear_frame_in", inputs.rear_frame_in)
        .positive("base_in", inputs.base_in)
        .within("pitch in rad", pitch, -STEEPEST_RAD, STEEPEST_RAD);
    let alike = AxlesAlike {
        places_in: &inputs.axle_x_in,
        rate_lb_in: inputs.rate_lb_in,
        gross_lb: inputs.gross_lb,
        x_cg_in: inputs.x_cg_in,
        suspension: inputs.suspension,
        wd_moment_lbft: inputs.wd_moment_lbft,
    };
    alike.look(&mut ranges);
    ranges.checked()?;
    let tilted = alike.tilt().at(pitch).ok_or_else(no_axle)?;
    let status = match (inputs.suspension, Status::of_axles(&tilted.on_road)) {
        (Springing::Equalized, Status::AllAxles) => Status::Equalized,
        (_, status) => status,
    };
    let ends = tilted.axle_lb.first().zip(tilted.axle_lb.last());
    let together = finite("the axles' load", tilted.axle_lb.iter().sum())?;
    Ok(FrameSplit {
        pitch_deg: pitch.to_degrees(),
        tongue_lb: finite("the tongue weight", inputs.gross_lb - together)?,
        difference_rear_minus_front_lb: ends.map_or(0.0, |(front, rear)| rear - front),
        axle_lb: tilted.axle_lb,
        on_road: tilted.on_road,
        status,
    })
}

/// Axles of one rate, mounted at one height, and what they carry.
pub(crate) struct AxlesAlike<'i> {
    pub(crate) places_in: &'i [f64],
    pub(crate) rate_lb_in: f64,
    pub(crate) gross_lb: f64,
    pub(crate) x_cg_in: f64,
    pub(crate) suspension: Springing,
    pub(crate) wd_moment_lbft: f64,
}

impl AxlesAlike<'_> {
    pub(crate) fn look(&self, ranges: &mut Ranges) {
        let count = f64::from(u32::try_from(self.places_in.len()).unwrap_or(u32::MAX));
        ranges.within("axle_x_in: axles", count, 1.0, 3.0);
        for place in self.places_in {
            ranges.positive("axle_x_in", *place);
        }
        for pair in self.places_in.windows(2) {
            if let [ahead, behind] = pair {
                let takes = "more than the axle ahead of it";
                ranges.holds(behind > ahead, "axle_x_in", *behind, takes);
            }
        }
        ranges
            .positive("rate_lb_in", self.rate_lb_in)
            .positive("gross_lb", self.gross_lb)
            .finite("x_cg_in", self.x_cg_in)
            .finite("wd_moment_lbft", self.wd_moment_lbft);
    }

    pub(crate) fn moment_lb_in(&self) -> f64 {
        self.gross_lb * self.x_cg_in + self.wd_moment_lbft * FOOT_IN
    }

    pub(crate) fn tilt(&self) -> Tilt {
        let spring = |place: &f64| Spring {
            place_in: *place,
            rate: self.rate_lb_in,
            free_height_in: 0.0,
        };
        let springs = self.places_in.iter().map(spring).collect();
        Tilt::new(springs, self.suspension, self.moment_lb_in())
    }
}

pub(crate) fn no_axle() -> NoNumber {
    NoNumber::because(
        "No axle would carry anything: the weight lies ahead of the ball. Look at the centre of \
         gravity and the spring bars again.",
    )
}
