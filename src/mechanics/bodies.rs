//! Truck and trailer as bodies on springs: what the formulas of attitude and braking are given.
//!
//! Lengths on the truck run rearward from its front axle, on the trailer rearward from the ball;
//! heights run up from the ground, and sideways is positive to the right. An axle's rate is that
//! of both its sides together with its tires.

use crate::mechanics::Ranges;
use crate::mechanics::attitude::Spring;
use serde::{Deserialize, Serialize};

/// Something with a weight and a place.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Item {
    /// Weight, lb.
    pub weight_lb: f64,
    /// Rearward, in.
    pub x_in: f64,
    /// Above the ground, in.
    #[serde(default)]
    pub z_in: f64,
    /// To the right, in.
    #[serde(default)]
    pub y_in: f64,
}

/// A truck before any trailer is coupled to it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Truck {
    /// What people call it.
    #[serde(default)]
    pub name: String,
    /// Front axle to rear axle, in.
    pub wheelbase_in: f64,
    /// Load of the front axle, payload not counted, lb.
    pub front_lb: f64,
    /// Load of the rear axle, payload not counted, lb.
    pub rear_lb: f64,
    /// Rate of the front axle, lb/in.
    pub front_rate_lb_in: f64,
    /// Rate of the rear axle, lb/in.
    pub rear_rate_lb_in: f64,
    /// Ball behind the rear axle, in; negative when ahead of it.
    pub ball_behind_rear_axle_in: f64,
    /// Height of the ball without payload, with a drawbar of no rise, in.
    pub ball_height_in: f64,
    /// How far the drawbar lifts the ball; negative is a drop, in.
    #[serde(default)]
    pub drawbar_rise_in: f64,
    /// People, fuel and goods not in the axle loads, `x_in` from the front axle.
    #[serde(default)]
    pub payload: Vec<Item>,
    /// Height of its centre of gravity, in; needed for braking alone.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cg_height_in: Option<f64>,
}

/// How the axles of a trailer are sprung.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Springing {
    /// Independent torsion arms.
    Torsion,
    /// Leaf springs with an equalizer between them.
    Equalized,
}

/// One axle of a trailer.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Axle {
    /// Behind the ball, in.
    pub x_in: f64,
    /// Rate with tires, lb/in.
    pub rate_lb_in: f64,
    /// How much lower than the others it is mounted, in.
    #[serde(default, alias = "offset_in", alias = "mount_in")]
    pub mount_offset_in: f64,
}

/// A trailer with its load.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Trailer {
    /// What people call it.
    #[serde(default)]
    pub name: String,
    /// How it is sprung.
    pub suspension: Springing,
    /// Height of the coupler when the frame is level and each axle carries the reference load, in.
    pub level_coupler_height_in: f64,
    /// That reference load of each axle, lb.
    pub ref_axle_load_lb: f64,
    /// Axles front to rear, one to three.
    pub axles: Vec<Axle>,
    /// The empty trailer and everything in it, `x_in` from the ball.
    pub items: Vec<Item>,
    /// How far one end of the equalizer moves before it meets its stop, in.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub equalizer_travel_in: Option<f64>,
    /// Height of the spring eyes above the ground, in; leaf springs, braking.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub eye_height_in: Option<f64>,
    /// Half the length of one leaf spring, in; leaf springs, braking.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub half_spring_in: Option<f64>,
    /// Height of the arm's pivot over the arm's length; trailing torsion arms, braking.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pivot_over_arm: Option<f64>,
}

/// Weight and centre of gravity of several things together.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct MassProperties {
    /// Weight, lb.
    pub weight_lb: f64,
    /// Centre, rearward, in.
    pub x_cg_in: f64,
    /// Centre, above the ground, in.
    pub z_cg_in: f64,
    /// Centre, to the right, in.
    pub y_cg_in: f64,
}

