//! The one linear system behind every question of how a trailer stands.
//!
//! Unknown are the height of the ball z, the pitch t (nose up) and the push on the ball F:
//!
//! ```text
//! sum N_i + F = W          sum N_i x_i = C          z = z0 - c F
//! independent axles:   N_i = max(0, k_i (h_i - z + t x_i) + d_i)
//! equalized axles:     N_i = k (mean h - z + t mean x) + d_i, the same k for each
//! ```
//!
//! An axle that would pull at the road is taken out and the rest solved again. The right set of
//! axles on the road is the one whose axles all press and whose others hang clear; the elastic
//! energy is convex, so there is exactly one.

use crate::mechanics::attitude::tilt::{Spring, Tilt, shared};
use crate::mechanics::{NoNumber, Springing, finite};

/// What the trailer rests on besides its axles.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Footing {
    /// The ball of a truck that gives: height without any push on it, and how far one pound lowers
    /// it.
    Truck {
        free_height_in: f64,
        gives_in_lb: f64,
    },
    /// Something that does not give, at this height.
    Held { height_in: f64 },
}

/// A trailer about to be stood on its axles and a footing.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Stand {
    /// Weight of trailer and load, lb.
    pub(crate) weight_lb: f64,
    /// Moment about the ball that the axles must balance, lb in.
    pub(crate) moment_lb_in: f64,
    /// Each axle's place behind the ball, in.
    pub(crate) places_in: Vec<f64>,
    /// Each axle's rate with tires, lb/in.
    pub(crate) rates_lb_in: Vec<f64>,
    /// Ball height at which each axle, alone and level, would carry nothing, in.
    pub(crate) free_heights_in: Vec<f64>,
    /// What each axle carries beyond its spring's share, lb; they need not come to nothing.
    pub(crate) beyond_lb: Vec<f64>,
    /// Whether an equalizer gives each axle the same spring force.
    pub(crate) equalized: bool,
    /// What the coupler rests on.
    pub(crate) footing: Footing,
}

/// A trailer at rest.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Rest {
    /// Height of the ball, in.
    pub(crate) height_in: f64,
    /// Pitch, nose up, rad.
    pub(crate) pitch_rad: f64,
    /// Push down on the ball, lb.
    pub(crate) push_lb: f64,
    /// Load of each axle, lb.
    pub(crate) axle_lb: Vec<f64>,
    /// Whether each axle is on the road.
    pub(crate) on_road: Vec<bool>,
}

/// Pulls below this share of the weight are rounding.
const ROUNDING: f64 = 1e-10;

/// Axles whose places differ by less than about a millionth are one.
const ONE_PLACE: f64 = 1e-12;

/// Stands the trailer.
pub(crate) fn stand(trailer: &Stand) -> Result<Rest, NoNumber> {
    let rest = if trailer.equalized {
        trailer.sharing()
    } else {
        trailer.each_alone()
    };
    let rest = rest.ok_or_else(|| {
        NoNumber::because(
            "The trailer cannot stand like this: no axle would press on the road. Look at where \
             the load lies, at the coupler height and at the rates again.",
        )
    })?;
    finite("the height of the ball", rest.height_in)?;
    finite("the pitch", rest.pitch_rad)?;
    finite("the push on the ball", rest.push_lb)?;
    Ok(rest)
}

impl Stand {
    /// Axles each on its own spring: the set that pulls least, which is not at all.
    fn each_alone(&self) -> Option<Rest> {
        let count = self.places_in.len();
        let all = (1_u32 << count) - 1;
        let mut best: Option<(f64, Rest)> = None;
        for set in (1..=all).rev() {
            let on_road: Vec<bool> = (0..count).map(|axle| set & (1 << axle) != 0).collect();
            let (rest, forces) = self.on(&on_road);
            let wrong = |(force, on_road): (&f64, &bool)| if *on_road { -force } else { *force };
            let worst = forces.iter().zip(&on_road).map(wrong).fold(0.0, f64::max);
            if forces.iter().all(|force| force.is_finite())
                && best.as_ref().is_none_or(|(least, _)| worst < *least)
            {
                let right = worst <= 0.0;
                best = Some((worst, rest));
                if right {
                    break;
                }
            }
        }
        let (pulls, rest) = best?;
        (pulls <= ROUNDING * self.weight_lb).then_some(rest)
    }

    /// Axles on an equalizer. It can share between axles on the road alone: with one of two in
    /// the air it lies on its stop, and the other carries all.
    fn sharing(&self) -> Option<Rest> {
        let mut on_road = vec![true; self.places_in.len()];
        while on_road.contains(&true) {
            let (rest, forces) = self.on(&on_road);
            let pulls = |force: &f64| *force < -ROUNDING * self.weight_lb;
            if !forces
                .iter()
                .zip(&on_road)
                .any(|(force, on)| *on && pulls(force))
            {
                return Some(rest);
            }
            for (on, force) in on_road.iter_mut().zip(&forces) {
                *on &= !pulls(force);
            }
        }
        None
    }

