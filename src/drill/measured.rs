//! What there truly is to be measured at a step, reckoned from the rig as it truly is.
//!
//! The rig is one: whoever raises its ball raises its front mark, and moves load between its axles
//! and its tongue, by the formulas the checklists themselves judge with. A step that stands in no row
//! here reads what is well, or what its scenario says.

use crate::figures::{Fact, Facts, Figure, Item, Today};
use crate::rig::Rig;
use crate::units::{Exact, Quantity, Unit};

/// Steps that read a figure of the rig.
const READS: [(&str, Figure); 23] = [
    ("trailer-weight", Figure::TrailerGross),
    ("tongue-weight", Figure::TongueWeight),
    ("pin-weight", Figure::TongueWeight),
    ("tongue-now", Figure::TongueWeight),
    ("tongue-alone", Figure::TongueWeight),
    ("rear-axle-weight", Figure::TruckRearLoad),
    ("combined-weight", Figure::CombinedGross),
    ("truck-tire", Figure::TruckTireCold),
    ("ball-size", Figure::BallDiameter),
    ("second-ball-size", Figure::BallDiameter),
    ("chain-length", Figure::ChainLength),
    ("chain-clear", Figure::ChainLowPoint),
    ("lanyard-length", Figure::LanyardLength),
    ("lanyard-length-late", Figure::LanyardLength),
    ("tire-cold", Figure::TireColdToday),
    ("tire-cold-table", Figure::TireColdToday),
    ("tire-before", Figure::TireColdToday),
    ("lug-torque", Figure::WheelTorque),
    ("nuts-again", Figure::WheelTorque),
    ("cord-length", Figure::CordLength),
    ("horse-weight", Figure::HorseWeight),
    ("magnet-current", Figure::MagnetCurrentExpected),
    ("spare-tire", Figure::SpareCold),
];

/// Steps that read what no formula gives, with what is there on a rig that is well, in tenths. Ours:
/// a jack is cranked a hand's breadth above the ball, and a lead-acid battery at rest stands between
/// 12.6 and 12.8 V when it is full, from memory.
const STANDS: [(&str, i128, Unit); 2] = [
    ("ball-gap", 40, Unit::Inch),
    ("battery-parked", 127, Unit::Volt),
];

/// Height of the rear frame mark of a trailer that stands level, in. Ours: only the difference of
/// the marks is judged.
const REAR_MARK_IN: i64 = 18;

/// Brakes as they should be stop the rig in about three quarters of the longest time that still
/// shows them, since that time allows for seven tenths of their force and half a second of lever.
const OF_LONGEST_PULL: (i128, i128) = (3, 4);

/// What there is to be measured; nothing where no formula says.
pub(super) fn measured(
    step: &str,
    item: Option<&Item>,
    rig: &Rig,
    air: &Quantity,
) -> Option<Quantity> {
    let facts = Facts::default().with(Fact::AirTemperature, air.clone());
    let today = Today { rig, facts: &facts };
    let figure = |figure: Figure| Some(figure.of(today, item).ok()?.quantity);
    match step {
        "air" => Some(air.clone()),
        "rear-mark" | "rear-mark-half" => Some(Quantity::whole(REAR_MARK_IN, Unit::Inch)),
        "front-mark" => front_mark(rig),
        "pull-time" => {
            let longest = figure(Figure::PullStopTime)?;
            Some(longest.times(&Exact::ratio(OF_LONGEST_PULL.0, OF_LONGEST_PULL.1)?))
        }
        _ => {
            if let Some((_, tenths, unit)) = STANDS.iter().find(|(name, ..)| *name == step) {
                return Some(Quantity::new(Exact::ratio(*tenths, 10)?, *unit));
            }
            let (_, reads) = READS.iter().find(|(name, _)| *name == step)?;
            figure(*reads)
        }
    }
}

/// The front mark stands over the rear one by the pitch along the base between them.
fn front_mark(rig: &Rig) -> Option<Quantity> {
    let pitch = Figure::AttitudePitch.of(rig, None).ok()?.quantity;
    let degrees = pitch.in_unit(Unit::Degree)?.value.to_f64()?;
    let base = &rig.trailer.frame_base.quantity;
    let rises = base.times(&Exact::nearest(
        degrees.to_radians(),
        &Exact::ratio(1, 100_000)?,
    )?);
    Quantity::whole(REAR_MARK_IN, Unit::Inch).plus(&rises)
}
