//! How wheels are fastened, in the rig file.

use crate::document::Read;
use crate::rig::yaml::part::{Part, exceeds, is_whole_within};
use crate::rig::{Seat, WheelFit};
use crate::units::Dimension::{Count, Length, Pressure, Torque};

pub(super) const FIT_KEYS: &[&str] = &[
    "studs",
    "stud",
    "thread",
    "proof",
    "seat",
    "torque",
    "torque-low",
    "torque-high",
];

/// Studs a trailer wheel may have: common practice, no source.
const STUDS: (i64, i64) = (4, 10);

pub(super) fn fit(part: Part<'_>) -> Read<WheelFit> {
    let studs = part.positive("studs", Count);
    let stud = part.positive("stud", Length);
    let thread = part.positive_if_any("thread", Count);
    let proof = part.positive_if_any("proof", Pressure);
    let seat = part.choice_if_any("seat", &Seat::WORDS);
    let torque = part.positive("torque", Torque);
    let torque_low = part.positive("torque-low", Torque);
    let torque_high = part.positive("torque-high", Torque);
    let fix = "read the wheel's or axle's manual again";
    if studs
        .as_ref()
        .is_ok_and(|studs| !is_whole_within(studs, STUDS))
    {
        let (least, most) = STUDS;
        part.tell(
            "studs",
            format!("a wheel has {least} to {most} studs, a whole number of them"),
            "count the studs of one wheel",
        );
    }
    if exceeds(&torque_low, &torque_high) {
        part.tell("torque-low", "the least torque is above the most", fix);
    }
    if exceeds(&torque_low, &torque) {
        part.tell("torque", "the torque to aim at is below the least", fix);
    }
    if exceeds(&torque, &torque_high) {
        part.tell("torque", "the torque to aim at is above the most", fix);
    }
    Ok(WheelFit {
        studs: studs?,
        stud: stud?,
        thread: thread?,
        proof: proof?,
        seat: seat?,
        torque: torque?,
        torque_low: torque_low?,
        torque_high: torque_high?,
    })
}
