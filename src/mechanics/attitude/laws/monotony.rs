//! More of this makes more, or less, of that.

use super::any::{near, standing, trailer, truck};
use crate::mechanics::attitude::{
    BallHeight, StaticRig, Status, ball_height_sensitivity, level_drawbar, solve_static,
};
use crate::mechanics::{Item, Springing};
use proptest::prelude::*;

/// What a thousandth of a pound or inch would hide.
const JOT: f64 = 1e-9;

proptest! {
    #[test]
    fn a_higher_drawbar_lifts_ball_and_nose((rig, low) in standing(), by in 0.01..2.0_f64) {
        let mut higher = rig.clone();
        higher.truck.drawbar_rise_in += by;
        if let Ok(high) = solve_static(&higher) {
            prop_assert!(high.ball_height_coupled_in > low.ball_height_coupled_in);
            prop_assert!(high.trailer_pitch_deg > low.trailer_pitch_deg);
            prop_assert!(high.tongue_lb >= low.tongue_lb - JOT * low.trailer_gross_lb);
            let [low, high] = [&low, &high].map(|rests| (rests.axle_lb[0], rests.trailer_gross_lb));
            prop_assert!(high.0 <= low.0 + JOT * low.1, "front axle {} and {}", low.0, high.0);
        }
    }

    #[test]
    fn more_load_ahead_of_the_axles_lowers_the_ball(
        (rig, before) in standing(), weight_lb in 1.0..800.0_f64, share in 0.05..0.9_f64,
    ) {
        let mut heavier = rig.clone();
        let x_in = share * rig.trailer.axles[0].x_in;
        heavier.trailer.items.push(Item { weight_lb, x_in, z_in: 0.0, y_in: 0.0 });
        if let Ok(after) = solve_static(&heavier) {
            prop_assert!(after.tongue_lb > before.tongue_lb);
            prop_assert!(after.ball_height_coupled_in < before.ball_height_coupled_in);
        }
    }

    #[test]
    fn a_truck_of_stiffer_springs_carries_the_ball_higher(
        (rig, soft) in standing(), by in 1.05..3.0_f64,
    ) {
        let mut rig = rig.clone();
        // Payload would be carried higher too; what is asked is what the tongue does.
        rig.truck.payload.clear();
        rig.wd_moment_lbft = 0.0;
        let mut stiffer = rig.clone();
        stiffer.truck.rear_rate_lb_in *= by;
        stiffer.truck.front_rate_lb_in *= by;
        if let (Ok(soft), Ok(stiff)) = (solve_static(&rig), solve_static(&stiffer))
            && soft.tongue_lb > 1.0
        {
            prop_assert!(stiff.ball_height_coupled_in > soft.ball_height_coupled_in);
        }
        prop_assert!(soft.trailer_gross_lb > 0.0);
    }

    #[test]
    fn with_the_drawbar_that_makes_it_level_it_is_level((rig, _) in standing()) {
        if let Ok(level) = level_drawbar(&rig) {
            let mut changed = rig.clone();
            changed.truck.drawbar_rise_in = level.drawbar_rise_needed_in;
            if let Ok(rests) = solve_static(&changed) {
                prop_assert!(rests.trailer_pitch_deg.abs() < 1e-9, "{}", rests.trailer_pitch_deg);
                prop_assert!(near(rests.tongue_lb, level.tongue_lb, 1e-9, rests.trailer_gross_lb));
                let still = rests.drawbar_change_for_level_in.unwrap();
                prop_assert!(still.abs() < 1e-9, "{still}");
            }
        }
    }

    /// With every axle on the road the trailer is one straight spring, and a step over an inch is
    /// the slope itself.
    #[test]
    fn an_inch_of_drawbar_does_what_the_sensitivity_says(
        truck in truck(), trailer in trailer(Springing::Torsion),
    ) {
        let by = ball_height_sensitivity(&BallHeight {
            trailer: trailer.clone(),
            truck: Some(truck.clone()),
        })
        .unwrap();
        let at = |rise: f64| {
            let mut truck = truck.clone();
            truck.drawbar_rise_in = rise;
            let rig = StaticRig { truck, trailer: trailer.clone(), wd_moment_lbft: 0.0 };
            solve_static(&rig).ok().filter(|rests| rests.status == Status::AllAxles)
        };
        if let (Some(low), Some(high)) = (at(-0.5), at(0.5)) {
            let weight = low.trailer_gross_lb;
            let ball = high.ball_height_coupled_in - low.ball_height_coupled_in;
            prop_assert!(near(ball, by.ball_in_per_drawbar_in.unwrap(), 1e-8, 1.0));
            for (at, change) in by.daxle_per_drawbar_in_lb.unwrap().iter().enumerate() {
                let found = high.axle_lb[at] - low.axle_lb[at];
                prop_assert!(near(found, *change, 1e-9, weight), "{found} is not {change}");
            }
            let push = high.tongue_lb - low.tongue_lb;
            prop_assert!(near(push, by.dtongue_per_ball_in_lb * ball, 1e-9, weight));
            let pitch = high.trailer_pitch_deg - low.trailer_pitch_deg;
            prop_assert!(near(pitch, by.dpitch_per_ball_in_deg * ball, 1e-8, 1.0));
        }
    }
}
