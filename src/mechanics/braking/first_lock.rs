//! # Which trailer axle slides first

use crate::mechanics::attitude::StaticRig;
use crate::mechanics::braking::rig::{Brakes, MOST_DECEL_G, Slowing, look_at_grip};
use crate::mechanics::root::zero;
use crate::mechanics::{NoNumber, Page, Ranges};
use serde::{Deserialize, Serialize};

/// What `hames figure first_lock` tells of it.
pub const PAGE: Page = Page {
    name: "first_lock",
    title: "Which trailer axle slides first",
    situation: "All trailer brakes push alike, but the axles do not press alike: height of the \
                ball, torsion arms and equalizers load one more than the other. The lighter axle \
                stops turning first, and a sliding wheel neither steers nor stops well.",
    formula: "the smallest D at which B = mu N_i on any braked axle, B and N_i as of a rig while \
              it slows down; efficiency = D / mu",
    symbols: &[
        ("D", "deceleration, of gravity"),
        ("B, N_i", "brake force and load of an axle, lb"),
        (
            "mu",
            "grip of tire on road: about 0.8 dry, 0.5 wet, 0.2 snow, from memory",
        ),
        (
            "efficiency",
            "part of the road's grip in use when the first axle slides; 1 when all slide together",
        ),
    ],
    holds: "mu more than 0 and up to 1.5, up to a deceleration of 1.5 of gravity; gain from 0 to 2",
    assumes: "What a rig while it slows down assumes; the same brakes on every braked axle.",
    never: "As a deceleration that may be used; wheels slide earlier on bumps, grit and worn \
            tires.",
    source: "statics of a body slowing down, any textbook of vehicle dynamics; checked against an \
             independent model",
};

/// A rig and the road's grip.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RigOnRoad {
    /// Truck, trailer and the couple of the spring bars.
    #[serde(flatten)]
    pub rig: StaticRig,
    /// How it is braked.
    #[serde(flatten)]
    pub brakes: Brakes,
    /// Grip of tire on road.
    #[serde(alias = "mu_tire")]
    pub mu: f64,
}

/// The axle that slides first.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FirstLock {
    /// Which axle, 1 at the front.
    pub axle: u32,
    /// Deceleration at which it slides, of gravity.
    pub decel_g: f64,
    /// Part of the road's grip in use then.
    pub efficiency: f64,
    /// Load of each axle then, lb.
    pub axle_lb: Vec<f64>,
    /// Pitch of the trailer then, nose up, deg.
    pub trailer_pitch_deg: f64,
}

/// Steps in which the first slide is looked for.
const STEPS: u32 = 75;

/// Grip below this is none, lb.
const SMALL_LB: f64 = 1e-9;

/// Which axle slides first, and at what deceleration.
///
/// # Errors
/// [`NoNumber`] when a number is out of range, leaf springs are not described, or no axle slides
/// at any deceleration a road gives.
pub fn first_lock(inputs: &RigOnRoad) -> Result<FirstLock, NoNumber> {
    let mut ranges = Ranges::new();
    look_at_grip("mu", inputs.mu, &mut ranges);
    inputs.brakes.look(&inputs.rig, &mut ranges);
    ranges.checked()?;
    let ready = inputs.brakes.on(&inputs.rig)?;
    let mu = inputs.mu;
    // Without brakes that push back there is no end of grip.
    let left = |decel: f64| Ok(grip_left(&ready.at(decel)?, mu).unwrap_or(f64::MAX));
    let step = MOST_DECEL_G / f64::from(STEPS);
    let mut slides = None;
    for at in 1..=STEPS {
        let decel = step * f64::from(at);
        if left(decel)? < 0.0 {
            slides = Some(decel);
            break;
        }
    }
    let Some(slides) = slides else {
        return Err(NoNumber::because(format!(
            "No axle slides up to a deceleration of {MOST_DECEL_G} of gravity, which is more than \
             a road gives: with this gain the brakes are too weak to stop a wheel from turning."
        )));
    };
    let decel_g = zero(slides - step, slides, SMALL_LB, left)?;
    let then = ready.at(decel_g)?;
    Ok(FirstLock {
        axle: lightest(&then, inputs.mu),
        decel_g,
        efficiency: decel_g / inputs.mu,
        axle_lb: then.rest.axle_lb,
        trailer_pitch_deg: then.rest.pitch_rad.to_degrees(),
    })
}

/// What grip the axle with least of it has left, lb; nothing without a braked axle.
fn grip_left(slowing: &Slowing<'_>, mu: f64) -> Option<f64> {
    each_left(slowing, mu)
        .map(|(_, left)| left)
        .reduce(f64::min)
}

/// The axle with least grip left, 1 at the front; of equals the front one.
fn lightest(slowing: &Slowing<'_>, mu: f64) -> u32 {
    let least =
        each_left(slowing, mu).reduce(|least, next| if next.1 < least.1 { next } else { least });
    least.map_or(0, |(axle, _)| axle)
}

/// Each braked axle with the grip it has left, lb.
fn each_left<'s>(slowing: &'s Slowing<'_>, mu: f64) -> impl Iterator<Item = (u32, f64)> + 's {
    let axles = slowing.brake_lb.iter().zip(&slowing.rest.axle_lb);
    (1..)
        .zip(axles)
        .filter(|(_, (brake, _))| **brake > 0.0)
        .map(move |(axle, (brake, load))| (axle, mu * load - brake))
}
