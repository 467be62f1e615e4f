//! # A rig while it slows down

use crate::mechanics::attitude::{StaticRig, StaticSolution};
use crate::mechanics::braking::rig::{Brakes, MOST_DECEL_G, Slowing};
use crate::mechanics::{NoNumber, Page, Ranges};
use serde::{Deserialize, Serialize};

/// What `hames figure brake_state` tells of it.
pub const PAGE: Page = Page {
    name: "brake_state",
    title: "A rig while it slows down",
    situation: "Slowing down presses the rig's weight forward: axles far back get lighter, the \
                ball and the truck's front axle heavier. Each trailer axle asks for grip by its \
                brake force over its load; the one asking for most is the next to slide.",
    formula: "B = gain W D / n on each braked axle; P = W D - sum B; \
              sum N_i x_i = W x - W D h + P h_c + M; the truck feels a couple \
              W_t D h_t + P h_c, nose down; torsion arms carry q B less, leaf-sprung axles on an \
              equalizer carry H (B_i + B_next) / l more than the axle ahead; \
              grip asked for = B / N_i",
    symbols: &[
        ("D", "deceleration, of gravity"),
        (
            "gain",
            "part of its own stopping the trailer does: 1 is all, 0 none",
        ),
        (
            "W, x, h",
            "weight of the loaded trailer, lb, and its centre of gravity behind the ball \
                     and above the ground, in",
        ),
        (
            "W_t, h_t",
            "weight of the truck before coupling, lb, and its centre's height, in",
        ),
        ("n", "braked axles"),
        ("B, N_i", "brake force and load of an axle, lb"),
        ("P", "push of the coupler on the truck, lb"),
        ("h_c", "height of the ball, coupled and at rest, in"),
        ("M", "couple of spring bars, lb in"),
        (
            "q",
            "height of a torsion arm's pivot over the arm's length; 0 when not given",
        ),
        (
            "H, l",
            "height of the spring eyes and half of one leaf spring, in",
        ),
    ],
    holds: "deceleration from 0 to 1.5 of gravity; gain from 0 to 2; q from 0 to 5",
    assumes: "Level road, steady deceleration, no dip or bump, springs as at rest. A truck whose \
              centre is not given has it at 28 in. The load that an equalizer passes on is an \
              upper estimate: real slipper ends and friction pass on less.",
    never: "As a promise of how hard a rig can be braked, or on a slope.",
    source: "statics of a body slowing down, any textbook of vehicle dynamics; load passed between \
             leaf axles in braking: SAE paper 852344 (Pierce 1985), abstract; checked against an \
             independent model",
};

/// A rig and how it slows down.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SlowingRig {
    /// Truck, trailer and the couple of the spring bars.
    #[serde(flatten)]
    pub rig: StaticRig,
    /// How it is braked.
    #[serde(flatten)]
    pub brakes: Brakes,
    /// Deceleration, of gravity.
    pub decel_g: f64,
}

/// How the rig stands while it slows down.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BrakeState {
    /// Loads, heights and pitches; nothing is said of a level trailer.
    #[serde(flatten)]
    pub standing: StaticSolution,
    /// Brake force of each axle, lb.
    pub brake_per_axle_lb: Vec<f64>,
    /// Grip each axle asks for; nothing of an axle off the road.
    pub mu_used: Vec<Option<f64>>,
    /// Push of the coupler on the truck, lb; a pull where negative.
    pub coupler_push_lb: f64,
}

/// How a rig stands at one steady deceleration.
///
/// # Errors
/// [`NoNumber`] when a number is out of range, leaf springs are not described, or no axle would
/// stay on the road.
pub fn brake_state(inputs: &SlowingRig) -> Result<BrakeState, NoNumber> {
    let mut ranges = Ranges::new();
    ranges.within("decel_g", inputs.decel_g, 0.0, MOST_DECEL_G);
    inputs.brakes.look(&inputs.rig, &mut ranges);
    ranges.checked()?;
    let slowing = inputs.brakes.on(&inputs.rig)?.at(inputs.decel_g)?;
    let standing = slowing.statics.told(&slowing.rest, slowing.status)?;
    Ok(BrakeState {
        standing: StaticSolution {
            drawbar_change_for_level_in: None,
            ball_height_for_level_in: None,
            ..standing
        },
        mu_used: grip_asked_for(&slowing),
        coupler_push_lb: slowing.coupler_push_lb,
        brake_per_axle_lb: slowing.brake_lb,
    })
}

/// Brake force over load, axle by axle.
fn grip_asked_for(slowing: &Slowing<'_>) -> Vec<Option<f64>> {
    let axles = slowing.brake_lb.iter().zip(&slowing.rest.axle_lb);
    axles
        .map(|(brake, load)| Some(brake / load).filter(|asked| *load > 0.0 && asked.is_finite()))
        .collect()
}
