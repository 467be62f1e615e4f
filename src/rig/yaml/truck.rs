//! The truck's part of the rig file.

use crate::document::Read;
use crate::rig::yaml::part::{Part, exceeds};
use crate::rig::{AxleLoads, Given, HitchKind, Truck, TruckSprings, TruckTires};
use crate::units::Dimension::{Length, Mass, Pressure, SpringRate};
use crate::units::{Dimension, Quantity};

pub(super) const KEYS: &[&str] = &[
    "name",
    "gvwr",
    "gawr-front",
    "gawr-rear",
    "gcwr",
    "payload",
    "wheelbase",
    "ball-behind-rear-axle",
    "tires",
    "weighed",
    "springs",
    "middle-height",
];

/// The keys of what is told of either axle.
const AXLES: &[&str] = &["front", "rear"];

#[expect(
    clippy::similar_names,
    reason = "gvwr and gcwr are the trade's own words"
)]
/// The truck. Of the hitch it matters of which kind it is, where that is known.
pub(super) fn truck(part: Part<'_>, kind: Option<HitchKind>) -> Read<Truck> {
    let name = part.words("name");
    let gvwr = part.positive("gvwr", Mass);
    let gawr_front = part.positive("gawr-front", Mass);
    let gawr_rear = part.positive("gawr-rear", Mass);
    let gcwr = part.positive("gcwr", Mass);
    let payload = part.positive("payload", Mass);
    let wheelbase = part.positive("wheelbase", Length);
    let ball_behind_rear_axle = part.given("ball-behind-rear-axle", Length);
    let tires = part
        .part("tires", &["size", "front-cold", "rear-cold"])
        .and_then(tires);
    let weighed = both_axles(part, "weighed", Mass);
    let springs = both_axles(part, "springs", SpringRate);
    let middle_height = part.positive_if_any("middle-height", Length);
    if let (Ok(reach), Some(kind)) = (&ball_behind_rear_axle, kind) {
        ball_lies_where_the_joint_puts_it(part, &reach.quantity, kind);
    }
    if exceeds(&gvwr, &sum(&gawr_front, &gawr_rear)) {
        part.tell(
            "gvwr",
            "the truck may weigh more than its two axles together may carry, and it stands on \
             nothing else",
            "read the label on the driver's door post again",
        );
    }
    if exceeds(&gvwr, &gcwr) {
        part.tell(
            "gcwr",
            "truck and trailer together may weigh less than the truck alone",
            "read the towing pages of the manual again; this is the combined rating",
        );
    }
    if exceeds(&payload, &gvwr) {
        part.tell(
            "payload",
            "the truck may carry more than it may weigh",
            "read the tire label again; payload is what may be added to the empty truck",
        );
    }
    Ok(Truck {
        name: name?,
        gvwr: gvwr?,
        gawr_front: gawr_front?,
        gawr_rear: gawr_rear?,
        gcwr: gcwr?,
        payload: payload?,
        wheelbase: wheelbase?,
        ball_behind_rear_axle: ball_behind_rear_axle?,
        tires: tires?,
        weighed: weighed?.map(|(front, rear)| AxleLoads { front, rear }),
        springs: springs?.map(|(front, rear)| TruckSprings { front, rear }),
        middle_height: middle_height?,
    })
}

/// What is told of the front axle and of the rear one, where it is.
fn both_axles(part: Part<'_>, key: &str, dimension: Dimension) -> Read<Option<(Given, Given)>> {
    part.part_if_any(key, AXLES)
        .map(|axles| {
            let axles = axles?;
            let front = axles.positive("front", dimension);
            let rear = axles.positive("rear", dimension);
            Ok((front?, rear?))
        })
        .transpose()
}

fn tires(part: Part<'_>) -> Read<TruckTires> {
    let size = part.words("size");
    let front_cold = part.positive("front-cold", Pressure);
    let rear_cold = part.positive("rear-cold", Pressure);
    Ok(TruckTires {
        size: size?,
        front_cold: front_cold?,
        rear_cold: rear_cold?,
    })
}

/// The sum of two values with the first one's evidence, to compare with.
fn sum(front: &Read<Given>, rear: &Read<Given>) -> Read<Given> {
    let (mut sum, rear) = (front.clone()?, rear.clone()?);
    if let Some(both) = sum.quantity.plus(&rear.quantity) {
        sum.quantity = both;
    }
    Ok(sum)
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
