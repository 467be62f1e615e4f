//! What must hold of wheels whatever the numbers are.

use crate::mechanics::wheels::{
    OrderTold, Recheck, Seat, Stud, Studs, Tightened, WheelAndStud, WheelOff, WrenchAsked,
    clamp_from_torque, retorque_due, retorque_loss, star_ok, star_order, stud_torque,
    wheel_torque_table, wrench_ok,
};
use crate::mechanics::wild::{only_numbers, wild};
use proptest::prelude::*;

proptest! {
    #[test]
    fn the_torque_of_a_clamp_gives_the_clamp_back(
        diameter_in in 0.25..1.5_f64,
        tpi in 8.0..32.0_f64,
        proof_psi in 30_000.0..150_000.0_f64,
        k in 0.05..0.5_f64,
        fraction in 0.1..1.0_f64,
    ) {
        let stud = stud_torque(&Stud { diameter_in, tpi, proof_psi, k, fraction }).unwrap();
        let torque_lbft = stud.torque_lbft;
        let back = clamp_from_torque(&Tightened { torque_lbft, diameter_in, k }).unwrap();
        prop_assert!((back.clamp_lb / stud.clamp_lb - 1.0).abs() < 1e-12);
    }

    #[test]
    fn every_star_told_starts_at_one_and_is_a_star(studs in 4_u32..=10) {
        let order = star_order(&Studs { studs }).unwrap().order;
        prop_assert_eq!(order.first(), Some(&1));
        let told = star_ok(&OrderTold { order });
        prop_assert!(told.unwrap().ok);
    }

    #[test]
    fn a_star_stays_one_numbered_from_another_nut(studs in 4_u32..=10, turn in 0_u32..10) {
        let order = star_order(&Studs { studs }).unwrap().order;
        let turned = order.iter().map(|stud| (stud - 1 + turn) % studs + 1).collect();
        let told = star_ok(&OrderTold { order: turned });
        prop_assert!(told.unwrap().ok);
    }

    #[test]
    fn any_setting_called_in_band_is_in_it_whatever_the_wrench_does(
        low in 20.0..200.0_f64,
        wide in 0.0..100.0_f64,
        setting in 20.0..300.0_f64,
        wrong in -1.0..=1.0_f64,
    ) {
        let told = wrench_ok(&WrenchAsked {
            target_low_lbft: low,
            target_high_lbft: low + wide,
            setting_lbft: setting,
            wrench_max_lbft: 300.0,
            wrench_low_mark_lbft: None,
            accuracy: 0.04,
        }).unwrap();
        let truly = setting * (1.0 + 0.04 * wrong);
        let inside = truly >= low - 1e-9 && truly <= low + wide + 1e-9;
        prop_assert!(inside || !told.in_band);
    }

    #[test]
    fn the_next_re_check_is_never_behind_the_last_one(
        off in 0.0..200_000.0_f64, driven in 0.0..100.0_f64, on in 0.0..100.0_f64,
    ) {
        let checked = off + driven;
        let due = retorque_due(&WheelOff {
            wheel_off_at_mi: off,
            odometer_mi: checked + on,
            last_recheck_at_mi: Some(checked),
        }).unwrap();
        prop_assert!(due.due_at_mi.is_none_or(|due| due > checked - 1e-9));
    }

    #[test]
    fn whatever_goes_in_only_numbers_come_out(n in [wild(), wild(), wild(), wild(), wild()]) {
        let [a, b, c, d, e] = n;
        only_numbers(&stud_torque(&Stud {
            diameter_in: a, tpi: b, proof_psi: c, k: d, fraction: e,
        }));
        only_numbers(&clamp_from_torque(&Tightened { torque_lbft: a, diameter_in: b, k: c }));
        only_numbers(&wrench_ok(&WrenchAsked {
            target_low_lbft: a, target_high_lbft: b, setting_lbft: c, wrench_max_lbft: d,
            wrench_low_mark_lbft: Some(e), accuracy: 0.04,
        }));
        only_numbers(&retorque_due(&WheelOff {
            wheel_off_at_mi: a, odometer_mi: b, last_recheck_at_mi: Some(c),
        }));
        only_numbers(&retorque_loss(&Recheck {
            set_lbft: a, found_lbft: vec![b, c, d, e], lost_before: false,
        }));
        only_numbers(&wheel_torque_table(&WheelAndStud {
            stud_in: 0.5, wheel_in: a, seat: Seat::Cone, plate_lbft: Some((b, c)),
        }));
    }

    #[test]
    fn no_order_of_nuts_stops_the_program(order in proptest::collection::vec(0_u32..20, 0..14)) {
        only_numbers(&star_ok(&OrderTold { order }));
    }
}
