//! # What an inch of ball height does

use crate::mechanics::attitude::statics::Gives;
use crate::mechanics::attitude::tilt::{Spring, shared};
use crate::mechanics::{NoNumber, Page, Ranges, Springing, Trailer, Truck, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure ball_height_sensitivity` tells of it.
pub const PAGE: Page = Page {
    name: "ball_height_sensitivity",
    title: "What an inch of ball height does",
    situation: "Lifting the ball tips the trailer about its axles. On torsion axles that moves \
                load from the front axle to the rear one and to the ball; an equalizer lets it \
                move none.",
    formula: "dt/dz = sum k_i x_i / sum k_i x_i^2; dN_i/dz = k_i (x_i dt/dz - 1); \
              dF/dz = - sum dN_i/dz; for an inch of drawbar, all of it by 1 / (1 + cF dF/dz)",
    symbols: &[
        ("z", "height of the ball, in"),
        ("t", "pitch of the trailer, nose up, rad"),
        (
            "k_i, x_i",
            "an axle's rate with tires, lb/in, and its place behind the ball, in",
        ),
        ("N_i, F", "load of an axle and push on the ball, lb"),
        ("cF", "how far the truck's ball gives to a push, in/lb"),
    ],
    holds: "every axle on the road, and an equalizer off its stops",
    assumes: "Linear springs; small pitch.",
    never: "Over many inches: past the height at which an axle leaves the road it is wrong.",
    source: "statics of bodies on springs, any textbook; checked against an independent model",
};

/// A trailer, and the truck that carries its ball where that is asked too.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BallHeight {
    /// The trailer.
    pub trailer: Trailer,
    /// The truck; without it nothing is said of the drawbar.
    #[serde(default)]
    pub truck: Option<Truck>,
}

/// What an inch does.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Sensitivity {
    /// Change of each axle's load with the ball an inch higher, lb.
    pub daxle_per_ball_in_lb: Vec<f64>,
    /// Change of the tongue weight, lb.
    pub dtongue_per_ball_in_lb: f64,
    /// Change of the pitch, nose up, deg.
    pub dpitch_per_ball_in_deg: f64,
    /// How far the ball comes up with a drawbar an inch higher, in.
    pub ball_in_per_drawbar_in: Option<f64>,
    /// Change of each axle's load with the drawbar an inch higher, lb.
    pub daxle_per_drawbar_in_lb: Option<Vec<f64>>,
    /// Change of the tongue weight with the drawbar an inch higher, lb.
    pub dtongue_per_drawbar_in_lb: Option<f64>,
}

/// How loads and pitch change with the height of the ball.
///
/// # Errors
/// [`NoNumber`] when a number is out of range.
pub fn ball_height_sensitivity(inputs: &BallHeight) -> Result<Sensitivity, NoNumber> {
    let mut ranges = Ranges::new();
    inputs.trailer.look(&mut ranges);
    if let Some(truck) = &inputs.truck {
        truck.look(&mut ranges);
    }
    ranges.checked()?;
    let springs = bearing(&inputs.trailer);
    let sum = |part: fn(&Spring) -> f64| springs.iter().map(part).sum::<f64>();
    let turns =
        sum(|one| one.rate * one.place_in) / sum(|one| one.rate * one.place_in * one.place_in);
    let shares = inputs.trailer.suspension == Springing::Equalized || springs.len() == 1;
    let change = |one: &Spring| {
        let presses = one.rate * (one.place_in * turns - 1.0);
        finite(
            "the change of an axle's load",
            if shares { 0.0 } else { presses },
        )
    };
    let axles = springs
        .iter()
        .map(change)
        .collect::<Result<Vec<f64>, _>>()?;
    let push = 0.0 - axles.iter().sum::<f64>();
    let pitch = finite("the change of pitch", turns.to_degrees())?;
    let follows = inputs.truck.as_ref().map(|truck| {
        let gives = Gives::of(truck).push_in_lb;
        finite("the ball's rise", 1.0 / (1.0 + gives * push))
    });
    let follows = follows.transpose()?;
    Ok(Sensitivity {
        dtongue_per_ball_in_lb: finite("the change of tongue weight", push)?,
        dpitch_per_ball_in_deg: pitch,
        ball_in_per_drawbar_in: follows,
        daxle_per_drawbar_in_lb: follows.map(|by| axles.iter().map(|axle| axle * by).collect()),
        dtongue_per_drawbar_in_lb: follows.map(|by| push * by),
        daxle_per_ball_in_lb: axles,
    })
}

/// The springs a small tilt works against.
fn bearing(trailer: &Trailer) -> Vec<Spring> {
    let springs = trailer.springs();
    match trailer.suspension {
        Springing::Torsion => springs,
        Springing::Equalized => shared(&springs),
    }
}
