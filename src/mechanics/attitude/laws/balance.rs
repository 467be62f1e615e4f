//! What stands still is in balance: forces, and moments about any point.

use super::any::{near, standing, weight_and_moment};
use crate::mechanics::Springing;
use crate::mechanics::attitude::Status;
use proptest::prelude::*;

proptest! {
    #[test]
    fn the_trailer_is_in_balance_about_its_ball((rig, rests) in standing()) {
        let (weight, moment) = weight_and_moment(&rig.trailer.items);
        let axles: f64 = rests.axle_lb.iter().sum();
        prop_assert!(near(axles + rests.tongue_lb, weight, 1e-9, weight));
        let turns: f64 = rig
            .trailer
            .axles
            .iter()
            .zip(&rests.axle_lb)
            .map(|(axle, load)| axle.x_in * load)
            .sum();
        let asked = moment + rig.wd_moment_lbft * 12.0;
        prop_assert!(near(turns, asked, 1e-9, moment), "{turns} is not {asked}");
    }

    /// The couple of spring bars is inside the rig: about the truck's front axle it is not seen.
    #[test]
    fn the_whole_rig_is_in_balance_about_the_truck_s_front_axle((rig, rests) in standing()) {
        let truck = &rig.truck;
        let (payload, payload_moment) = weight_and_moment(&truck.payload);
        let (trailer, trailer_moment) = weight_and_moment(&rig.trailer.items);
        let ball = truck.wheelbase_in + truck.ball_behind_rear_axle_in;
        let weight = truck.front_lb + truck.rear_lb + payload + trailer;
        let axles: f64 = rests.axle_lb.iter().sum();
        let carried = rests.truck_front_lb + rests.truck_rear_lb + axles;
        prop_assert!(near(carried, weight, 1e-9, weight));
        let asked = truck.rear_lb * truck.wheelbase_in
            + payload_moment
            + trailer * ball
            + trailer_moment;
        let turns: f64 = rig
            .trailer
            .axles
            .iter()
            .zip(&rests.axle_lb)
            .map(|(axle, load)| (ball + axle.x_in) * load)
            .sum();
        let turns = turns + rests.truck_rear_lb * truck.wheelbase_in;
        prop_assert!(near(turns, asked, 1e-9, asked), "{turns} is not {asked}");
    }

    #[test]
    fn an_axle_on_the_road_presses_and_one_off_it_hangs_clear((rig, rests) in standing()) {
        let trailer = &rig.trailer;
        if trailer.suspension == Springing::Torsion {
            let (z, t) = (rests.ball_height_coupled_in, rests.trailer_pitch_deg.to_radians());
            for (at, axle) in trailer.axles.iter().enumerate() {
                let free = trailer.level_coupler_height_in
                    + trailer.ref_axle_load_lb / axle.rate_lb_in
                    + axle.mount_offset_in;
                let squeezed = free - z + t * axle.x_in;
                if rests.on_road[at] {
                    let force = axle.rate_lb_in * squeezed;
                    prop_assert!(near(rests.axle_lb[at], force, 1e-9, rests.trailer_gross_lb));
                } else {
                    prop_assert_eq!(rests.axle_lb[at].to_bits(), 0.0_f64.to_bits());
                    prop_assert!(squeezed <= 1e-9, "squeezed by {squeezed}");
                }
            }
            let lifted = rests.status != Status::AllAxles;
            prop_assert_eq!(lifted, rests.on_road.contains(&false));
        }
    }

    #[test]
    fn an_equalizer_off_its_stops_gives_each_axle_the_same((_, rests) in standing()) {
        if rests.status == Status::Equalized {
            for load in &rests.axle_lb {
                prop_assert!(near(*load, rests.axle_lb[0], 1e-9, *load));
            }
        }
    }
}
