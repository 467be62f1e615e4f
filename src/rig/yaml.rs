//! The rig file: YAML in, a described rig out, or every fault with its place.
//!
//! The keys are the names of the types' fields. Each value says what it is, by which evidence and
//! where that stands: `{ is: 7000 lb, by: plate, at: left wall }`. What no rig can be is refused
//! here, once, so that a [`Rig`] in hand needs no second look.

mod axle;
mod backups;
mod chains;
mod instrument;
mod joint;
mod load;
mod part;
mod tire;
mod trailer;
mod truck;
mod wheel;

use crate::document::{Document, Fault, Node, Read};
use crate::rig::yaml::part::Part;
use crate::rig::{Hitch, HitchKind, Rig, Trailer};
use crate::units::Quantity;
use std::cmp::Ordering;

/// The mark of the file's format, its first line.
const FORMAT: &str = "hames-rig/1";

impl Rig {
    /// Reads a rig file.
    ///
    /// # Errors
    /// Every fault of the file, in its order, each with line, column and a way to mend it. What
    /// two parts contradict each other in is told once both can be read.
    pub fn read(text: &str) -> Result<Self, Vec<Fault>> {
        Document::parse(text)?.read(rig)
    }
}

fn rig(root: Node<'_>) -> Read<Rig> {
    let file = Part::open(
        root,
        &[
            "format",
            "id",
            "name",
            "truck",
            "hitch",
            "trailer",
            "load",
            "instruments",
        ],
    )?;
    let format = format(file);
    let id = file.required("id").and_then(Node::id);
    let name = file.words("name");
    let truck_part = file.part("truck", truck::KEYS);
    let truck = truck_part.and_then(truck::truck);
    let hitch = file.part("hitch", joint::HITCH_KEYS).and_then(joint::hitch);
    let trailer_part = file.part("trailer", trailer::KEYS);
    let stalls = trailer_part.and_then(trailer::stalls);
    let load = file
        .required("load")
        .and_then(|list| load::load(list, &stalls));
    let trailer = trailer_part.and_then(|part| trailer::trailer(part, stalls));
    let instruments = file
        .required("instruments")
        .and_then(instrument::instruments);
    if let (Ok(part), Ok(truck), Ok(hitch)) = (truck_part, &truck, &hitch) {
        let reach = &truck.ball_behind_rear_axle.quantity;
        ball_lies_where_the_joint_puts_it(part, reach, hitch.kind());
    }
    if let (Ok(part), Ok(trailer), Ok(hitch)) = (trailer_part, &trailer, &hitch) {
        trailer_has_legs_for_its_rating(part, trailer, hitch);
    }
    format?;
    Ok(Rig {
        id: id?.to_owned(),
        name: name?,
        truck: truck?,
        hitch: hitch?,
        trailer: trailer?,
        load: load?,
        instruments: instruments?,
    })
}

fn format(file: Part<'_>) -> Read<()> {
    let node = file.required("format")?;
    let written = node.text()?;
    if written == FORMAT {
        return Ok(());
    }
    Err(node.fault(
        format!("“{written}” is not a rig format this program reads"),
        format!("write `format: {FORMAT}`"),
    ))
}

/// A bumper pull's ball stands behind the rear axle and a gooseneck's does not: behind it, the
/// weight on a gooseneck ball would lift the steering axle.
fn ball_lies_where_the_joint_puts_it(truck: Part<'_>, reach: &Quantity, kind: HitchKind) {
    let behind = !reach.value.is_negative() && !reach.value.is_zero();
    let (what, fix) = match kind {
        HitchKind::BumperPull if !behind => (
            format!("a bumper pull's ball lies behind the rear axle, and this one at {reach}"),
            "measure from the rear axle back to the ball; behind it is positive",
        ),
        HitchKind::Gooseneck if behind => (
            format!(
                "a gooseneck's ball lies over or ahead of the rear axle, and this one {reach} behind it"
            ),
            "measure again; ahead of the axle is negative",
        ),
        HitchKind::BumperPull | HitchKind::Gooseneck => return,
    };
    truck.tell("ball-behind-rear-axle", what, fix);
}

/// A trailer stands on its axles and its coupler and on nothing else.
fn trailer_has_legs_for_its_rating(part: Part<'_>, trailer: &Trailer, hitch: &Hitch) {
    let coupler = &hitch.coupler.ratings.downward.quantity;
    let legs = trailer
        .axles
        .iter()
        .try_fold(coupler.clone(), |sum, axle| sum.plus(&axle.gawr.quantity));
    let Some(legs) = legs else { return };
    let gvwr = &trailer.gvwr.quantity;
    if legs.compare(gvwr) == Some(Ordering::Less) {
        part.tell(
            "gvwr",
            format!(
                "the trailer may weigh {gvwr}, but its axles and its coupler may carry only {} \
                 together, and it stands on nothing else",
                legs.in_unit(gvwr.unit).unwrap_or(legs)
            ),
            "read the trailer's plate, the axles' tags and the coupler's stamp again",
        );
    }
}
