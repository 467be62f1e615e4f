//! Whatever finite numbers go in, no NaN and no infinity come out.

use super::any::springing;
use crate::mechanics::attitude::{
    BallHeight, DrawbarByTape, FrameHeights, FrameMarks, Lean, LevelInputs, StaticRig, TorsionAxle,
    TruckAlone, TruckHeights, ball_height_sensitivity, drawbar_drop, frame_pitch,
    lateral_tire_loads, level_drawbar, level_tolerance, solve_static, split_from_frame_heights,
    tolerance_of, tongue_from_truck_heights, torsion_axle_rates, truck_uncoupled,
};
use crate::mechanics::{Axle, Item, NoNumber, Trailer, Truck};
use proptest::collection::vec;
use proptest::prelude::*;
use std::fmt::Debug;

/// Any finite number, small and ordinary ones more often than not.
fn wild() -> impl Strategy<Value = f64> {
    use proptest::num::f64::{NEGATIVE, NORMAL, POSITIVE, SUBNORMAL, ZERO};
    prop_oneof![
        4 => 0.1..400.0_f64,
        2 => 400.0..9000.0_f64,
        1 => -100.0..100.0_f64,
        1 => NORMAL | SUBNORMAL | ZERO | POSITIVE | NEGATIVE,
    ]
}

/// Mostly more than nothing, so that not everything is refused at the door.
fn much() -> impl Strategy<Value = f64> {
    prop_oneof![
        6 => 0.1..9000.0_f64,
        1 => 1e-300..1e300_f64,
        1 => Just(f64::MAX),
        1 => Just(f64::MIN_POSITIVE),
        1 => wild(),
    ]
}

fn items() -> impl Strategy<Value = Vec<Item>> {
    let item = (much(), wild(), wild(), wild());
    let item = item.prop_map(|(weight_lb, x_in, z_in, y_in)| Item {
        weight_lb,
        x_in,
        z_in,
        y_in,
    });
    vec(item, 0..4)
}

fn truck() -> impl Strategy<Value = Truck> {
    let loads = (much(), much(), much(), much(), much());
    (loads, wild(), much(), wild(), items()).prop_map(
        |((wheelbase_in, front_lb, rear_lb, front, rear), reach, height, rise, payload)| Truck {
            name: String::new(),
            wheelbase_in,
            front_lb,
            rear_lb,
            front_rate_lb_in: front,
            rear_rate_lb_in: rear,
            ball_behind_rear_axle_in: reach,
            ball_height_in: height,
            drawbar_rise_in: rise,
            payload,
            cg_height_in: None,
        },
    )
}

fn trailer() -> impl Strategy<Value = Trailer> {
    let axles = vec((much(), much(), wild()), 0..5);
    let axles = axles.prop_map(|axles| {
        let axle = |(x_in, rate_lb_in, mount_offset_in)| Axle {
            x_in,
            rate_lb_in,
            mount_offset_in,
        };
        let mut axles: Vec<Axle> = axles.into_iter().map(axle).collect();
        axles.sort_by(|one, other| one.x_in.total_cmp(&other.x_in));
        axles
    });
    let travel = proptest::option::of(much());
    (springing(), much(), much(), axles, items(), travel).prop_map(
        |(suspension, height, reference, axles, items, equalizer_travel_in)| Trailer {
            name: String::new(),
            suspension,
            level_coupler_height_in: height,
            ref_axle_load_lb: reference,
            axles,
            items,
            equalizer_travel_in,
            eye_height_in: None,
            half_spring_in: None,
            pivot_over_arm: None,
        },
    )
}

/// A result is refused in words or finite throughout.
fn sane<T: Debug>(result: &Result<T, NoNumber>) -> Result<(), TestCaseError> {
    if let Ok(found) = result {
        let shown = format!("{found:?}");
        let clean = !shown.contains("NaN") && !shown.contains("inf");
        prop_assert!(clean, "{shown}");
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]

    #[test]
    fn of_a_rig(truck in truck(), trailer in trailer(), wd_moment_lbft in wild(), limit in much()) {
        sane(&truck_uncoupled(&TruckAlone { truck: truck.clone() }))?;
        sane(&tolerance_of(&trailer, &vec![limit; trailer.axles.len()], wd_moment_lbft))?;
        let inputs = BallHeight { trailer: trailer.clone(), truck: Some(truck.clone()) };
        sane(&ball_height_sensitivity(&inputs))?;
        let rig = StaticRig { truck, trailer, wd_moment_lbft };
        sane(&solve_static(&rig))?;
        sane(&level_drawbar(&rig))?;
    }

    #[test]
    fn of_tape_readings(truck in truck(), n in [wild(), wild(), wild(), wild(), wild()]) {
        let [a, b, c, d, e] = n;
        sane(&tongue_from_truck_heights(&TruckHeights { truck, front_drop_in: a, rear_drop_in: b }))?;
        let marks = FrameMarks { front_frame_in: a, rear_frame_in: b, base_in: c };
        sane(&frame_pitch(&marks))?;
        sane(&drawbar_drop(&DrawbarByTape {
            receiver_height_in: a,
            squat_in: b,
            coupler_height_in: c,
            ball_height_in: d,
        }))?;
        sane(&torsion_axle_rates(&TorsionAxle {
            arm_in: a,
            start_angle_down_deg: b,
            rated_axle_load_lb: c,
            tire_rate_each_lb_in: Some(d),
            twist_to_rated_deg: e,
        }))?;
    }

    #[test]
    fn of_loads_and_limits(
        mut places in vec(much(), 0..5), n in [much(), much(), much(), much(), much()],
        m in [wild(), wild()], suspension in springing(), equalized: bool,
    ) {
        places.sort_by(f64::total_cmp);
        let ([a, b, c, d, e], [y, bars]) = (n, m);
        sane(&lateral_tire_loads(&Lean {
            axle_lb: places.clone(),
            trailer_gross_lb: a,
            y_cg_in: y,
            track_in: b,
        }))?;
        sane(&split_from_frame_heights(&FrameHeights {
            front_frame_in: a,
            rear_frame_in: b,
            base_in: c,
            axle_x_in: places.clone(),
            rate_lb_in: d,
            gross_lb: e,
            x_cg_in: y,
            suspension,
            wd_moment_lbft: bars,
        }))?;
        sane(&level_tolerance(&LevelInputs {
            axle_x_in: places,
            rate_lb_in: a,
            axle_limit_lb: b,
            gross_lb: c,
            x_cg_in: y,
            base_in: d,
            tire_capacity_lb: Some(e),
            side_transfer_lb: 0.0,
            suspension: Some(suspension),
            equalized,
            wd_moment_lbft: bars,
        }))?;
    }
}
