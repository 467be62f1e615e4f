//! The trailer's part of the rig file.

use crate::document::{Node, Read};
use crate::rig::yaml::part::{Part, exceeds};
use crate::rig::yaml::wheel;
use crate::rig::{Axle, Brake, Suspension, Tire, Trailer};
use crate::units::Dimension::{Current, Length, Mass};
use crate::units::{Exact, Quantity};
use std::cmp::Ordering;

pub(super) const KEYS: &[&str] = &[
    "name",
    "gvwr",
    "empty",
    "level-coupler-height",
    "frame-base",
    "axles",
    "spare",
];

const AXLE_KEYS: &[&str] = &[
    "gawr",
    "behind-ball",
    "track",
    "suspension",
    "brake",
    "tire",
    "fit",
];

/// Axles a trailer here may have.
const MOST_AXLES: usize = 3;

pub(super) fn trailer(part: Part<'_>) -> Read<Trailer> {
    let name = part.words("name");
    let gvwr = part.positive("gvwr", Mass);
    let empty = part.positive("empty", Mass);
    let level_coupler_height = part.positive("level-coupler-height", Length);
    let frame_base = part.positive("frame-base", Length);
    let axles = part.required("axles").and_then(axles);
    let spare = part.optional("spare").map(wheel::tire).transpose();
    if exceeds(&empty, &gvwr) {
        part.tell(
            "empty",
            "the empty trailer weighs more than it may weigh loaded",
            "read the plate again; a scale ticket of the empty trailer settles it",
        );
    }
    Ok(Trailer {
        name: name?,
        gvwr: gvwr?,
        empty: empty?,
        level_coupler_height: level_coupler_height?,
        frame_base: frame_base?,
        axles: axles?,
        spare: spare?,
    })
}

fn axles(node: Node<'_>) -> Read<Vec<Axle>> {
    let count = node.list()?.len();
    if count == 0 || count > MOST_AXLES {
        node.fault(
            format!("a trailer has one to three axles, and {count} stand here"),
            "list each axle once, front to rear",
        );
    }
    let axles = node.each(axle)?;
    for (node, pair) in node.list()?.iter().skip(1).zip(axles.windows(2)) {
        let [front, rear] = pair else { continue };
        let order = rear
            .behind_ball
            .quantity
            .compare(&front.behind_ball.quantity);
        if order != Some(Ordering::Greater) {
            node.fault(
                format!(
                    "this axle stands {} behind the ball, and the one before it {}",
                    rear.behind_ball.quantity, front.behind_ball.quantity
                ),
                "list the axles front to rear, each measured from the ball",
            );
        }
    }
    Ok(axles)
}

fn axle(node: Node<'_>) -> Read<Axle> {
    let part = Part::open(node, AXLE_KEYS)?;
    let gawr = part.positive("gawr", Mass);
    let behind_ball = part.positive("behind-ball", Length);
    let track = part.positive("track", Length);
    let suspension = part.choice("suspension", &Suspension::WORDS);
    let brake = part.optional("brake").map(brake).transpose();
    let tire = part.required("tire").and_then(wheel::tire);
    let fit = part.part("fit", wheel::FIT_KEYS).and_then(wheel::fit);
    if let (Ok(gawr), Ok(tire)) = (&gawr, &tire) {
        tires_carry_the_axle(part, &gawr.quantity, tire);
    }
    Ok(Axle {
        gawr: gawr?,
        behind_ball: behind_ball?,
        track: track?,
        suspension: suspension?,
        brake: brake?,
        tire: tire?,
        fit: fit?,
    })
}

fn brake(node: Node<'_>) -> Read<Brake> {
    let part = Part::open(node, &["drum", "magnet-current"])?;
    let drum = part.positive("drum", Length);
    let magnet_current = part.positive("magnet-current", Current);
    Ok(Brake {
        drum: drum?,
        magnet_current: magnet_current?,
    })
}

/// The tires of an axle together carry at least its rating: 49 CFR 571.120 S5.1.2, from memory.
fn tires_carry_the_axle(part: Part<'_>, gawr: &Quantity, tire: &Tire) {
    let both = tire.max_load.quantity.times(&Exact::whole(2));
    if both.compare(gawr) == Some(Ordering::Less) {
        part.tell(
            "tire",
            format!("two tires of this kind carry {both}, and the axle is rated {gawr}"),
            "read the sidewall again; if it does say so, the trailer needs tires of a higher load range",
        );
    }
}
