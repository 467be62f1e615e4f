//! # The pull of braked wheels

use crate::mechanics::attitude::{Footing, sprung};
use crate::mechanics::braking::PerAxle;
use crate::mechanics::braking::braked::Braked;
use crate::mechanics::braking::rig::look_at_grip;
use crate::mechanics::load::weighed;
use crate::mechanics::root::zero;
use crate::mechanics::{NoNumber, Page, Ranges, Trailer, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure pull_test` tells of it.
pub const PAGE: Page = Page {
    name: "pull_test",
    title: "The pull of braked wheels",
    situation: "The truck pulls slowly, on the level, against a trailer whose brakes are full on. \
                What holds back is the brakes where the tires grip, and the tires where the \
                brakes are stronger; the pull itself lightens the axles a little.",
    formula: "P = sum min(B_i + f N_i, mu N_i); sum N_i x_i = W x - P h_c",
    symbols: &[
        ("P", "pull at the coupler, lb"),
        ("B_i", "most brake force of an axle, lb"),
        (
            "N_i, x_i",
            "load of an axle, lb, and its place behind the ball, in",
        ),
        (
            "f",
            "rolling resistance of the load: about 0.01 on asphalt, from memory; 0 when not given",
        ),
        ("mu", "grip of tire on road"),
        (
            "W, x",
            "weight of the loaded trailer, lb, and its centre of gravity behind the ball, in",
        ),
        ("h_c", "height of the ball, in"),
    ],
    holds: "mu more than 0 and up to 1.5; f from 0 to 0.2",
    assumes: "Level ground, steady walking pace, ball held at its height.",
    never: "As proof of a brake's condition: heat and water change it within minutes.",
    source: "statics, any textbook; checked against an independent model",
};

/// A trailer pulled against its brakes.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PulledTrailer {
    /// The trailer.
    pub trailer: Trailer,
    /// Height of the ball, in; the level coupler's where nothing is said.
    #[serde(default)]
    pub ball_height_in: Option<f64>,
    /// Most brake force of an axle at the road, lb: one number, or one for each.
    pub brake_force_max_per_axle_lb: PerAxle,
    /// Grip of tire on road.
    #[serde(alias = "mu")]
    pub mu_tire: f64,
    /// Rolling resistance of the load.
    #[serde(default)]
    pub rolling_coeff: f64,
    /// Height of a torsion arm's pivot over the arm's length; before the trailer's own.
    #[serde(default, alias = "q", alias = "torsion_q", alias = "arm_q")]
    pub pivot_over_arm: Option<f64>,
}

/// What holds a pulled trailer back.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Pull {
    /// Pull at the coupler, lb.
    pub pull_lb: f64,
    /// Load of each axle, lb.
    pub axle_lb: Vec<f64>,
    /// What each axle's part ends at.
    pub limited_by: Vec<HeldBy>,
    /// Pull of the trailer's weight, %.
    pub pull_pct_of_gross: f64,
}

/// What a braked axle's force ends at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum HeldBy {
    /// The brakes: the wheels turn.
    BrakeTorque,
    /// The tires' grip: the wheels slide.
    TireGrip,
}

/// Forces balance when they differ by less than this share of the weight.
const SMALL: f64 = 1e-12;

/// The pull that a trailer with its brakes on holds against.
///
/// # Errors
/// [`NoNumber`] when a number is out of range or leaf springs are not described.
pub fn pull_test(inputs: &PulledTrailer) -> Result<Pull, NoNumber> {
    let trailer = &inputs.trailer;
    let ball_in = inputs
        .ball_height_in
        .unwrap_or(trailer.level_coupler_height_in);
    let mut ranges = Ranges::new();
    trailer.look(&mut ranges);
    ranges.positive("ball_height_in", ball_in).within(
        "rolling_coeff",
        inputs.rolling_coeff,
        0.0,
        0.2,
    );
    let most = &inputs.brake_force_max_per_axle_lb;
    most.look("brake_force_max_per_axle_lb", trailer, &mut ranges);
    look_at_grip("mu_tire", inputs.mu_tire, &mut ranges);
    ranges.checked()?;
    let mass = weighed(&trailer.items)?;
    let most = most.of(trailer.axles.len());
    let turning = |axle: usize, load: f64| {
        most.get(axle)
            .map_or(0.0, |most| most + inputs.rolling_coeff * load)
    };
    let footing = Footing::Held { height_in: ball_in };
    let stand = sprung(trailer, mass.weight_lb, 0.0, footing);
    let braked = Braked::new(trailer, stand, inputs.pivot_over_arm)?;
    let at = |pull: f64| {
        let moment = mass.weight_lb * mass.x_cg_in - pull * ball_in;
        braked.settled(moment, |axle, load| {
            turning(axle, load).min(inputs.mu_tire * load)
        })
    };
    let most_pull = inputs.mu_tire * mass.weight_lb * mass.x_cg_in / shortest(trailer);
    let pull_lb = zero(0.0, most_pull, SMALL * mass.weight_lb, |pull| {
        Ok(at(pull)?.forces_lb.iter().sum::<f64>() - pull)
    })?;
    let pulled = at(pull_lb)?;
    let axles = pulled.rest.axle_lb.iter().enumerate();
    Ok(Pull {
        pull_lb,
        limited_by: axles
            .map(|(axle, load)| {
                if inputs.mu_tire * load < turning(axle, *load) {
                    HeldBy::TireGrip
                } else {
                    HeldBy::BrakeTorque
                }
            })
            .collect(),
        pull_pct_of_gross: finite("the pull's share", 100.0 * pull_lb / mass.weight_lb)?,
        axle_lb: pulled.rest.axle_lb,
    })
}

/// Place of the axle nearest the ball, in: no load on the axles is more than the weight's moment
/// over it.
fn shortest(trailer: &Trailer) -> f64 {
    let places = trailer.axle_places();
    places.into_iter().fold(f64::INFINITY, f64::min)
}
