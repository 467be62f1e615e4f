//! # The truck before coupling

use crate::mechanics::{NoNumber, Page, Ranges, Truck, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure truck_uncoupled` tells of it.
pub const PAGE: Page = Page {
    name: "truck_uncoupled",
    title: "The truck before coupling",
    situation: "People, fuel and goods load the truck's axles by the lever rule. The springs give, \
                and the ball comes down or up with them before any trailer is there.",
    formula: "rear += w x / L; front += w (1 - x / L); the ball drops by \
              (1 + e/L) dN_rear / k_rear - (e/L) dN_front / k_front",
    symbols: &[
        (
            "w, x",
            "weight of one thing, lb, and its place behind the front axle, in",
        ),
        ("L", "wheelbase, in"),
        ("e", "ball behind the rear axle, in"),
        ("k", "rate of an axle with its tires, lb/in"),
    ],
    holds: "small pitch; springs off their bump stops",
    assumes: "Springs are linear about the load at which they were measured.",
    never: "For a truck with helper springs that come in later, unless the rate was found with the \
            truck loaded.",
    source: "statics, any textbook: lever rule and Hooke's law",
};

/// A truck alone.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TruckAlone {
    /// The truck.
    pub truck: Truck,
}

/// What a truck carries, and where its ball is, before coupling.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Uncoupled {
    /// Load of the front axle, lb.
    pub front_lb: f64,
    /// Load of the rear axle, lb.
    pub rear_lb: f64,
    /// Height of the ball's centre, in.
    pub ball_height_in: f64,
}

/// Axle loads and ball height of a truck with its payload, drawbar in.
///
/// # Errors
/// [`NoNumber`] when a number of the truck is out of range.
pub fn truck_uncoupled(inputs: &TruckAlone) -> Result<Uncoupled, NoNumber> {
    let mut ranges = Ranges::new();
    inputs.truck.look(&mut ranges);
    ranges.checked()?;
    before_coupling(&inputs.truck)
}

/// The same of a truck whose numbers were looked at.
pub(crate) fn before_coupling(truck: &Truck) -> Result<Uncoupled, NoNumber> {
    let base = truck.wheelbase_in;
    let reach = truck.ball_behind_rear_axle_in;
    let (mut front, mut rear) = (0.0, 0.0);
    for item in &truck.payload {
        rear += item.weight_lb * item.x_in / base;
        front += item.weight_lb * (1.0 - item.x_in / base);
    }
    let sinks = (1.0 + reach / base) * rear / truck.rear_rate_lb_in
        - reach / base * front / truck.front_rate_lb_in;
    let front_lb = finite("the front axle's load", truck.front_lb + front)?;
    let rear_lb = finite("the rear axle's load", truck.rear_lb + rear)?;
    if front_lb < 0.0 || rear_lb < 0.0 {
        return Err(NoNumber::because(
            "An axle of the truck would leave the road. Look at the payload's weights and places \
             again.",
        ));
    }
    Ok(Uncoupled {
        front_lb,
        rear_lb,
        ball_height_in: finite(
            "the ball's height",
            truck.ball_height_in + truck.drawbar_rise_in - sinks,
        )?,
    })
}
