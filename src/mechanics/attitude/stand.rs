//! The one linear system behind every question of how a trailer stands.
//!
//! Unknown are the height of the ball z, the pitch t (nose up) and the push on the ball F:
//!
//! ```text
//! sum N_i + F = W          sum N_i x_i = C          z = z0 - c F
//! independent axles:   N_i = max(0, k_i (h_i - z + t x_i))
//! equalized axles:     N_i = k (mean h - z + t mean x) + d_i, the same k, h and x for each
//! ```
//!
//! An axle that would pull at the road is taken out and the rest solved again. The right set of
//! axles on the road is the one whose axles all press and whose others hang clear; the elastic
//! energy is convex, so there is exactly one.

use crate::mechanics::{NoNumber, finite};

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

/// Forces below this share of the weight are rounding, not load.
const ROUNDING: f64 = 1e-12;

/// Stands the trailer.
pub(crate) fn stand(trailer: &Stand) -> Result<Rest, NoNumber> {
    let count = trailer.places_in.len();
    let all = (1_u32 << count) - 1;
    let mut sets: Vec<u32> = (1..=all).collect();
    sets.sort_by_key(|set| count - usize::try_from(set.count_ones()).unwrap_or(count));
    for set in sets {
        let on_road: Vec<bool> = (0..count).map(|axle| set & (1 << axle) != 0).collect();
        if let Some(rest) = trailer.on(&on_road) {
            finite("the height of the ball", rest.height_in)?;
            finite("the pitch", rest.pitch_rad)?;
            finite("the push on the ball", rest.push_lb)?;
            return Ok(rest);
        }
    }
    Err(NoNumber::because(
        "The trailer cannot stand like this: with these heights and springs no axle would reach \
         the road. Measure the coupler height and the axle loads again.",
    ))
}

impl Stand {
    /// The trailer with just these axles on the road, if that is how it stands.
    fn on(&self, on_road: &[bool]) -> Option<Rest> {
        let springs = self.springs(on_road);
        let (mut k0, mut k1, mut k2, mut h0, mut h1) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for spring in springs.iter().filter(|spring| spring.on_road) {
            let Spring {
                x, k, h, beyond, ..
            } = *spring;
            k0 += k;
            k1 += k * x;
            k2 += k * x * x;
            h0 += k * h + beyond;
            h1 += (k * h) * x + beyond * spring.own_x;
        }
        let (z, t) = match self.footing {
            Footing::Held { height_in } => {
                (height_in, (self.moment_lb_in - h1 + k1 * height_in) / k2)
            }
            Footing::Truck {
                free_height_in,
                gives_in_lb,
            } => {
                // The first equation times `c`, so that a truck that does not give is no trouble.
                let (a, b) = (k0 * gives_in_lb + 1.0, -k1 * gives_in_lb);
                let right = (h0 - self.weight_lb) * gives_in_lb + free_height_in;
                let below = h1 - self.moment_lb_in;
                let determinant = -a * k2 - b * k1;
                (
                    (-right * k2 - b * below) / determinant,
                    (a * below - k1 * right) / determinant,
                )
            }
        };
        let mut axle_lb = Vec::with_capacity(springs.len());
        for spring in &springs {
            let force = spring.k * (spring.h - z + t * spring.x) + spring.beyond;
            let slack = ROUNDING * self.weight_lb;
            if spring.on_road && force < -slack || !spring.on_road && force > slack {
                return None;
            }
            axle_lb.push(if spring.on_road { force.max(0.0) } else { 0.0 });
        }
        let push_lb = self.weight_lb - axle_lb.iter().sum::<f64>();
        Some(Rest {
            height_in: z,
            pitch_rad: t,
            push_lb,
            axle_lb,
            on_road: on_road.to_vec(),
        })
    }

    /// The springs as they act with these axles on the road. An equalizer can share between the
    /// axles on the road alone: with one of two in the air it lies on its stop and the other
    /// carries all.
    fn springs(&self, on_road: &[bool]) -> Vec<Spring> {
        let own = self
            .places_in
            .iter()
            .zip(&self.rates_lb_in)
            .zip(&self.free_heights_in)
            .zip(&self.beyond_lb)
            .zip(on_road);
        let springs = own.map(|((((x, k), h), beyond), on_road)| Spring {
            x: *x,
            own_x: *x,
            k: *k,
            h: *h,
            beyond: *beyond,
            on_road: *on_road,
        });
        let springs: Vec<Spring> = springs.collect();
        let sharing: Vec<&Spring> = springs.iter().filter(|one| one.on_road).collect();
        if !self.equalized || sharing.len() < 2 {
            return springs;
        }
        let shares = f64::from(u32::try_from(sharing.len()).unwrap_or(1));
        let mean =
            |part: fn(&Spring) -> f64| sharing.iter().map(|one| part(one)).sum::<f64>() / shares;
        let (x, k, h) = (mean(|one| one.x), mean(|one| one.k), mean(|one| one.h));
        springs
            .iter()
            .map(|one| {
                if one.on_road {
                    Spring { x, k, h, ..*one }
                } else {
                    *one
                }
            })
            .collect()
    }
}

/// One axle as a spring.
#[derive(Clone, Copy, Debug)]
struct Spring {
    /// Where it bears, in: its own place, or the equalizer's.
    x: f64,
    /// Its own place, in.
    own_x: f64,
    k: f64,
    h: f64,
    beyond: f64,
    on_road: bool,
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
