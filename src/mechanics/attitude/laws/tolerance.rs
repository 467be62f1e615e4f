//! The level tolerance against the loads themselves: a bisection on the height of a held ball.

use super::any::{near, trailer};
use crate::mechanics::attitude::stand::{Footing, Stand, stand};
use crate::mechanics::attitude::statics::sprung;
use crate::mechanics::attitude::tilt::STEEPEST_RAD;
use crate::mechanics::attitude::{LevelInputs, LevelStatus, level_tolerance, tolerance_of};
use crate::mechanics::{Springing, Trailer};
use proptest::prelude::*;

/// The trailer with its ball held at this height.
fn held(trailer: &Trailer, height_in: f64) -> Stand {
    let (weight_lb, moment_lb_in) = super::any::weight_and_moment(&trailer.items);
    sprung(
        trailer,
        weight_lb,
        moment_lb_in,
        Footing::Held { height_in },
    )
}

/// How much the worst axle is over its limit, and the pitch, with the ball at this height.
fn over(trailer: &Trailer, limits_lb: &[f64], height_in: f64) -> (f64, f64) {
    let rests = stand(&held(trailer, height_in)).unwrap();
    let over = rests
        .axle_lb
        .iter()
        .zip(limits_lb)
        .map(|(load, limit)| load - limit);
    (over.fold(f64::MIN, f64::max), rests.pitch_rad)
}

/// Heights of the ball on the way from one to another.
fn way(from: f64, to: f64) -> impl Iterator<Item = f64> {
    (0..=200).map(move |step| from + (to - from) * f64::from(step) / 200.0)
}

/// The height at which the worst axle is over its limit no more, between one where it is not and
/// one where it is.
fn by_bisection(trailer: &Trailer, limits_lb: &[f64], under: f64, beyond: f64) -> f64 {
    let (mut under, mut beyond) = (under, beyond);
    for _ in 0..80 {
        let middle = f64::midpoint(under, beyond);
        if over(trailer, limits_lb, middle).0 > 0.0 {
            beyond = middle;
        } else {
            under = middle;
        }
    }
    beyond
}

proptest! {
    #[test]
    fn the_tolerance_is_where_an_axle_meets_its_limit(
        trailer in trailer(Springing::Torsion), margins in [0.02..1.5_f64, 0.02..1.5, 0.02..1.5],
    ) {
        let none = vec![f64::MAX; trailer.axles.len()];
        let Ok(level) = tolerance_of(&trailer, &none, 0.0) else { return Ok(()) };
        let limits: Vec<f64> = level
            .axle_lb
            .iter()
            .zip(margins)
            .map(|(load, margin)| load * (1.0 + margin) + 20.0)
            .collect();
        let tolerance = tolerance_of(&trailer, &limits, 0.0).unwrap();
        for (found, nose) in [(tolerance.up, 1.0), (tolerance.down, -1.0)] {
            let worst = |height: f64| over(&trailer, &limits, height).0;
            let Some(found) = found else {
                for height in way(level.height_in, level.height_in + nose * 60.0) {
                    let (worst, pitch) = over(&trailer, &limits, height);
                    prop_assert!(worst <= 1e-6 || pitch.abs() > STEEPEST_RAD, "{worst} {pitch}");
                }
                continue;
            };
            for height in way(level.height_in, found.height_in) {
                prop_assert!(worst(height) <= 1e-6, "over by {} before {found:?}", worst(height));
            }
            let beyond = found.height_in + nose * 1e-4;
            prop_assert!(worst(beyond) > 0.0, "not over beyond {found:?}");
            let met = by_bisection(&trailer, &limits, found.height_in - nose * 1e-4, beyond);
            prop_assert!(near(met, found.height_in, 1e-9, 1.0), "{met} is not {found:?}");
            let (_, pitch) = over(&trailer, &limits, met);
            prop_assert!(near(pitch, found.pitch_rad, 1e-9, 1.0), "{pitch} is not {found:?}");
        }
    }

    /// The closed form, written out once more.
    #[test]
    fn of_axles_alike_it_is_the_closed_form(
        count in 2_usize..=3, first in 120.0..300.0_f64, spacing in 29.0..44.0_f64,
        k in 600.0..2500.0_f64, gross in 3000.0..16000.0_f64, share in 0.75..0.95_f64,
        margin in 0.01..0.4_f64,
    ) {
        let axle_x_in: Vec<f64> =
            [0.0, 1.0, 2.0].iter().take(count).map(|at| first + spacing * at).collect();
        let n = axle_x_in.iter().map(|_| 1.0).sum::<f64>();
        let xb = axle_x_in.iter().sum::<f64>() / n;
        let s: f64 = axle_x_in.iter().map(|x| (x - xb).powi(2)).sum();
        let level = gross * share / n;
        let found = level_tolerance(&LevelInputs {
            axle_x_in: axle_x_in.clone(),
            rate_lb_in: k,
            axle_limit_lb: level * (1.0 + margin),
            gross_lb: gross,
            x_cg_in: share * xb,
            base_in: 150.0,
            tire_capacity_lb: None,
            side_transfer_lb: 0.0,
            suspension: None,
            equalized: false,
            wd_moment_lbft: 0.0,
        })
        .unwrap();
        prop_assert_eq!(found.status, LevelStatus::Ok);
        let m = level * margin;
        let up = m / (k * ((axle_x_in[count - 1] - xb) - s / (n * xb)));
        let down = m / (k * ((xb - axle_x_in[0]) + s / (n * xb)));
        // With a margin of two fifths no axle leaves the road before another meets its limit.
        for (found, pitch) in [(found.pitch_up_deg, up), (found.pitch_down_deg, down)] {
            if pitch < STEEPEST_RAD {
                prop_assert!(near(found.unwrap(), pitch.to_degrees(), 1e-9, 0.0));
            }
        }
        if down < STEEPEST_RAD {
            prop_assert!(found.pitch_up_deg.is_none_or(|up| found.pitch_down_deg.unwrap() <= up));
            let squares: f64 = axle_x_in.iter().map(|x| x * x).sum();
            let ball = down * squares / (n * xb);
            prop_assert!(near(found.ball_error_down_in.unwrap(), ball, 1e-9, 0.0));
            prop_assert!(near(found.frame_diff_down_in.unwrap(), down * 150.0, 1e-9, 0.0));
        }
    }
}

