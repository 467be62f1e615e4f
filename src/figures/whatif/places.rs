//! Where a horse can stand: the trailer's stalls; where none are described, the places its horses
//! have.

use crate::rig::{Load, Position, Rig};
use crate::units::Unit;
use std::cmp::Ordering;

/// A place for a horse.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Standing {
    /// What people call it.
    pub(super) name: String,
    /// The stall's id, where it is one.
    pub(super) stall: Option<String>,
    /// Where the middle of a horse in it is.
    pub(super) at: Position,
}

/// Nothing else in a horse trailer comes in one piece so heavy, in pounds.
const LEAST_HORSE: f64 = 600.0;

/// Whether this is a horse: it is in a stall, was measured as one, or is as heavy as one.
pub(super) fn is_horse(load: &Load) -> bool {
    let pounds = load.weight.as_ref().and_then(|weight| {
        let pounds = weight.quantity.in_unit(Unit::Pound)?;
        pounds.value.to_f64()
    });
    load.stall.is_some()
        || load.horse.is_some()
        || pounds.is_some_and(|pounds| pounds >= LEAST_HORSE)
}

/// The places for horses, as a person counts them.
pub(super) fn of(rig: &Rig) -> Vec<Standing> {
    if !rig.trailer.stalls.is_empty() {
        let stalls = rig.trailer.stalls.iter().map(|stall| Standing {
            name: stall.name.clone(),
            stall: Some(stall.id.clone()),
            at: stall.at.clone(),
        });
        return stalls.collect();
    }
    let horses = rig.load.iter().filter(|load| is_horse(load));
    let mut places: Vec<Standing> = horses
        .map(|load| Standing {
            name: name(&load.at),
            stall: None,
            at: load.at.clone(),
        })
        .collect();
    // By place, so that the order stays when two horses trade theirs.
    places.sort_by(|one, other| one.name.cmp(&other.name));
    places
}

/// A place without a name of its own, by its place.
fn name(at: &Position) -> String {
    let right = &at.right.quantity;
    let side = match right.value.is_negative() {
        _ if right.value.is_zero() => "middle",
        true => "left",
        false => "right",
    };
    format!("{} back, {side}", at.behind.quantity)
}

/// Which place this one of the load has.
pub(super) fn place_of(rig: &Rig, load: usize, places: &[Standing]) -> Option<usize> {
    let at = &rig.load.get(load)?.at;
    places.iter().position(|place| is_same(&place.at, at))
}

/// The rig with one of its load standing there; who stood there takes the place that came free.
pub(super) fn moved(rig: &Rig, load: usize, to: &Standing) -> Rig {
    let mut rig = rig.clone();
    let Some(mover) = rig.load.get(load) else {
        return rig;
    };
    let from = (mover.at.clone(), mover.stall.clone());
    let there = |(at, other): &(usize, &Load)| *at != load && is_same(&other.at, &to.at);
    let other = rig.load.iter().enumerate().find(there).map(|(at, _)| at);
    if let Some(other) = other.and_then(|other| rig.load.get_mut(other)) {
        (other.at, other.stall) = from;
    }
    if let Some(mover) = rig.load.get_mut(load) {
        (mover.at, mover.stall) = (to.at.clone(), to.stall.clone());
    }
    rig
}

fn is_same(one: &Position, other: &Position) -> bool {
    [(&one.behind, &other.behind), (&one.right, &other.right)]
        .into_iter()
        .all(|(one, other)| one.quantity.compare(&other.quantity) == Some(Ordering::Equal))
}
