//! What must hold of heat, hours and gaps whatever the numbers are.

use crate::mechanics::horse::{
    Aboard, Following, Hauled, Weather, following_gap, heat_sum, rest, transport_loss,
};
use crate::mechanics::wild::{only_numbers, wild};
use proptest::prelude::*;

fn told(temp_f: f64, humidity_pct: f64, wind_mph: f64) -> crate::mechanics::horse::HeatSum {
    let weather = Weather {
        temp_f,
        humidity_pct,
        wind_mph,
    };
    heat_sum(&weather).unwrap()
}

proptest! {
    #[test]
    fn hotter_damper_or_stiller_air_never_gets_a_milder_band(
        temp in 0.0..120.0_f64, damp in 0.0..90.0_f64, wind in 0.0..50.0_f64, more in 0.0..10.0_f64,
    ) {
        let before = told(temp, damp, wind + more);
        for worse in [
            told(temp + more, damp, wind + more),
            told(temp, damp + more, wind + more),
            told(temp, damp, wind),
        ] {
            for (now, then) in worse.variants.iter().zip(before.variants) {
                prop_assert!(now.band >= then.band, "{now:?} {then:?}");
            }
        }
    }

    #[test]
    fn a_longer_time_aboard_leaves_less(hours in 0.0..90.0_f64, more in 0.01..9.0_f64) {
        let at = |aboard_h| rest(&Aboard {
            aboard_h,
            loading_h: 0.0,
            since_stop_h: None,
            owner_request: false,
            rest_aboard: false,
            heat_sum: None,
        }).unwrap();
        prop_assert!(at(hours + more).day_left_h < at(hours).day_left_h);
        prop_assert!(at(hours + more).law_left_h < at(hours).law_left_h);
    }

    #[test]
    fn whatever_goes_in_only_numbers_come_out(n in [wild(), wild(), wild(), wild()]) {
        let [a, b, c, d] = n;
        only_numbers(&heat_sum(&Weather { temp_f: a, humidity_pct: b, wind_mph: c }));
        only_numbers(&rest(&Aboard {
            aboard_h: a, loading_h: b, since_stop_h: Some(c), owner_request: true,
            rest_aboard: false, heat_sum: Some(d),
        }));
        only_numbers(&transport_loss(&Hauled { weight_lb: a, hours: b }));
        only_numbers(&following_gap(&Following { speed_mph: a, seconds: b }));
    }
}
