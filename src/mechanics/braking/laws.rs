//! Laws of braking that hold for any rig, whatever the numbers.

use crate::mechanics::attitude::laws::any::{standing, weight_and_moment};
use crate::mechanics::attitude::{StaticRig, StaticSolution};
use crate::mechanics::braking::rig::TRUCK_CG_HEIGHT_IN;
use crate::mechanics::braking::{
    BrakeState, Brakes, LooseTrailer, PerAxle, PulledTrailer, RigOnRoad, SlowingRig, brake_state,
    breakaway_decel, first_lock, pull_test,
};
use crate::mechanics::{Item, Trailer};
use proptest::prelude::*;

const NEARLY: f64 = 1e-9;

/// Any rig that stands, its load at a height, its leaf springs described.
fn rig() -> impl Strategy<Value = (StaticRig, StaticSolution)> {
    let leaf = (12.0..26.0, 9.0..16.0);
    (standing(), 20.0..70.0, leaf).prop_map(|((mut rig, rests), height, leaf)| {
        for item in &mut rig.trailer.items {
            item.z_in = height;
        }
        rig.trailer.eye_height_in = Some(leaf.0);
        rig.trailer.half_spring_in = Some(leaf.1);
        (rig, rests)
    })
}

fn brakes() -> impl Strategy<Value = Brakes> {
    let lifting = prop_oneof![Just(None), (0.0..2.5).prop_map(Some)];
    (0.0..1.2, any::<bool>(), lifting).prop_map(|(gain, truck_follows, pivot_over_arm)| Brakes {
        gain,
        truck_follows,
        truck_cg_height_in: None,
        pivot_over_arm,
        braked: None,
    })
}

fn height_of(items: &[Item]) -> f64 {
    items.first().map_or(0.0, |item| item.z_in)
}

fn slowed(rig: &StaticRig, brakes: &Brakes, decel_g: f64) -> Option<BrakeState> {
    let inputs = SlowingRig {
        rig: rig.clone(),
        brakes: brakes.clone(),
        decel_g,
    };
    brake_state(&inputs).ok()
}

/// What an equalizer asks of loads: how much more each axle carries than the one ahead.
fn steps(trailer: &Trailer, forces: &[f64]) -> Vec<f64> {
    let lever = trailer.eye_height_in.unwrap() / trailer.half_spring_in.unwrap();
    let pairs = forces.windows(2);
    pairs.map(|pair| lever * (pair[0] + pair[1])).collect()
}

fn loose(trailer: &Trailer, force: f64, mu_tire: f64, mu_skid: f64) -> LooseTrailer {
    LooseTrailer {
        trailer: trailer.clone(),
        coupler_rest_height_in: 4.0,
        brake_force_max_per_axle_lb: PerAxle::Same(force),
        mu_tire,
        mu_skid,
        pivot_over_arm: None,
    }
}

