//! What holds for any numbers at all: an answer is made of numbers, or there is none.

use crate::mechanics::NoNumber;
use crate::mechanics::chains::{
    Anchor, AtAngle, ChainLongest, ChainNeeds, CordNeeds, Cradle, Drop, EyePair, InTurns,
    LanyardWindow, School, anchor_distance, chain_longest, chain_needs, cord_needs, coupler_drop,
    cradle, lanyard_window, max_anchor_distance,
};
use proptest::prelude::*;
use std::fmt::Debug;

/// Lengths as they are on rigs, with odd ones among them.
fn length() -> impl Strategy<Value = f64> {
    prop_oneof![
        8 => -60.0..60.0_f64,
        1 => Just(0.0),
        1 => proptest::num::f64::ANY,
    ]
}

fn anchor() -> impl Strategy<Value = Anchor> {
    [length(), length(), length()].prop_map(Anchor::from)
}

fn eyes() -> impl Strategy<Value = EyePair> {
    [length(), length(), length(), length(), length(), length()].prop_map(
        |[
            truck_x_in,
            truck_half,
            truck_z_in,
            trailer_x_in,
            trailer_half,
            trailer_z_in,
        ]| EyePair {
            truck_x_in,
            truck_half_width_in: truck_half.abs(),
            truck_z_in,
            trailer_x_in,
            trailer_half_width_in: trailer_half.abs(),
            trailer_z_in,
        },
    )
}

fn numbers<T: Debug>(answer: Result<T, NoNumber>) -> Result<(), TestCaseError> {
    if let Ok(found) = answer {
        let told = format!("{found:?}");
        prop_assert!(!told.contains("NaN") && !told.contains("inf"), "{told}");
    }
    Ok(())
}

proptest! {
    #[test]
    fn distances_are_numbers_or_refused(
        truck in anchor(), trailer in anchor(), turn in length(), pitch in length(),
        ball in proptest::option::of(length()),
    ) {
        numbers(max_anchor_distance(&InTurns {
            truck_anchor_in: truck,
            trailer_anchor_in: trailer,
            max_yaw_deg: turn,
            pitch_deg: pitch,
            ball_height_in: ball,
        }))?;
        numbers(anchor_distance(&AtAngle {
            truck_anchor_in: truck,
            trailer_anchor_in: trailer,
            yaw_deg: turn,
            pitch_deg: pitch,
            ball_height_in: ball,
        }))?;
    }

    #[test]
    fn chains_are_numbers_or_refused(
        eyes in eyes(), crossed: bool, below in length(), margin in length(), long in length(),
    ) {
        numbers(chain_needs(&ChainNeeds {
            eyes,
            crossed,
            max_yaw_deg: 90.0,
            margin_in: margin,
            pitch_deg: 0.0,
            ball_height_in: None,
        }))?;
        numbers(chain_longest(&ChainLongest {
            eyes,
            clearance_in: margin,
            coupler_bottom_below_anchor_in: Some(below),
            crossed,
        }))?;
        numbers(cradle(&Cradle {
            eyes,
            chain_length_in: long,
            coupler_bottom_below_anchor_in: below,
            crossed,
        }))?;
        numbers(coupler_drop(&Drop {
            truck_anchor_z_in: eyes.truck_z_in,
            trailer_anchor_z_in: eyes.trailer_z_in,
            lateral_offset_in: eyes.truck_half_width_in,
            chain_length_in: long,
            x_gap_in: margin,
            coupler_bottom_below_anchor_in: below,
        }))?;
    }

    #[test]
    fn lanyard_and_cord_are_numbers_or_refused(
        ends in [anchor(), anchor(), anchor(), anchor()], long in length(), drop in length(),
        after: bool,
    ) {
        let [lanyard, switch, truck, trailer] = ends;
        let school = if after { School::AfterChains } else { School::BeforeChains };
        numbers(lanyard_window(&LanyardWindow {
            lanyard_truck_in: lanyard,
            switch_in: switch,
            chain_truck_in: truck,
            chain_trailer_in: trailer,
            chain_length_in: long,
            cord_truck_in: Some(lanyard),
            cord_trailer_in: Some(switch),
            max_yaw_deg: 90.0,
            school,
            margin_in: 3.0,
            pin_travel_in: 1.0,
            drop_limit_in: drop,
            clearance_in: 3.0,
        }))?;
        numbers(cord_needs(&CordNeeds {
            cord_truck_in: lanyard,
            cord_trailer_in: switch,
            chain_truck_in: Some(truck),
            chain_trailer_in: Some(trailer),
            chain_length_in: Some(long),
            max_yaw_deg: 75.0,
            margin_in: drop,
            drop_limit_in: drop,
        }))?;
    }

    /// The longer the chains, the more room between the two lengths of the lanyard.
    #[test]
    fn longer_chains_never_narrow_the_window_of_the_lanyard_that_pulls_before_them(
        long in 26.0..40.0_f64, more in 0.0..10.0_f64,
    ) {
        let window = |chain_length_in| lanyard_window(&LanyardWindow {
            lanyard_truck_in: [-14.0, 2.0, 17.0].into(),
            switch_in: [9.0, 1.0, 21.0].into(),
            chain_truck_in: [-6.0, 8.0, 14.0].into(),
            chain_trailer_in: [14.0, -5.0, 16.0].into(),
            chain_length_in,
            cord_truck_in: None,
            cord_trailer_in: None,
            max_yaw_deg: 75.0,
            school: School::BeforeChains,
            margin_in: 3.0,
            pin_travel_in: 1.0,
            drop_limit_in: 12.0,
            clearance_in: 3.0,
        }).unwrap().window_in.unwrap();
        prop_assert!(window(long + more) >= window(long) - 1e-9);
    }
}
