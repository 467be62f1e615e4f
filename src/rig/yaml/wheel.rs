//! Tires and wheel fastenings in the rig file.

use crate::document::{Node, Read};
use crate::rig::yaml::part::{Part, exceeds};
use crate::rig::{Given, Tire, WheelFit};
use crate::units::Dimension::{Count, Length, Mass, Pressure, Torque};
use crate::units::Exact;

pub(super) const FIT_KEYS: &[&str] = &["studs", "stud", "torque", "torque-low", "torque-high"];

/// Studs a trailer wheel may have: common practice, no source.
const STUDS: (i64, i64) = (4, 10);

pub(super) fn tire(node: Node<'_>) -> Read<Tire> {
    let part = Part::open(
        node,
        &["size", "load-range", "max-load", "max-pressure", "cold"],
    )?;
    let size = part.words("size");
    let load_range = part.words("load-range");
    let max_load = part.positive("max-load", Mass);
    let max_pressure = part.positive("max-pressure", Pressure);
    let cold = part.positive("cold", Pressure);
    if exceeds(&cold, &max_pressure) {
        part.tell(
            "cold",
            "the cold pressure asked for is above what the sidewall allows",
            "read placard and sidewall again; the sidewall's pressure is the most",
        );
    }
    Ok(Tire {
        size: size?,
        load_range: load_range?,
        max_load: max_load?,
        max_pressure: max_pressure?,
        cold: cold?,
    })
}

pub(super) fn fit(part: Part<'_>) -> Read<WheelFit> {
    let studs = part.positive("studs", Count);
    let stud = part.positive("stud", Length);
    let torque = part.positive("torque", Torque);
    let torque_low = part.positive("torque-low", Torque);
    let torque_high = part.positive("torque-high", Torque);
    let fix = "read the wheel's or axle's manual again";
    if studs.as_ref().is_ok_and(|studs| !is_stud_count(studs)) {
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
        torque: torque?,
        torque_low: torque_low?,
        torque_high: torque_high?,
    })
}

fn is_stud_count(studs: &Given) -> bool {
    let (least, most) = STUDS;
    (least..=most).any(|count| studs.quantity.value == Exact::whole(count))
}
