//! What any change of load must do to a swinging trailer: the trends that tests on the road found.

use crate::mechanics::sway::{SwayRig, sway};
use proptest::prelude::*;

/// Bumper pulls of ordinary make, at road speed.
fn rig() -> impl Strategy<Value = SwayRig> {
    let truck = (2800.0..4200.0, 0.7..1.1, 130.0..170.0, 42.0..60.0);
    let trailer = (3500.0..7000.0, 140.0..200.0, 55.0..75.0);
    (truck, trailer, 8.0..14.0, 45.0..75.0).prop_map(|(truck, trailer, tongue, speed)| SwayRig {
        truck_front_lb: truck.0,
        truck_rear_lb: truck.0 * truck.1,
        wheelbase_in: truck.2,
        ball_behind_rear_axle_in: truck.3,
        truck_yaw_radius_in: 0.43 * truck.2,
        trailer_gross_lb: trailer.0,
        ball_to_axle_in: trailer.1,
        trailer_yaw_radius_in: trailer.2,
        speed_mph: speed,
        tongue_pct: tongue,
        cornering_front_per_rad: 7.0,
        cornering_rear_per_rad: 9.0,
        cornering_trailer_per_rad: 8.0,
    })
}

/// Damping of a swing of the trailer's. Where it is well damped another motion of truck and
/// trailer is the least damped, of which the trends do not speak.
fn damping(rig: &SwayRig) -> Option<f64> {
    sway(rig).ok()?.damping_ratio.filter(|ratio| *ratio < 0.3)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn more_of_the_load_on_the_ball_settles_sooner(rig in rig(), more in 0.5..4.0_f64) {
        let lighter = SwayRig { tongue_pct: rig.tongue_pct - more, ..rig };
        if let (Some(lighter), Some(heavier)) = (damping(&lighter), damping(&rig)) {
            prop_assert!(heavier > lighter);
        }
    }

    #[test]
    fn load_far_from_the_axles_settles_later(rig in rig(), farther in 1.0..15.0_f64) {
        let apart = SwayRig { trailer_yaw_radius_in: rig.trailer_yaw_radius_in + farther, ..rig };
        if let (Some(apart), Some(together)) = (damping(&apart), damping(&rig)) {
            prop_assert!(together > apart);
        }
    }

    #[test]
    fn the_same_rig_settles_later_the_faster_it_goes(rig in rig(), faster in 1.0..25.0_f64) {
        let fast = SwayRig { speed_mph: rig.speed_mph + faster, ..rig };
        if let (Some(fast), Some(slow)) = (damping(&fast), damping(&rig)) {
            prop_assert!(slow > fast);
        }
    }

    #[test]
    fn the_damping_ends_where_it_is_said_to_end(rig in rig()) {
        let light = SwayRig { tongue_pct: 2.0, ..rig };
        if let Some(speed) = sway(&light).unwrap().critical_speed_mph {
            let at = |speed_mph| damping(&SwayRig { speed_mph, ..light });
            prop_assert!(at(speed).unwrap().abs() < 1e-9);
            prop_assert!(at((speed + 0.5).min(200.0)).unwrap() < 0.0);
        }
    }
}
