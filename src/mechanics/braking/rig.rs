//! A rig slowing down steadily: the common ground of how it stands and which axle locks.

use crate::mechanics::attitude::{Footing, Rest, StaticRig, Statics, Status, sprung, stood};
use crate::mechanics::braking::braked::{Braked, counted};
use crate::mechanics::{NoNumber, Ranges};
use serde::Deserialize;

/// Height of the centre of gravity taken for a truck of which none is known, in. A pickup's lies a
/// little above its bumper; from memory.
pub(super) const TRUCK_CG_HEIGHT_IN: f64 = 28.0;

/// Hardest deceleration any tire on any road gives, g.
pub(super) const MOST_DECEL_G: f64 = 1.5;

/// Looks at the grip of a tire on a road.
pub(super) fn look_at_grip(what: &str, mu: f64, ranges: &mut Ranges) {
    let takes = format!("more than 0 and up to {MOST_DECEL_G}");
    ranges.holds(mu > 0.0 && mu <= MOST_DECEL_G, what, mu, &takes);
}

/// How a rig is braked.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Brakes {
    /// Part of its own stopping that the trailer does.
    #[serde(default = "all")]
    pub gain: f64,
    /// Whether the truck's springs follow; otherwise the ball stays at its height at rest.
    #[serde(default = "yes")]
    pub truck_follows: bool,
    /// Height of the truck's centre of gravity, in; before the truck's own.
    #[serde(default, alias = "truck_h_cg_in", alias = "h_truck_in")]
    pub truck_cg_height_in: Option<f64>,
    /// Height of a torsion arm's pivot over the arm's length; before the trailer's own.
    #[serde(default, alias = "q", alias = "torsion_q", alias = "arm_q")]
    pub pivot_over_arm: Option<f64>,
    /// Which axles have brakes; all where nothing is said.
    #[serde(default)]
    pub braked: Option<Vec<bool>>,
}

/// A trailer that does all of its own stopping.
fn all() -> f64 {
    1.0
}

fn yes() -> bool {
    true
}

/// A rig at one deceleration.
#[derive(Clone, Debug)]
pub(super) struct Slowing<'r> {
    /// The rig, with the couple its truck feels.
    pub(super) statics: Statics<'r>,
    pub(super) rest: Rest,
    pub(super) status: Status,
    /// Brake force of each axle, lb.
    pub(super) brake_lb: Vec<f64>,
    /// Push of the coupler on the truck, lb.
    pub(super) coupler_push_lb: f64,
}

/// A rig ready to be slowed.
#[derive(Clone, Debug)]
pub(super) struct Ready<'r> {
    of: &'r Brakes,
    statics: Statics<'r>,
    /// Height of the ball, coupled and at rest, in.
    ball_in: f64,
    /// Part of all brake force that each axle gives.
    shares: Vec<f64>,
}

impl Brakes {
    /// Looks at every number.
    pub(super) fn look(&self, rig: &StaticRig, ranges: &mut Ranges) {
        ranges.within("gain", self.gain, 0.0, 2.0);
        if let Some(height) = self.truck_cg_height_in {
            ranges.positive("truck_cg_height_in", height);
        }
        if let Some(pivot) = self.pivot_over_arm {
            ranges.within("pivot_over_arm", pivot, 0.0, 5.0);
        }
        if let Some(braked) = &self.braked {
            let axles = rig.trailer.axles.len();
            ranges.holds(
                braked.len() == axles && braked.contains(&true),
                "braked",
                counted(braked.len()),
                &format!("true or false for each of {axles} axles, at least one true"),
            );
        }
    }

    /// A rig with these brakes, ready to be slowed.
    pub(super) fn on<'r>(&'r self, rig: &'r StaticRig) -> Result<Ready<'r>, NoNumber> {
        let statics = Statics::of(rig)?;
        let (at_rest, _) = stood(&statics.stand_on_truck(), statics.trailer)?;
        let all = vec![true; statics.trailer.axles.len()];
        let braked = self.braked.as_ref().unwrap_or(&all);
        let sharing = counted(braked.iter().filter(|one| **one).count());
        let shares = braked
            .iter()
            .map(|one| if *one { 1.0 / sharing } else { 0.0 });
        Ok(Ready {
            shares: shares.collect(),
            ball_in: at_rest.height_in,
            statics,
            of: self,
        })
    }
}

impl<'r> Ready<'r> {
    /// The rig at this deceleration.
    pub(super) fn at(&self, decel_g: f64) -> Result<Slowing<'r>, NoNumber> {
        let statics = &self.statics;
        let mass = statics.mass;
        let backward = mass.weight_lb * decel_g;
        let shares = self.shares.iter();
        let brake_lb: Vec<f64> = shares.map(|one| self.of.gain * backward * one).collect();
        let coupler_push_lb = backward * (1.0 - self.of.gain);
        let couple = statics.couple_lb_in
            + self.truck_weight_lb() * decel_g * self.truck_cg_height_in()
            + coupler_push_lb * self.ball_in;
        let footing = if self.of.truck_follows {
            Footing::Truck {
                free_height_in: statics.before.ball_height_in
                    + statics.gives.couple_in_lb_in * couple,
                gives_in_lb: statics.gives.push_in_lb,
            }
        } else {
            Footing::Held {
                height_in: self.ball_in,
            }
        };
        let moment = mass.weight_lb * mass.x_cg_in + statics.couple_lb_in - backward * mass.z_cg_in
            + coupler_push_lb * self.ball_in;
        let stand = sprung(statics.trailer, mass.weight_lb, moment, footing);
        let braked = Braked::new(statics.trailer, stand, self.of.pivot_over_arm)?;
        let (rest, status) = braked.under(moment, &brake_lb)?;
        Ok(Slowing {
            statics: Statics {
                couple_lb_in: couple,
                ..statics.clone()
            },
            rest,
            status,
            brake_lb,
            coupler_push_lb,
        })
    }

    fn truck_weight_lb(&self) -> f64 {
        self.statics.before.front_lb + self.statics.before.rear_lb
    }

    fn truck_cg_height_in(&self) -> f64 {
        self.of
            .truck_cg_height_in
            .or(self.statics.truck.cg_height_in)
            .unwrap_or(TRUCK_CG_HEIGHT_IN)
    }
}
