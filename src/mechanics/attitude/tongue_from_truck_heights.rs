//! # Tongue weight from a tape on the truck

use crate::mechanics::constants::FOOT_IN;
use crate::mechanics::{NoNumber, Page, Ranges, Truck, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure tongue_from_truck_heights` tells of it.
pub const PAGE: Page = Page {
    name: "tongue_from_truck_heights",
    title: "Tongue weight from a tape on the truck",
    situation: "The truck's springs are a scale: how far each axle came down on coupling tells \
                what was put on it. The two together give the push on the ball, and the couple of \
                spring bars.",
    formula: "F = kf df + kr dr; M = kf df L + F e",
    symbols: &[
        (
            "df, dr",
            "how far the body came down over front and rear axle, in",
        ),
        ("kf, kr", "rate of front and rear axle with tires, lb/in"),
        ("L", "wheelbase, in"),
        ("e", "ball behind the rear axle, in"),
        ("F", "tongue weight, lb"),
        (
            "M",
            "couple of the spring bars, lb in; near nothing without bars",
        ),
    ],
    holds: "drops up to 12 in either way, heights taken over the axles before and after coupling",
    assumes: "Level ground, linear springs, nobody in or out between the two measurements. A \
              quarter inch at the rear axle is 130 lb on a half-ton truck.",
    never: "In place of a scale where there is one; a sticking spring moves it by a tenth.",
    source: "statics, any textbook: Hooke's law and moments about the rear axle; checked against \
             an independent model",
};

/// The truck, and how far it came down on coupling.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TruckHeights {
    /// The truck.
    pub truck: Truck,
    /// How far the body came down over the front axle, in; negative came up.
    pub front_drop_in: f64,
    /// How far the body came down over the rear axle, in.
    pub rear_drop_in: f64,
}

/// What pressed it down.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TongueByTape {
    /// Tongue weight, lb.
    pub tongue_lb: f64,
    /// Couple of the spring bars, lb ft.
    pub wd_moment_lbft: f64,
    /// What was put on the front axle, lb; negative was taken off.
    pub front_added_lb: f64,
    /// What was put on the rear axle, lb.
    pub rear_added_lb: f64,
}

/// Most a truck comes down or up on its springs, in.
const MOST_DROP_IN: f64 = 12.0;

/// Tongue weight and couple of spring bars from how far the truck came down.
///
/// # Errors
/// [`NoNumber`] when a number is out of range.
pub fn tongue_from_truck_heights(inputs: &TruckHeights) -> Result<TongueByTape, NoNumber> {
    let mut ranges = Ranges::new();
    let truck = &inputs.truck;
    truck.look(&mut ranges);
    for (what, drop) in [
        ("front_drop_in", inputs.front_drop_in),
        ("rear_drop_in", inputs.rear_drop_in),
    ] {
        ranges.within(what, drop, -MOST_DROP_IN, MOST_DROP_IN);
    }
    ranges.checked()?;
    let front = truck.front_rate_lb_in * inputs.front_drop_in;
    let rear = truck.rear_rate_lb_in * inputs.rear_drop_in;
    let push = finite("the tongue weight", front + rear)?;
    let couple = front * truck.wheelbase_in + push * truck.ball_behind_rear_axle_in;
    Ok(TongueByTape {
        tongue_lb: push,
        wd_moment_lbft: finite("the couple of the spring bars", couple / FOOT_IN)?,
        front_added_lb: front,
        rear_added_lb: rear,
    })
}