impl Truck {
    /// Looks at every number.
    pub(crate) fn look(&self, ranges: &mut Ranges) {
        ranges
            .positive("truck.wheelbase_in", self.wheelbase_in)
            .not_negative("truck.front_lb", self.front_lb)
            .not_negative("truck.rear_lb", self.rear_lb)
            .positive("truck.front_rate_lb_in", self.front_rate_lb_in)
            .positive("truck.rear_rate_lb_in", self.rear_rate_lb_in)
            .finite(
                "truck.ball_behind_rear_axle_in",
                self.ball_behind_rear_axle_in,
            )
            .holds(
                self.ball_behind_rear_axle_in > -self.wheelbase_in,
                "truck.ball_behind_rear_axle_in",
                self.ball_behind_rear_axle_in,
                "a ball behind the front axle",
            )
            .positive("truck.ball_height_in", self.ball_height_in)
            .finite("truck.drawbar_rise_in", self.drawbar_rise_in);
        for item in &self.payload {
            ranges
                .not_negative("truck.payload.weight_lb", item.weight_lb)
                .finite("truck.payload.x_in", item.x_in);
        }
        if let Some(height) = self.cg_height_in {
            ranges.positive("truck.cg_height_in", height);
        }
    }
}

impl Trailer {
    /// Looks at every number.
    pub(crate) fn look(&self, ranges: &mut Ranges) {
        ranges
            .positive(
                "trailer.level_coupler_height_in",
                self.level_coupler_height_in,
            )
            .not_negative("trailer.ref_axle_load_lb", self.ref_axle_load_lb);
        look_at_axles(&self.axles, ranges);
        look_at_items("trailer.items", &self.items, ranges);
        for (what, given) in [
            ("trailer.equalizer_travel_in", self.equalizer_travel_in),
            ("trailer.eye_height_in", self.eye_height_in),
            ("trailer.half_spring_in", self.half_spring_in),
            ("trailer.pivot_over_arm", self.pivot_over_arm),
        ] {
            if let Some(given) = given {
                ranges.positive(what, given);
            }
        }
    }

    /// Each axle as its own spring.
    pub(crate) fn springs(&self) -> Vec<Spring> {
        let spring = |axle: &Axle| Spring {
            place_in: axle.x_in,
            rate: axle.rate_lb_in,
            free_height_in: self.free_height_in(axle),
        };
        self.axles.iter().map(spring).collect()
    }

    /// Distances of the axles behind the ball.
    pub(crate) fn axle_places(&self) -> Vec<f64> {
        self.axles.iter().map(|axle| axle.x_in).collect()
    }

    /// Height of the ball at which an axle, were it alone and the frame level, would carry
    /// nothing, for each axle.
    pub(crate) fn free_heights(&self) -> Vec<f64> {
        self.axles
            .iter()
            .map(|axle| self.free_height_in(axle))
            .collect()
    }

    fn free_height_in(&self, axle: &Axle) -> f64 {
        self.level_coupler_height_in
            + self.ref_axle_load_lb / axle.rate_lb_in
            + axle.mount_offset_in
    }
}

/// Looks at axles: one to three, front to rear, all behind the ball.
fn look_at_axles(axles: &[Axle], ranges: &mut Ranges) {
    let count = f64::from(u32::try_from(axles.len()).unwrap_or(u32::MAX));
    ranges.within("trailer.axles", count, 1.0, 3.0);
    for axle in axles {
        ranges
            .positive("trailer.axles.x_in", axle.x_in)
            .positive("trailer.axles.rate_lb_in", axle.rate_lb_in)
            .finite("trailer.axles.mount_offset_in", axle.mount_offset_in);
    }
    for pair in axles.windows(2) {
        if let [ahead, behind] = pair {
            ranges.holds(
                behind.x_in > ahead.x_in,
                "trailer.axles.x_in",
                behind.x_in,
                "more than the axle ahead of it",
            );
        }
    }
}

/// Looks at things with weights and places: at least one, and some weight.
pub(crate) fn look_at_items(what: &str, items: &[Item], ranges: &mut Ranges) {
    let total = items.iter().fold(0.0, |sum, item| sum + item.weight_lb);
    ranges.positive(&format!("{what}: weight together"), total);
    let [weight, x, y, z] =
        ["weight_lb", "x_in", "y_in", "z_in"].map(|one| format!("{what}.{one}"));
    for item in items {
        ranges
            .not_negative(&weight, item.weight_lb)
            .finite(&x, item.x_in)
            .finite(&y, item.y_in)
            .finite(&z, item.z_in);
    }
}
