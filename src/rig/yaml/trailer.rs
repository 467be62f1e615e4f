//! The trailer's part of the rig file.

use crate::document::{Node, Read};
use crate::rig::yaml::part::{Part, exceeds};
use crate::rig::yaml::{axle, tire};
use crate::rig::{Axle, Equalizer, Hitch, Position, Stall, Suspension, Trailer};
use crate::units::Dimension::{Length, Mass};
use crate::units::Quantity;
use std::cmp::Ordering;

pub(super) const KEYS: &[&str] = &[
    "name",
    "gvwr",
    "empty",
    "empty-middle",
    "level-coupler-height",
    "level-axle-load",
    "frame-base",
    "axles",
    "equalizer",
    "spare",
    "stalls",
];

/// The trailer. What its coupler may carry stands with the hitch, where that could be read.
pub(super) fn trailer(
    part: Part<'_>,
    stalls: Read<Vec<Stall>>,
    hitch: Option<&Hitch>,
) -> Read<Trailer> {
    let name = part.words("name");
    let gvwr = part.positive("gvwr", Mass);
    let empty = part.positive("empty", Mass);
    let empty_middle = part.position_if_any("empty-middle");
    let level_coupler_height = part.positive("level-coupler-height", Length);
    let level_axle_load = part.positive_if_any("level-axle-load", Mass);
    let frame_base = part.positive("frame-base", Length);
    let axles = part.required("axles").and_then(axle::axles);
    let equalizer = equalizer(part, axles.as_deref().ok());
    let spare = part.optional("spare").map(tire::tire).transpose();
    if exceeds(&empty, &gvwr) {
        part.tell(
            "empty",
            "the empty trailer weighs more than it may weigh loaded",
            "read the plate again; a scale ticket of the empty trailer settles it",
        );
    }
    if let (Ok(gvwr), Ok(axles), Some(hitch)) = (&gvwr, &axles, hitch) {
        it_has_legs_for_its_rating(part, &gvwr.quantity, axles, hitch);
    }
    if let (Ok(Some(middle)), Ok(axles)) = (&empty_middle, &axles) {
        middle_lies_between_its_legs(part, middle, axles);
    }
    Ok(Trailer {
        name: name?,
        gvwr: gvwr?,
        empty: empty?,
        empty_middle: empty_middle?,
        level_coupler_height: level_coupler_height?,
        level_axle_load: level_axle_load?,
        frame_base: frame_base?,
        axles: axles?,
        equalizer: equalizer?,
        spare: spare?,
        stalls: stalls?,
    })
}

/// The places for horses. The load refers to them by their ids.
pub(super) fn stalls(part: Part<'_>) -> Read<Vec<Stall>> {
    let Some(list) = part.optional("stalls") else {
        return Ok(Vec::new());
    };
    let mut seen: Vec<&str> = Vec::new();
    list.each(|node| {
        let part = Part::open(node, &["id", "name", "at"])?;
        let id = part.required("id").and_then(Node::id);
        if id.is_ok_and(|id| seen.contains(&id)) {
            part.tell(
                "id",
                "two stalls have this id, and the load refers to a stall by it",
                "give each stall an id of its own",
            );
        }
        seen.extend(id.ok());
        let name = part.words("name");
        let at = part.position("at");
        Ok(Stall {
            id: id?.to_owned(),
            name: name?,
            at: at?,
        })
    })
}

/// Only leaf springs of several axles are joined by an equalizer.
fn equalizer(part: Part<'_>, axles: Option<&[Axle]>) -> Read<Option<Equalizer>> {
    let Some(own) = part.part_if_any("equalizer", &["travel", "eye-height", "half-spring"]) else {
        return Ok(None);
    };
    let independent = |axle: &Axle| axle.suspension != Suspension::EqualizedLeaf;
    match axles {
        Some([_]) => part.tell(
            "equalizer",
            "an equalizer joins the springs of several axles, and this trailer has one",
            "take `equalizer` out",
        ),
        Some(axles) if axles.iter().any(independent) => part.tell(
            "equalizer",
            "an equalizer joins leaf springs, and an axle here has torsion arms",
            "take `equalizer` out, or write `suspension: equalized-leaf` for every axle it joins",
        ),
        Some(_) | None => {}
    }
    let own = own?;
    let travel = own.positive_if_any("travel", Length);
    let eye_height = own.positive("eye-height", Length);
    let half_spring = own.positive("half-spring", Length);
    Ok(Some(Equalizer {
        travel: travel?,
        eye_height: eye_height?,
        half_spring: half_spring?,
    }))
}

/// An empty trailer that stands on its coupler and its wheels has its middle between the two.
fn middle_lies_between_its_legs(part: Part<'_>, middle: &Position, axles: &[Axle]) {
    let behind = &middle.behind.quantity;
    let last = axles.last().map(|axle| &axle.behind_ball.quantity);
    let fix = "measure rearward from the ball, or work it out from what the empty trailer weighs \
               on its coupler and on its wheels";
    if behind.value.is_negative() || behind.value.is_zero() {
        part.tell(
            "empty-middle",
            "the empty trailer's middle does not lie behind the ball, so its wheels would carry \
             nothing",
            fix,
        );
    } else if last.and_then(|last| behind.compare(last)) == Some(Ordering::Greater) {
        part.tell(
            "empty-middle",
            "the empty trailer's middle lies behind its last axle, so it would tip onto its tail",
            fix,
        );
    }
}

/// A trailer stands on its axles and its coupler and on nothing else.
fn it_has_legs_for_its_rating(part: Part<'_>, gvwr: &Quantity, axles: &[Axle], hitch: &Hitch) {
    let coupler = &hitch.coupler.ratings.downward.quantity;
    let legs = axles
        .iter()
        .try_fold(coupler.clone(), |sum, axle| sum.plus(&axle.gawr.quantity));
    let Some(legs) = legs else { return };
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
