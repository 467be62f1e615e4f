//! # The clamp behind a torque

use crate::mechanics::constants::FOOT_IN;
use crate::mechanics::wheels::stud_torque::{look_at_stud, nut_factor};
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure clamp_from_torque` tells of it.
pub const PAGE: Page = Page {
    name: "clamp_from_torque",
    title: "The clamp behind a torque",
    situation: "The wrench turns the nut, most of its work goes into friction, and what is left \
                stretches the stud. So the same torque clamps more on oiled threads, up to breaking \
                the stud, and less on rusty ones.",
    formula: "F = T / (K d)",
    symbols: &[
        ("T", "torque, lb ft, taken as lb in"),
        (
            "K",
            "nut factor: 0.20 for clean dry steel, 0.15 oiled, 0.30 rusty",
        ),
        ("d", "diameter of the stud, in"),
        ("F", "clamp of one stud, lb"),
    ],
    holds: "studs of 1/4 to 1 1/2 in, K of 0.05 to 0.50",
    assumes: "Dry threads unless K says otherwise. The clamp behind one torque scatters by some \
              30 %.",
    never: "To judge a nut by a click: a click wrench proves at least its setting, and tells \
            nothing of what was there.",
    source: "Shigley, Mechanical Engineering Design, short form T = K d F, read in a secondary page",
};

/// A nut tightened to a torque.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tightened {
    /// Torque, lb ft.
    pub torque_lbft: f64,
    /// Diameter of the stud, in.
    pub diameter_in: f64,
    /// Nut factor; that of clean dry steel unless given.
    #[serde(default = "nut_factor", alias = "nut_factor")]
    pub k: f64,
}

/// How it clamps.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Clamp {
    /// Clamp of one stud, lb.
    pub clamp_lb: f64,
}

/// The clamp of one stud at a torque.
///
/// # Errors
/// [`NoNumber`] outside the ranges.
pub fn clamp_from_torque(inputs: &Tightened) -> Result<Clamp, NoNumber> {
    let mut ranges = Ranges::new();
    look_at_stud(&mut ranges, inputs.diameter_in, inputs.k);
    ranges
        .not_negative("torque_lbft", inputs.torque_lbft)
        .checked()?;
    let clamp = inputs.torque_lbft * FOOT_IN / (inputs.k * inputs.diameter_in);
    Ok(Clamp {
        clamp_lb: finite("the clamp", clamp)?,
    })
}
