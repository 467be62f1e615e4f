//! # Pitch of a frame by tape

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure frame_pitch` tells of it.
pub const PAGE: Page = Page {
    name: "frame_pitch",
    title: "Pitch of a frame by tape",
    situation: "Two marks on the frame, a known base apart, stand at one height when the trailer is \
                level. Their difference over the base is the slope of the frame.",
    formula: "pitch = atan((Hf - Hr) / B)",
    symbols: &[
        ("Hf, Hr", "height of the front and the rear mark, in"),
        ("B", "base between the marks, measured level, in"),
    ],
    holds: "marks above the ground",
    assumes: "Level ground, and marks that are equally high on a level frame.",
    never: "On a slope: the ground's own pitch comes in whole.",
    source: "trigonometry, any textbook",
};

/// Two heights and their base.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FrameMarks {
    /// Height of the front mark, in.
    pub front_frame_in: f64,
    /// Height of the rear mark, in.
    pub rear_frame_in: f64,
    /// Distance between the marks, in.
    pub base_in: f64,
}

/// How the frame stands.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct FramePitch {
    /// Front less rear height, in.
    pub frame_diff_in: f64,
    /// Pitch, nose up, deg.
    pub pitch_deg: f64,
}

/// The pitch that two frame heights show.
///
/// # Errors
/// [`NoNumber`] when a number is out of range.
pub fn frame_pitch(inputs: &FrameMarks) -> Result<FramePitch, NoNumber> {
    let mut ranges = Ranges::new();
    ranges
        .positive("front_frame_in", inputs.front_frame_in)
        .positive("rear_frame_in", inputs.rear_frame_in)
        .positive("base_in", inputs.base_in);
    ranges.checked()?;
    let difference = inputs.front_frame_in - inputs.rear_frame_in;
    Ok(FramePitch {
        frame_diff_in: finite("the difference", difference)?,
        pitch_deg: finite("the pitch", libm::atan(difference / inputs.base_in))?.to_degrees(),
    })
}
