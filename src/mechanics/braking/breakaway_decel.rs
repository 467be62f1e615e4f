//! # A trailer that broke loose

use crate::mechanics::attitude::{Footing, Status, sprung};
use crate::mechanics::braking::PerAxle;
use crate::mechanics::braking::braked::{Braked, Settled};
use crate::mechanics::braking::rig::look_at_grip;
use crate::mechanics::load::weighed;
use crate::mechanics::root::zero;
use crate::mechanics::{NoNumber, Page, Ranges, Trailer};
use serde::{Deserialize, Serialize};

/// What `hames figure breakaway_decel` tells of it.
pub const PAGE: Page = Page {
    name: "breakaway_decel",
    title: "A trailer that broke loose",
    situation: "The trailer has left the ball and slides on its coupler, nose down, with all its \
                brakes on. Low in front, its front axle carries far more than the rear one, so \
                the rear wheels slide early and the front brakes do most of the work.",
    formula: "W D = sum min(B_i, mu N_i) + mu_s F; sum N_i x_i = W x - W D h; \
              F = W - sum N_i, with the coupler held at the height it slides at",
    symbols: &[
        ("D", "deceleration, of gravity"),
        ("B_i", "most brake force of an axle, lb"),
        (
            "N_i, x_i",
            "load of an axle, lb, and its place behind the coupler, in",
        ),
        ("F", "load the coupler slides under, lb"),
        (
            "mu, mu_s",
            "grip of tires, and of coupler or jack on the road; steel on asphalt about \
                      0.4, from memory",
        ),
        (
            "W, x, h",
            "weight of the loaded trailer, lb, and its centre of gravity behind the \
                     coupler and above the ground, in",
        ),
    ],
    holds: "grips more than 0 and up to 1.5; a nose that stays on the road",
    assumes: "Straight and level road, brakes at full force at once, the trailer upright.",
    never: "To say where a loose trailer ends up: it need not run straight.",
    source: "statics of a body slowing down, any textbook; with all wheels sliding at one grip D \
             is that grip; checked against an independent model",
};

/// A loose trailer.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LooseTrailer {
    /// The trailer.
    pub trailer: Trailer,
    /// Height of the coupler while it slides, in.
    pub coupler_rest_height_in: f64,
    /// Most brake force of an axle at the road, lb: one number, or one for each.
    pub brake_force_max_per_axle_lb: PerAxle,
    /// Grip of tire on road.
    #[serde(alias = "mu")]
    pub mu_tire: f64,
    /// Grip of the coupler on the road.
    pub mu_skid: f64,
    /// Height of a torsion arm's pivot over the arm's length; before the trailer's own.
    #[serde(default, alias = "q", alias = "torsion_q", alias = "arm_q")]
    pub pivot_over_arm: Option<f64>,
}

/// How a loose trailer slows down.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Breakaway {
    /// Deceleration, of gravity.
    pub decel_g: f64,
    /// Load of each axle, lb.
    pub axle_lb: Vec<f64>,
    /// Load the coupler slides under, lb.
    pub skid_load_lb: f64,
    /// Brake force of each axle, lb.
    pub axle_brake_lb: Vec<f64>,
    /// Whether each axle slides.
    pub locked: Vec<bool>,
    /// Pitch, nose up, deg.
    pub trailer_pitch_deg: f64,
    /// Which axles are on the road.
    pub status: Status,
}

/// Forces balance when they differ by less than this share of the weight.
const SMALL: f64 = 1e-12;

/// How hard a trailer that broke loose slows down.
///
/// # Errors
/// [`NoNumber`] when a number is out of range, leaf springs are not described, or the trailer
/// would not stay on its nose.
pub fn breakaway_decel(inputs: &LooseTrailer) -> Result<Breakaway, NoNumber> {
    let trailer = &inputs.trailer;
    let mut ranges = Ranges::new();
    trailer.look(&mut ranges);
    ranges.positive("coupler_rest_height_in", inputs.coupler_rest_height_in);
    let most = &inputs.brake_force_max_per_axle_lb;
    most.look("brake_force_max_per_axle_lb", trailer, &mut ranges);
    look_at_grip("mu_tire", inputs.mu_tire, &mut ranges);
    look_at_grip("mu_skid", inputs.mu_skid, &mut ranges);
    ranges.checked()?;
    let mass = weighed(&trailer.items)?;
    let most = most.of(trailer.axles.len());
    let footing = Footing::Held {
        height_in: inputs.coupler_rest_height_in,
    };
    let stand = sprung(trailer, mass.weight_lb, 0.0, footing);
    let braked = Braked::new(trailer, stand, inputs.pivot_over_arm)?;
    let at = |decel: f64| {
        let moment = mass.weight_lb * (mass.x_cg_in - decel * mass.z_cg_in);
        braked.settled(moment, |axle, load| {
            most.get(axle)
                .map_or(0.0, |most| most.min(inputs.mu_tire * load))
        })
    };
    if at(0.0)?.rest.push_lb < 0.0 {
        return Err(NoNumber::because(
            "This trailer would not slide on its nose: standing, it is heavier behind its axles \
             than ahead of them. Move load forward and weigh the tongue.",
        ));
    }
    let all = inputs.mu_tire.max(inputs.mu_skid);
    let enough = SMALL * mass.weight_lb;
    let decel_g = zero(0.0, all, enough, |decel| {
        let Settled {
            rest, forces_lb, ..
        } = at(decel)?;
        let back = forces_lb.iter().sum::<f64>() + inputs.mu_skid * rest.push_lb;
        Ok(back - mass.weight_lb * decel)
    })?;
    let loose = at(decel_g)?;
    let axles = loose.rest.axle_lb.iter().zip(&most);
    Ok(Breakaway {
        decel_g,
        locked: axles
            .map(|(load, most)| inputs.mu_tire * load < *most)
            .collect(),
        skid_load_lb: loose.rest.push_lb,
        trailer_pitch_deg: loose.rest.pitch_rad.to_degrees(),
        axle_lb: loose.rest.axle_lb,
        axle_brake_lb: loose.forces_lb,
        status: loose.status,
    })
}
