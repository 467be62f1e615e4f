//! What must hold of battery, magnets and wire whatever the numbers are.

use crate::mechanics::electrics::{
    BatteryInCold, BatteryLoaded, Chemistry, Gauge, MagnetCircuit, RestingVolts, WireLoaded, awg,
    battery_cold, battery_hold, magnet_volts, soc_from_volts, wire_drop,
};
use crate::mechanics::wild::{only_numbers, wild};
use proptest::prelude::*;

fn circuit(n_magnets: u32, one_way_ft: f64, gauge: f64) -> MagnetCircuit {
    MagnetCircuit {
        source_v: 12.6,
        n_magnets,
        drum_in: 12.0,
        magnet_ohm: None,
        one_way_ft,
        gauge,
        return_gauge: None,
        source_ohm: 0.03,
    }
}

proptest! {
    #[test]
    fn a_thinner_wire_resists_more(gauge in 0_u8..40) {
        let ohm = |gauge| awg(&Gauge { gauge }).unwrap().ohm_per_1000ft;
        prop_assert!(ohm(f64::from(gauge) + 1.0) > ohm(f64::from(gauge)));
    }

    #[test]
    fn what_is_lost_on_the_way_is_what_the_wire_and_the_battery_keep(
        n in 1_u32..=12, feet in 0.0..80.0_f64, gauge in 8_u8..18,
    ) {
        let gauge = f64::from(gauge);
        let told = magnet_volts(&circuit(n, feet, gauge)).unwrap();
        let wire = wire_drop(&WireLoaded {
            current_a: told.current_a, one_way_ft: feet, gauge, return_gauge: None,
        }).unwrap();
        prop_assert!((told.drop_v - wire.drop_v - told.current_a * 0.03).abs() < 1e-9);
        prop_assert!((told.magnet_v + told.drop_v - 12.6).abs() < 1e-9);
    }

    #[test]
    fn more_magnets_and_longer_wires_leave_fewer_volts(
        n in 1_u32..12, feet in 0.0..80.0_f64, more in 0.1..40.0_f64,
    ) {
        let volts = |n, feet| magnet_volts(&circuit(n, feet, 12.0)).unwrap().magnet_v;
        prop_assert!(volts(n + 1, feet) < volts(n, feet));
        prop_assert!(volts(n, feet + more) < volts(n, feet));
    }

    #[test]
    fn the_capacity_told_for_fifteen_minutes_holds_fifteen_minutes(
        current_a in 1.0..40.0_f64, peukert in 1.0..1.6_f64,
    ) {
        let hold = |capacity_ah| battery_hold(&BatteryLoaded {
            capacity_ah, rated_hours: 20.0, current_a, peukert,
        }).unwrap();
        let asked = hold(0.5).capacity_for_15_min_ah;
        prop_assert!((hold(asked).hold_min - 15.0).abs() < 1e-9);
        prop_assert!(!hold(asked * 0.99).ok_15_min && hold(asked * 1.01).ok_15_min);
    }

    #[test]
    fn a_larger_battery_holds_longer_and_a_warmer_one_gives_no_less(
        capacity_ah in 1.0..20.0_f64, more in 0.1..10.0_f64, temp_f in -4.0..110.0_f64,
    ) {
        let hold = |capacity_ah| battery_hold(&BatteryLoaded {
            capacity_ah, rated_hours: 20.0, current_a: 16.3, peukert: 1.15,
        }).unwrap().hold_min;
        prop_assert!(hold(capacity_ah + more) > hold(capacity_ah));
        let cold = |temp_f| battery_cold(&BatteryInCold { capacity_ah, temp_f })
            .unwrap().cold_capacity_ah;
        prop_assert!(cold(temp_f + more) >= cold(temp_f));
        prop_assert!(cold(temp_f) <= capacity_ah);
    }

    #[test]
    fn more_volts_at_rest_never_mean_less_charge(volts in 11.0..13.2_f64, more in 0.0..0.5_f64) {
        for kind in [Chemistry::Agm, Chemistry::Flooded] {
            let at = |volts: f64| soc_from_volts(&RestingVolts { volts: volts.min(13.2), kind })
                .unwrap().soc_pct.unwrap_or(0.0);
            prop_assert!(at(volts + more) >= at(volts));
        }
    }

    #[test]
    fn whatever_goes_in_only_numbers_come_out(
        n in [wild(), wild(), wild(), wild(), wild()], count in any::<u32>(),
    ) {
        let [a, b, c, d, e] = n;
        only_numbers(&awg(&Gauge { gauge: a.floor() }));
        only_numbers(&wire_drop(&WireLoaded {
            current_a: a, one_way_ft: b, gauge: c.floor(), return_gauge: Some(d.floor()),
        }));
        only_numbers(&magnet_volts(&MagnetCircuit {
            source_v: a, n_magnets: count % 16, drum_in: 12.0, magnet_ohm: None, one_way_ft: b, gauge: c.floor(),
            return_gauge: Some(d.floor()), source_ohm: e,
        }));
        only_numbers(&battery_hold(&BatteryLoaded {
            capacity_ah: a, rated_hours: b, current_a: c, peukert: 1.0 + d / 200.0,
        }));
        only_numbers(&battery_cold(&BatteryInCold { capacity_ah: a, temp_f: b }));
        only_numbers(&soc_from_volts(&RestingVolts { volts: a, kind: Chemistry::Agm }));
        only_numbers(&soc_from_volts(&RestingVolts { volts: a, kind: Chemistry::Flooded }));
    }
}
