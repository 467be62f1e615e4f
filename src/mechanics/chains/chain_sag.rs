//! # How low a slack chain hangs

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure chain_sag` tells of it.
pub const PAGE: Page = Page {
    name: "chain_sag",
    title: "How low a slack chain hangs",
    situation: "A chain longer than the distance of its eyes hangs in a catenary between them. \
                Pulled down at its middle it would reach lower, in a V, and no shape of the same \
                chain reaches lower than that.",
    formula: "V: z = (z1 + z2)/2 - sqrt(L² - c²)/2. Catenary: sinh(u)/u = sqrt(L² - dz²)/c, \
              z = (z1 + z2)/2 - L/2 coth(u) + c/(2u), or the lower eye where the curve has no \
              bottom between the eyes",
    symbols: &[
        ("L", "length of the chain, in"),
        ("c", "distance of the eyes seen from above, in"),
        ("z1, z2", "heights of the eyes, in"),
        ("dz", "difference of the heights, in"),
    ],
    holds: "L at least the distance of the eyes, else the status says too short",
    assumes: "The chain is even, bends freely, and nothing holds it up between its eyes.",
    never: "For a chain that bounces: the V tells how low it can come.",
    source: "mechanics, any textbook: catenary; the V is the bottom of the ellipse with the eyes \
             as foci",
};

/// A chain between two eyes.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChainSag {
    /// From eye to eye along the rig, in.
    pub span_x_in: f64,
    /// From eye to eye across the rig, in.
    #[serde(default)]
    pub span_y_in: f64,
    /// Height of one eye, in.
    pub z1_in: f64,
    /// Height of the other, in.
    pub z2_in: f64,
    /// Length of the chain, in.
    pub length_in: f64,
}

/// How a chain hangs.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct HangingChain {
    /// Whether it reaches, and keeps off the road.
    pub status: Hang,
    /// The lowest any shape of it reaches, in above the ground.
    pub low_point_v_in: Option<f64>,
    /// The lowest it hangs at rest, in above the ground; what would be under the road is below 0.
    pub low_point_catenary_in: Option<f64>,
    /// How far that is from the first eye, seen from above, in.
    pub low_point_from_first_in: Option<f64>,
}

/// Whether a chain reaches, and keeps off the road.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Hang {
    /// It hangs clear of the road.
    Ok,
    /// It does not reach from eye to eye.
    TooShort,
    /// It lies on the road.
    OnTheRoad,
}

/// How low a chain hangs between two eyes.
///
/// # Errors
/// [`NoNumber`] for a number out of range.
pub fn chain_sag(inputs: &ChainSag) -> Result<HangingChain, NoNumber> {
    let ChainSag {
        span_x_in: along,
        span_y_in: across,
        z1_in: first,
        z2_in: second,
        length_in: length,
    } = *inputs;
    Ranges::new()
        .finite("span_x_in", along)
        .finite("span_y_in", across)
        .finite("z1_in", first)
        .finite("z2_in", second)
        .positive("length_in", length)
        .checked()?;
    let level = along * along + across * across;
    let rise = second - first;
    let spare = finite("the spare length", length * length - level - rise * rise)?;
    if spare < 0.0 {
        return Ok(HangingChain {
            status: Hang::TooShort,
            low_point_v_in: None,
            low_point_catenary_in: None,
            low_point_from_first_in: None,
        });
    }
    let middle = f64::midpoint(first, second);
    let lowest = middle - (length * length - level).sqrt() / 2.0;
    let bottom = Catenary::of(level.sqrt(), rise, length, spare).bottom();
    let (low, at) = match bottom {
        Some((below, at)) => (middle - below, at),
        None if first <= second => (first, 0.0),
        None => (second, level.sqrt()),
    };
    Ok(HangingChain {
        status: if low < 0.0 { Hang::OnTheRoad } else { Hang::Ok },
        low_point_v_in: Some(finite("the low point", lowest)?),
        low_point_catenary_in: Some(finite("the low point", low)?),
        low_point_from_first_in: Some(finite("its place", at)?),
    })
}

/// A chain's curve, by its span `c` and the number `u = c / 2a`, with `a` its radius at the bottom.
struct Catenary {
    /// Span seen from above.
    span: f64,
    /// Half the span, in radii at the bottom; nothing when the two halves hang straight down.
    half: Option<f64>,
    /// `atanh(rise / length)`: how far the bottom is off the middle, in the same measure.
    tilt: f64,
    length: f64,
}

/// Up to this `u` the curve is reckoned as one that is nearly tight.
const SHALLOW: f64 = 1.0;

impl Catenary {
    fn of(span: f64, rise: f64, length: f64, spare: f64) -> Self {
        let hung = (spare + span * span).sqrt();
        // sinh(u)/u - 1, without the difference of two numbers that are nearly alike.
        let excess = spare / (span * (span + hung));
        Self {
            span,
            half: excess.is_finite().then(|| solve(excess)),
            tilt: libm::atanh(rise / length),
            length,
        }
    }

    /// How far the bottom is below the middle of the eyes, and how far from the first eye; nothing
    /// when the curve falls all the way to the lower eye.
    fn bottom(&self) -> Option<(f64, f64)> {
        let Some(half) = self.half else {
            return Some((self.length / 2.0, self.span / 2.0));
        };
        if half <= self.tilt.abs() {
            return None;
        }
        let radius = self.span / (2.0 * half);
        let below = if half < SHALLOW {
            // a (cosh(tilt) cosh(u) - 1), of two numbers near 1.
            let over = |x: f64| 2.0 * libm::sinh(x / 2.0) * libm::sinh(x / 2.0);
            radius * (over(self.tilt) * (1.0 + over(half)) + over(half))
        } else {
            self.length / (2.0 * libm::tanh(half)) - radius
        };
        Some((below, self.span / 2.0 - radius * self.tilt))
    }
}

/// `u` at which `sinh(u)/u` is this much more than 1.
fn solve(excess: f64) -> f64 {
    // sinh(u)/u is at least 1 + u²/6, so this is never too small; and sinh overflows above 710.
    let mut high = (6.0 * excess).sqrt().min(710.0);
    if excess < 1e-8 {
        return high;
    }
    let mut low = 0.0;
    loop {
        let half = f64::midpoint(low, high);
        if half <= low || half >= high {
            return half;
        }
        if libm::sinh(half) / half - 1.0 < excess {
            low = half;
        } else {
            high = half;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn hangs(span_x_in: f64, z1_in: f64, z2_in: f64, length_in: f64) -> HangingChain {
        chain_sag(&ChainSag {
            span_x_in,
            span_y_in: 0.0,
            z1_in,
            z2_in,
            length_in,
        })
        .unwrap()
    }

    /// A second method: the chain as very many short stiff links, hung from the first eye by the
    /// force that lands its end on the other.
    fn by_links(span: f64, rise: f64, length: f64) -> f64 {
        const LINKS: u32 = 800;
        let link = length / f64::from(LINKS);
        // With H the level pull in units of the weight of one inch, and V the lift of the first eye,
        // every link points along (H, V - weight hung so far).
        let run = |pull: f64, lift: f64| {
            let (mut x, mut z, mut low) = (0.0, 0.0, 0.0_f64);
            for at in 0..LINKS {
                let down = lift - (f64::from(at) + 0.5) * link;
                let tension = (pull * pull + down * down).sqrt();
                x += link * pull / tension;
                z -= link * down / tension;
                low = low.min(z);
            }
            (x, z, low)
        };
        let halve = |mut low: f64, mut high: f64, high_is: &dyn Fn(f64) -> bool| {
            for _ in 0..45 {
                let middle = f64::midpoint(low, high);
                if high_is(middle) {
                    high = middle;
                } else {
                    low = middle;
                }
            }
            f64::midpoint(low, high)
        };
        let lift_for = |pull: f64| {
            halve(-50.0 * length, 50.0 * length, &|lift| {
                run(pull, lift).1 < rise
            })
        };
        let pull = halve(0.0, 50.0 * length, &|pull| {
            run(pull, lift_for(pull)).0 > span
        });
        run(pull, lift_for(pull)).2
    }

    #[test]
    fn the_curve_is_that_of_very_many_short_links() {
        for (span, rise, length) in [
            (20.0, 0.0, 24.0),
            (20.0, 2.0, 27.0),
            (10.0, -6.0, 30.0),
            (20.0, 9.0, 22.2),
        ] {
            let found = hangs(span, 0.0, rise, length)
                .low_point_catenary_in
                .unwrap();
            let linked = by_links(span, rise, length);
            assert!(
                (found - linked).abs() < 0.01,
                "{span} {rise} {length}: {found} {linked}"
            );
        }
    }

    /// `sag = S sqrt(3/8 (L/S - 1))`, the parabola of surveyors' tapes: it holds while the sag is
    /// small, and tells too little of a slack chain.
    #[test]
    fn the_parabola_agrees_with_a_chain_that_is_nearly_tight_and_not_with_a_slack_one() {
        let parabola = |span: f64, length: f64| span * (0.375 * (length / span - 1.0)).sqrt();
        let tight = -hangs(20.0, 0.0, 0.0, 20.01).low_point_catenary_in.unwrap();
        assert!((tight / parabola(20.0, 20.01) - 1.0).abs() < 1e-3);
        let slack = -hangs(20.0, 0.0, 0.0, 30.0).low_point_catenary_in.unwrap();
        assert!(slack > parabola(20.0, 30.0) + 1.0);
    }

    #[test]
    fn a_chain_hangs_by_its_lower_eye_alone_when_it_is_steep_and_tight() {
        let steep = hangs(5.0, 30.0, 10.0, 20.7);
        assert_eq!(steep.low_point_catenary_in, Some(10.0));
        assert_eq!(steep.low_point_from_first_in, Some(5.0));
    }

    #[test]
    fn eyes_above_one_another_let_the_chain_hang_double() {
        let double = hangs(0.0, 30.0, 26.0, 14.0);
        assert_eq!(double.low_point_catenary_in, Some(21.0));
        assert_eq!(double.low_point_v_in, Some(21.0));
    }

    #[test]
    fn a_chain_that_does_not_reach_has_no_low_point() {
        let short = hangs(20.0, 13.0, 15.0, 20.0);
        assert_eq!((short.status, short.low_point_v_in), (Hang::TooShort, None));
        assert_eq!(hangs(20.0, 5.0, 5.0, 40.0).status, Hang::OnTheRoad);
    }

    proptest! {
        #[test]
        fn a_longer_chain_hangs_lower_and_never_below_its_v(
            span in 0.0..60.0, first in 5.0..30.0, second in 5.0..30.0, spare in 0.0..30.0,
            more in 0.01..10.0,
        ) {
            let tight = libm::hypot(span, second - first);
            let low = |length: f64| {
                let found = hangs(span, first, second, length);
                (found.low_point_v_in.unwrap(), found.low_point_catenary_in.unwrap())
            };
            let length = (tight + spare) * (1.0 + 1e-12) + 1e-9;
            let (v, curve) = low(length);
            let (longer_v, longer_curve) = low(length + more);
            prop_assert!(longer_v < v && longer_curve <= curve + 1e-9);
            prop_assert!(v <= curve + 1e-9 && curve <= first.min(second) + 1e-9);
        }

        #[test]
        fn the_same_chain_seen_from_its_other_end_hangs_as_low(
            span in 0.1..60.0, first in 5.0..30.0, second in 5.0..30.0, spare in 0.001..30.0,
        ) {
            let length = libm::hypot(span, second - first) + spare;
            let (one, other) = (hangs(span, first, second, length), hangs(-span, second, first, length));
            let apart = one.low_point_catenary_in.unwrap() - other.low_point_catenary_in.unwrap();
            prop_assert!(apart.abs() < 1e-9);
            let places = one.low_point_from_first_in.unwrap() + other.low_point_from_first_in.unwrap();
            prop_assert!((places - span).abs() < 1e-9);
        }

        #[test]
        fn whatever_numbers_come_in_no_odd_one_comes_out(
            span in proptest::num::f64::ANY, z1 in proptest::num::f64::ANY,
            z2 in proptest::num::f64::ANY, length in proptest::num::f64::ANY,
        ) {
            let inputs = ChainSag { span_x_in: span, span_y_in: 0.0, z1_in: z1, z2_in: z2, length_in: length };
            if let Ok(found) = chain_sag(&inputs) {
                for number in [found.low_point_v_in, found.low_point_catenary_in, found.low_point_from_first_in] {
                    prop_assert!(number.is_none_or(f64::is_finite));
                }
            }
        }
    }
}