fn two_axles(limit: f64, gross: f64) -> LevelInputs {
    LevelInputs {
        axle_x_in: vec![150.0, 183.0],
        rate_lb_in: 1090.0,
        axle_limit_lb: limit,
        gross_lb: gross,
        x_cg_in: 150.0,
        base_in: 150.0,
        tire_capacity_lb: None,
        side_transfer_lb: 0.0,
        suspension: None,
        equalized: false,
        wd_moment_lbft: 0.0,
    }
}

/// 4000 lb at 150 in: the rear axle alone carries 3279 lb, the front axle alone 4000 lb. A limit of
/// 3500 lb is met by the front axle only.
#[test]
fn where_the_light_axle_leaves_the_road_first_that_side_has_no_limit() {
    let found = level_tolerance(&two_axles(3500.0, 4000.0)).unwrap();
    assert_eq!(found.status, LevelStatus::Ok);
    assert_eq!(
        (found.pitch_up_deg, found.frame_diff_up_in, found.first_up),
        (None, None, None)
    );
    assert_eq!(found.first_down, Some("front"));
}

#[test]
fn an_axle_over_its_limit_when_level_has_no_tolerance_and_says_so() {
    let found = level_tolerance(&two_axles(2000.0, 6000.0)).unwrap();
    assert_eq!(found.status, LevelStatus::OverloadedWhenLevel);
    assert!(found.margin_when_level_lb < 0.0);
    assert_eq!((found.pitch_up_deg, found.pitch_down_deg), (None, None));
}

#[test]
fn tires_at_less_pressure_leave_less() {
    let mut inputs = two_axles(3500.0, 6000.0);
    let full = level_tolerance(&inputs).unwrap().pitch_down_deg.unwrap();
    inputs.tire_capacity_lb = Some(1600.0);
    inputs.side_transfer_lb = 40.0;
    let soft = level_tolerance(&inputs).unwrap();
    assert!((soft.level_axle_lb + soft.margin_when_level_lb - 3120.0).abs() < 1e-9);
    assert!(soft.pitch_down_deg.unwrap() < full);
}

#[test]
fn an_equalizer_has_no_limit_whichever_way_it_is_said() {
    for (suspension, equalized) in [(Some(Springing::Equalized), false), (None, true)] {
        let inputs = LevelInputs {
            suspension,
            equalized,
            ..two_axles(3500.0, 6000.0)
        };
        let found = level_tolerance(&inputs).unwrap();
        assert_eq!(found.status, LevelStatus::EqualizedNoLimit);
        assert_eq!((found.pitch_up_deg, found.pitch_down_deg), (None, None));
    }
}
