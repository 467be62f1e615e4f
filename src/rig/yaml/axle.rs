//! The axles of the trailer in the rig file.

use crate::document::{Node, Read};
use crate::rig::yaml::part::Part;
use crate::rig::yaml::{tire, wheel};
use crate::rig::{Axle, Brake, Spring, Suspension, Tire};
use crate::units::Dimension::{Angle, Current, Length, Mass, SpringRate, Torque};
use crate::units::{Exact, Quantity, Unit};
use std::cmp::Ordering;

const KEYS: &[&str] = &[
    "gawr",
    "behind-ball",
    "track",
    "suspension",
    "spring",
    "brake",
    "tire",
    "fit",
    "wheel-off-at",
];

/// Axles a trailer here may have.
const MOST_AXLES: usize = 3;

/// An arm straight up or down is no arm to twist.
const STRAIGHT_DOWN: i64 = 90;

pub(super) fn axles(node: Node<'_>) -> Read<Vec<Axle>> {
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
    let part = Part::open(node, KEYS)?;
    let gawr = part.positive("gawr", Mass);
    let behind_ball = part.positive("behind-ball", Length);
    let track = part.positive("track", Length);
    let suspension = part.choice("suspension", &Suspension::WORDS);
    let spring = part.optional("spring").map(spring).transpose();
    let brake = part.optional("brake").map(brake).transpose();
    let tire = part.required("tire").and_then(tire::tire);
    let fit = part.part("fit", wheel::FIT_KEYS).and_then(wheel::fit);
    let wheel_off_at = part.positive_if_any("wheel-off-at", Length);
    if let (Ok(Suspension::EqualizedLeaf), Ok(Some(Spring::Arm { .. }))) = (&suspension, &spring) {
        part.tell(
            "spring",
            "an arm belongs to a torsion axle, and this one stands on leaf springs",
            "say how far it gives as `spring: { rate: … }`, or take `spring` out",
        );
    }
    if let (Ok(gawr), Ok(tire)) = (&gawr, &tire) {
        tires_carry_the_axle(part, &gawr.quantity, tire);
    }
    Ok(Axle {
        gawr: gawr?,
        behind_ball: behind_ball?,
        track: track?,
        suspension: suspension?,
        spring: spring?,
        brake: brake?,
        tire: tire?,
        fit: fit?,
        wheel_off_at: wheel_off_at?,
    })
}

/// The two ways to say how far an axle gives.
#[derive(Clone, Copy)]
enum Way {
    Rate,
    Arm,
}

fn spring(node: Node<'_>) -> Read<Spring> {
    let part = Part::open(node, &["rate", "arm", "start-angle", "pivot-height"])?;
    match part
        .only_one_of(&[("rate", Way::Rate), ("arm", Way::Arm)])?
        .0
    {
        Way::Rate => {
            for key in ["start-angle", "pivot-height"] {
                if part.optional(key).is_some() {
                    part.tell(
                        key,
                        "this belongs to an arm, and the spring is told by its rate",
                        format!("take `{key}` out, or write `arm` in place of `rate`"),
                    );
                }
            }
            part.positive("rate", SpringRate).map(Spring::Rate)
        }
        Way::Arm => arm(part),
    }
}

fn arm(part: Part<'_>) -> Read<Spring> {
    let length = part.positive("arm", Length);
    let start_angle = part.given("start-angle", Angle);
    let pivot_height = part.positive_if_any("pivot-height", Length);
    if let Ok(angle) = &start_angle {
        let most = Quantity::whole(STRAIGHT_DOWN, Unit::Degree);
        let size = Quantity::new(angle.quantity.value.magnitude(), angle.quantity.unit);
        if size.compare(&most) != Some(Ordering::Less) {
            part.tell(
                "start-angle",
                format!(
                    "an arm at {} from level cannot twist the rubber",
                    angle.quantity
                ),
                "read the axle's data sheet again: 22.5 deg down from level is written 22.5 deg",
            );
        }
    }
    Ok(Spring::Arm {
        length: length?,
        start_angle: start_angle?,
        pivot_height: pivot_height?,
    })
}

fn brake(node: Node<'_>) -> Read<Brake> {
    let part = Part::open(node, &["drum", "magnet-current", "torque"])?;
    let drum = part.positive("drum", Length);
    let magnet_current = part.positive("magnet-current", Current);
    let torque = part.positive_if_any("torque", Torque);
    Ok(Brake {
        drum: drum?,
        magnet_current: magnet_current?,
        torque: torque?,
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