proptest! {
    #[test]
    fn a_rig_that_slows_down_is_in_balance(
        (rig, rests) in rig(), brakes in brakes(), decel in 0.0..0.8_f64
    ) {
        if let Some(state) = slowed(&rig, &brakes, decel) {
            let (weight, moment) = weight_and_moment(&rig.trailer.items);
            let stands = &state.standing;
            let up: f64 = stands.axle_lb.iter().sum::<f64>() + stands.tongue_lb;
            prop_assert!((up - weight).abs() < NEARLY * weight);
            let held: f64 = state.brake_per_axle_lb.iter().sum();
            prop_assert!((held + state.coupler_push_lb - weight * decel).abs() < NEARLY * weight);
            let bars = rig.wd_moment_lbft * 12.0;
            let ball = rests.ball_height_coupled_in;
            let axles = rig.trailer.axles.iter().zip(&stands.axle_lb);
            let turns: f64 = axles.map(|(axle, load)| axle.x_in * load).sum();
            let asked = moment + bars - weight * decel * height_of(&rig.trailer.items)
                + state.coupler_push_lb * ball;
            prop_assert!((turns - asked).abs() < NEARLY * moment);
        }
    }

    #[test]
    fn the_truck_of_a_rig_that_slows_down_is_in_balance(
        (rig, rests) in rig(), brakes in brakes(), decel in 0.0..0.8_f64
    ) {
        if let Some(state) = slowed(&rig, &brakes, decel) {
            let (truck, stands) = (&rig.truck, &state.standing);
            let (load, moment) = weight_and_moment(&truck.payload);
            let weight = truck.front_lb + truck.rear_lb + load;
            let on_road = stands.truck_front_lb + stands.truck_rear_lb;
            prop_assert!((on_road - weight - stands.tongue_lb).abs() < NEARLY * weight);
            // About the point under the front axle.
            let base = truck.wheelbase_in;
            let ball = base + truck.ball_behind_rear_axle_in;
            let forward = weight * decel * TRUCK_CG_HEIGHT_IN
                + state.coupler_push_lb * rests.ball_height_coupled_in
                + rig.wd_moment_lbft * 12.0;
            let down = truck.rear_lb * base + moment + stands.tongue_lb * ball - forward;
            prop_assert!((stands.truck_rear_lb * base - down).abs() < NEARLY * weight * base);
        }
    }

    #[test]
    fn an_equalizer_passes_on_what_its_levers_say(
        (rig, _) in rig(), brakes in brakes(), decel in 0.0..0.4_f64
    ) {
        use crate::mechanics::attitude::Status;
        if let Some(state) = slowed(&rig, &brakes, decel)
            && state.standing.status == Status::Equalized
        {
            let loads = state.standing.axle_lb.windows(2);
            for (pair, step) in loads.zip(steps(&rig.trailer, &state.brake_per_axle_lb)) {
                prop_assert!((pair[1] - pair[0] - step).abs() < 1e-6);
            }
        }
    }

    #[test]
    fn the_first_axle_to_slide_asks_for_all_the_grip_and_no_other_for_more(
        (rig, _) in rig(), mut brakes in brakes(), mu in 0.2..0.9_f64
    ) {
        brakes.gain = 1.0;
        let on_road = RigOnRoad { rig: rig.clone(), brakes: brakes.clone(), mu };
        let slides = first_lock(&on_road).ok().filter(|first| first.decel_g > 1e-3);
        if let Some(first) = slides
            && let Some(then) = slowed(&rig, &brakes, first.decel_g)
            && let Some(before) = slowed(&rig, &brakes, 0.99 * first.decel_g)
        {
            let most = then.mu_used.iter().flatten().copied().fold(0.0, f64::max);
            prop_assert!((most - mu).abs() < 1e-6, "{most} is not {mu}");
            prop_assert!(before.mu_used.iter().flatten().all(|used| *used < mu));
        }
    }

    #[test]
    fn with_everything_sliding_at_one_grip_the_deceleration_is_that_grip(
        (rig, _) in rig(), mu in 0.1..1.0_f64
    ) {
        if let Ok(slides) = breakaway_decel(&loose(&rig.trailer, 1e7, mu, mu)) {
            prop_assert!((slides.decel_g - mu).abs() < NEARLY);
        }
    }

    #[test]
    fn a_loose_trailer_is_held_back_by_what_slows_it(
        (rig, _) in rig(), force in 0.0..4000.0_f64, mu in 0.2..0.9_f64
    ) {
        if let Ok(slides) = breakaway_decel(&loose(&rig.trailer, force, mu, 0.4)) {
            let (weight, _) = weight_and_moment(&rig.trailer.items);
            let back = slides.axle_brake_lb.iter().sum::<f64>() + 0.4 * slides.skid_load_lb;
            prop_assert!((back - weight * slides.decel_g).abs() < NEARLY * weight);
        }
    }

    #[test]
    fn more_brake_force_never_slows_a_loose_trailer_less(
        (rig, _) in rig(), force in 0.0..3000.0_f64, more in 0.0..3000.0_f64, mu in 0.4..0.9_f64
    ) {
        let weaker = breakaway_decel(&loose(&rig.trailer, force, mu, 0.4));
        let stronger = breakaway_decel(&loose(&rig.trailer, force + more, mu, 0.4));
        if let (Ok(weaker), Ok(stronger)) = (weaker, stronger) {
            prop_assert!(stronger.decel_g >= weaker.decel_g - NEARLY);
        }
    }

    #[test]
    fn more_brake_force_never_pulls_less_and_never_more_than_the_grip(
        (rig, _) in rig(), force in 0.0..3000.0_f64, more in 0.0..3000.0_f64, mu in 0.3..0.9_f64
    ) {
        let pulled = |force: f64| pull_test(&PulledTrailer {
            trailer: rig.trailer.clone(),
            ball_height_in: None,
            brake_force_max_per_axle_lb: PerAxle::Same(force),
            mu_tire: mu,
            rolling_coeff: 0.01,
            pivot_over_arm: None,
        });
        if let (Ok(weaker), Ok(stronger)) = (pulled(force), pulled(force + more)) {
            let (weight, _) = weight_and_moment(&rig.trailer.items);
            prop_assert!(stronger.pull_lb >= weaker.pull_lb - NEARLY * weight);
            let grip = mu * stronger.axle_lb.iter().sum::<f64>();
            prop_assert!(stronger.pull_lb <= grip + NEARLY * weight);
        }
    }
}
