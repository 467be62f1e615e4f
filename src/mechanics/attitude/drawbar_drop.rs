//! # Drawbar drop by tape

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure drawbar_drop` tells of it.
pub const PAGE: Page = Page {
    name: "drawbar_drop",
    title: "Drawbar drop by tape",
    situation: "With the trailer level on its jack and the truck loaded but not coupled, two tape \
                readings tell which drawbar brings ball and coupler to one height. The truck \
                sinks under the tongue, so the receiver is reckoned lower than it stands.",
    formula: "drop = (R - s) - (C - h)",
    symbols: &[
        (
            "R",
            "ground to the inside top of the receiver, truck loaded, in",
        ),
        ("s", "how far the receiver sinks under the tongue, in"),
        (
            "C",
            "ground to the inside top of the coupler's socket, trailer level, in",
        ),
        ("h", "top of the ball above the platform it stands on, in"),
        (
            "drop",
            "from receiver down to the ball's platform, in; negative is a rise",
        ),
    ],
    holds: "heights above the ground, a receiver that stays above it",
    assumes: "Truck and trailer on the same level ground. Leaving the squat out leaves the trailer \
              nose low by as much.",
    never: "As the last word: choose the nearest drawbar, couple, and measure whether the frame is \
            level.",
    source: "common practice, no source; addition of heights",
};

/// What the tape says.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DrawbarByTape {
    /// Ground to the inside top of the receiver, truck loaded, no trailer, in.
    pub receiver_height_in: f64,
    /// How far the receiver sinks under the tongue, in.
    #[serde(default)]
    pub squat_in: f64,
    /// Ground to the inside top of the coupler's socket, trailer level, in.
    pub coupler_height_in: f64,
    /// Top of the ball above its platform, in.
    pub ball_height_in: f64,
}

/// The drawbar.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct DrawbarDrop {
    /// Drop, in; negative is a rise.
    pub drop_in: f64,
    /// The same drop if the truck did not sink, in.
    pub drop_without_squat_in: f64,
}

/// The drop of the drawbar that brings ball and coupler to one height.
///
/// # Errors
/// [`NoNumber`] when a number is out of range.
pub fn drawbar_drop(inputs: &DrawbarByTape) -> Result<DrawbarDrop, NoNumber> {
    let mut ranges = Ranges::new();
    ranges
        .positive("receiver_height_in", inputs.receiver_height_in)
        .holds(
            inputs.squat_in >= 0.0 && inputs.squat_in < inputs.receiver_height_in,
            "squat_in",
            inputs.squat_in,
            "0 or more, and less than the receiver's height",
        )
        .positive("coupler_height_in", inputs.coupler_height_in)
        .not_negative("ball_height_in", inputs.ball_height_in);
    ranges.checked()?;
    let platform = inputs.coupler_height_in - inputs.ball_height_in;
    Ok(DrawbarDrop {
        drop_in: finite(
            "the drop",
            inputs.receiver_height_in - inputs.squat_in - platform,
        )?,
        drop_without_squat_in: finite("the drop", inputs.receiver_height_in - platform)?,
    })
}