    /// The trailer with just these axles on the road, and the force that each axle's spring would
    /// then have, on the road or not.
    ///
    /// Reckoned about the middle of the springs, where nothing large is taken from anything large.
    fn on(&self, on_road: &[bool]) -> (Rest, Vec<f64>) {
        let springs = self.springs(on_road);
        let (free_height, gives) = match self.footing {
            Footing::Truck {
                free_height_in,
                gives_in_lb,
            } => (free_height_in, gives_in_lb),
            Footing::Held { height_in } => (height_in, 0.0),
        };
        let bearing = || {
            let on_road = springs.iter().zip(on_road).filter(|(_, on_road)| **on_road);
            on_road.map(|(spring, _)| spring)
        };
        let rate: f64 = bearing().map(|spring| spring.rate).sum();
        let mean = |part: fn(&Spring) -> f64| {
            let sum: f64 = bearing().map(|spring| spring.rate * part(spring)).sum();
            sum / rate
        };
        let middle = mean(|spring| spring.place_in);
        let mean_height = mean(|spring| spring.free_height_in);
        let (mut turns, mut own) = (0.0, 0.0);
        for spring in bearing() {
            let off = spring.place_in - middle;
            turns += spring.rate * off * off;
            own += spring.rate * (spring.free_height_in - mean_height) * off;
        }
        let (mut beyond, mut beyond_moment) = (0.0, 0.0);
        for ((by, place), on_road) in self.beyond_lb.iter().zip(&self.places_in).zip(on_road) {
            if *on_road {
                beyond += by;
                beyond_moment += by * place;
            }
        }
        let weight = self.weight_lb - beyond;
        let moment = self.moment_lb_in - beyond_moment - own;
        // All springs together, from the three equations.
        let together = (turns * (mean_height - free_height + gives * weight) + middle * moment)
            / (turns / rate + middle * middle + turns * gives);
        let push = weight - together;
        let height = free_height - gives * push;
        let pitch = (height - mean_height + together / rate) / middle;
        let apart = turns > ONE_PLACE * rate * middle * middle;
        let turned = if apart {
            (moment - middle * together) / turns
        } else {
            0.0
        };
        let forces: Vec<f64> = springs
            .iter()
            .zip(&self.beyond_lb)
            .zip(on_road)
            .map(|((spring, beyond), on_road)| {
                let k = spring.rate;
                let above = spring.free_height_in - mean_height + together / rate;
                let tilts = if *on_road { turned } else { pitch };
                k * (above + tilts * (spring.place_in - middle)) + beyond
            })
            .collect();
        let axle_lb: Vec<f64> = forces
            .iter()
            .zip(on_road)
            .map(|(force, on_road)| if *on_road { force.max(0.0) } else { 0.0 })
            .collect();
        let rest = Rest {
            height_in: height,
            pitch_rad: pitch,
            push_lb: self.weight_lb - axle_lb.iter().sum::<f64>(),
            axle_lb,
            on_road: on_road.to_vec(),
        };
        (rest, forces)
    }

    /// The axles as springs, those that share on the road alike.
    fn springs(&self, on_road: &[bool]) -> Vec<Spring> {
        let own = self.own_springs();
        if !self.equalized {
            return own;
        }
        let sharing: Vec<Spring> = own
            .iter()
            .zip(on_road)
            .filter(|(_, on_road)| **on_road)
            .map(|(spring, _)| *spring)
            .collect();
        let mut shares = shared(&sharing).into_iter();
        own.iter()
            .zip(on_road)
            .map(|(spring, on_road)| {
                let share = if *on_road { shares.next() } else { None };
                share.unwrap_or(*spring)
            })
            .collect()
    }

    /// Each axle as its own spring.
    fn own_springs(&self) -> Vec<Spring> {
        self.places_in
            .iter()
            .zip(&self.rates_lb_in)
            .zip(&self.free_heights_in)
            .map(|((place, rate), height)| Spring {
                place_in: *place,
                rate: *rate,
                free_height_in: *height,
            })
            .collect()
    }

    /// The same trailer to be tilted by hand.
    pub(crate) fn tilt(&self) -> Tilt {
        let suspension = if self.equalized {
            Springing::Equalized
        } else {
            Springing::Torsion
        };
        Tilt::new(self.own_springs(), suspension, self.moment_lb_in)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn single(footing: Footing) -> Rest {
        let trailer = Stand {
            weight_lb: 2500.0,
            moment_lb_in: 2500.0 * 108.0,
            places_in: vec![120.0],
            rates_lb_in: vec![1000.0],
            free_heights_in: vec![20.0],
            beyond_lb: vec![0.0],
            equalized: false,
            footing,
        };
        stand(&trailer).unwrap()
    }

    /// Lever rule: 2500 lb at 108 of 120 in put 2250 lb on the axle and 250 lb on the ball,
    /// whatever the springs do.
    #[test]
    fn one_axle_is_a_pure_lever_on_any_footing() {
        for footing in [
            Footing::Held { height_in: 12.0 },
            Footing::Truck {
                free_height_in: 21.0,
                gives_in_lb: 0.004,
            },
            Footing::Truck {
                free_height_in: 21.0,
                gives_in_lb: 0.0,
            },
        ] {
            let rest = single(footing);
            assert!((rest.axle_lb[0] - 2250.0).abs() < 1e-9);
            assert!((rest.push_lb - 250.0).abs() < 1e-9);
        }
    }
}
