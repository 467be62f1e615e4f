//! What must hold of tires whatever the numbers are.

use crate::mechanics::tires::{
    AirChange, Altitude, AtLoad, AtPressure, HotReading, LoadIndex, LoadOnRow, PassengerTire,
    ST_EXPONENT, TableRow, hot_reading, isa_pressure_psi, load_index, p_metric_on_trailer,
    tire_capacity, tire_capacity_table, tire_pressure_by_table, tire_pressure_for_load,
    tire_pressure_shift,
};
use crate::mechanics::wild::{only_numbers, wild};
use proptest::collection::vec;
use proptest::prelude::*;

fn capacity(pressure_psi: f64) -> f64 {
    let tire = AtPressure {
        pressure_psi,
        ref_psi: 80.0,
        ref_load_lb: 2830.0,
        exponent: ST_EXPONENT,
    };
    tire_capacity(&tire).unwrap().capacity_lb
}

fn shifted(gauge_psi: f64, temp_f: f64, new_temp_f: f64, altitude_ft: f64, new_ft: f64) -> f64 {
    let air = AirChange {
        gauge_psi,
        temp_f,
        new_temp_f,
        altitude_ft,
        new_altitude_ft: Some(new_ft),
    };
    tire_pressure_shift(&air).unwrap().gauge_psi
}

/// A printed row that rises.
fn row() -> impl Strategy<Value = Vec<(f64, f64)>> {
    vec((1.0..10.0_f64, 10.0..200.0_f64), 1..12).prop_map(|steps| {
        let mut at = (10.0, 800.0);
        steps
            .into_iter()
            .map(|(psi, load)| {
                at = (at.0 + psi, at.1 + load);
                at
            })
            .collect()
    })
}

proptest! {
    #[test]
    fn more_pressure_never_means_less_load(psi in 15.0..120.0_f64, more in 0.0..40.0_f64) {
        prop_assert!(capacity(psi + more) >= capacity(psi));
        prop_assert!(capacity(psi) <= 2830.0);
    }

    #[test]
    fn along_a_printed_row_more_pressure_never_means_less_load(
        row in row(), psi in 0.0..140.0_f64, more in 0.0..40.0_f64,
    ) {
        let at = |pressure_psi| {
            let asked = TableRow { pressure_psi, row: row.clone() };
            tire_capacity_table(&asked).unwrap().capacity_lb.unwrap_or(0.0)
        };
        prop_assert!(at(psi + more) >= at(psi));
    }

    #[test]
    fn a_load_asks_for_the_pressure_that_carries_it(psi in 15.0..80.0_f64) {
        let asked = AtLoad {
            load_lb: capacity(psi),
            ref_psi: 80.0,
            ref_load_lb: 2830.0,
            exponent: ST_EXPONENT,
        };
        if let Some(back) = tire_pressure_for_load(&asked).unwrap().pressure_psi {
            prop_assert!((back - psi).abs() < 1e-9);
        } else {
            prop_assert!(psi < 15.000_001);
        }
    }

    #[test]
    fn a_printed_row_read_one_way_and_the_other_comes_back(row in row(), along in 0.0..=1.0_f64) {
        let (lowest, highest) = (row.first().unwrap().0, row.last().unwrap().0);
        let pressure_psi = lowest + (highest - lowest) * along;
        let asked = TableRow { pressure_psi, row: row.clone() };
        let load_lb = tire_capacity_table(&asked).unwrap().capacity_lb.unwrap();
        let needed = tire_pressure_by_table(&LoadOnRow { load_lb, row }).unwrap();
        prop_assert!((needed.pressure_psi.unwrap() - pressure_psi).abs() < 1e-9);
    }

    #[test]
    fn air_warmed_and_cooled_carried_up_and_down_reads_as_before(
        psi in 30.0..110.0_f64,
        cold in -40.0..120.0_f64,
        warm in -40.0..120.0_f64,
        low in 0.0..12_000.0_f64,
        high in 0.0..12_000.0_f64,
    ) {
        let there = shifted(psi, cold, warm, low, high);
        let back = shifted(there, warm, cold, high, low);
        prop_assert!((back - psi).abs() < 1e-9, "{back}");
    }

    #[test]
    fn warmer_air_and_higher_places_read_more(
        psi in 30.0..110.0_f64, cold in -40.0..120.0_f64, more in 0.01..80.0_f64,
    ) {
        prop_assert!(shifted(psi, cold, cold + more, 0.0, 0.0) > psi);
        prop_assert!(shifted(psi, cold, cold, 0.0, 100.0 * more) > psi);
    }

    #[test]
    fn each_load_index_carries_more_than_the_one_before(index in 71_u8..=130) {
        let at = |li| load_index(&LoadIndex { li }).unwrap().load_kg;
        prop_assert!(at(f64::from(index)) > at(f64::from(index) - 1.0));
    }

    #[test]
    fn whatever_goes_in_only_numbers_come_out(n in [wild(), wild(), wild(), wild(), wild()]) {
        let [a, b, c, d, e] = n;
        only_numbers(&tire_capacity(&AtPressure {
            pressure_psi: a, ref_psi: b, ref_load_lb: c, exponent: d,
        }));
        only_numbers(&tire_pressure_for_load(&AtLoad {
            load_lb: a, ref_psi: b, ref_load_lb: c, exponent: ST_EXPONENT,
        }));
        only_numbers(&tire_capacity_table(&TableRow {
            pressure_psi: a, row: vec![(b, c), (d, e)],
        }));
        only_numbers(&tire_pressure_by_table(&LoadOnRow { load_lb: a, row: vec![(b, c), (d, e)] }));
        only_numbers(&tire_pressure_shift(&AirChange {
            gauge_psi: a, temp_f: b, new_temp_f: c, altitude_ft: d, new_altitude_ft: Some(e),
        }));
        only_numbers(&isa_pressure_psi(&Altitude { altitude_ft: a }));
        only_numbers(&load_index(&LoadIndex { li: a }));
        only_numbers(&p_metric_on_trailer(&PassengerTire { max_load_lb: a }));
        only_numbers(&hot_reading(&HotReading {
            measured_psi: a, average_speed_mph: b, tire_max_load_lb: c, placard_psi: Some(d),
        }));
    }
}
