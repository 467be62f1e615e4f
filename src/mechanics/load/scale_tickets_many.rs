//! The spread of scale tickets, by weighing one rig many times.

use crate::mechanics::load::{ScaleTickets, Weighed, scale_tickets};
use proptest::prelude::*;
use proptest::test_runner::{RngAlgorithm, TestRng};

const H: f64 = 20.0;

/// Weighings of the same rig.
const MANY: u32 = 20_000;

fn true_rig() -> ScaleTickets {
    ScaleTickets {
        alone_front_lb: 3440.0,
        alone_rear_lb: 2860.0,
        hitched_front_lb: 3200.0,
        hitched_rear_lb: 3820.0,
        hitched_trailer_lb: 4960.0,
        reading_error_lb: H,
        bars_front_lb: None,
        bars_rear_lb: None,
        bars_trailer_lb: None,
        trailer_only_lb: None,
        wheelbase_in: None,
        ball_behind_rear_axle_in: None,
    }
}

/// The rig as a scale reads it, each reading off by so much.
fn read(off: [f64; 5]) -> ScaleTickets {
    let rig = true_rig();
    ScaleTickets {
        alone_front_lb: rig.alone_front_lb + off[0],
        alone_rear_lb: rig.alone_rear_lb + off[1],
        hitched_front_lb: rig.hitched_front_lb + off[2],
        hitched_rear_lb: rig.hitched_rear_lb + off[3],
        hitched_trailer_lb: rig.hitched_trailer_lb + off[4],
        ..rig
    }
}

fn spread(of: &[Weighed], part: fn(&Weighed) -> f64) -> f64 {
    let count = f64::from(u32::try_from(of.len()).unwrap());
    let mean = of.iter().map(part).sum::<f64>() / count;
    let off = of.iter().map(|one| part(one) - mean);
    let squares: f64 = off.map(|off| off * off).sum();
    (squares / count).sqrt()
}

#[test]
fn many_weighings_spread_as_the_formula_says() {
    let mut dice = TestRng::from_seed(RngAlgorithm::ChaCha, &[7; 32]);
    let mut off = || (f64::from(dice.next_u32()) / f64::from(u32::MAX) * 2.0 - 1.0) * H;
    let weighed: Vec<Weighed> = (0..MANY)
        .map(|_| scale_tickets(&read([off(), off(), off(), off(), off()])).unwrap())
        .collect();
    let said = scale_tickets(&true_rig()).unwrap();
    for (found, said) in [
        (spread(&weighed, |one| one.tongue_lb), said.sd_tongue_lb),
        (spread(&weighed, |one| one.gross_lb), said.sd_gross_lb),
        (spread(&weighed, |one| one.tongue_pct), said.sd_tongue_pct),
    ] {
        assert!((found / said - 1.0).abs() < 0.02, "{found} is not {said}");
    }
    assert!(weighed.iter().all(|one| {
        one.tongue_pct >= said.lowest_tongue_pct && one.tongue_pct <= said.highest_tongue_pct
    }));
}

proptest! {
    /// The worst corner is reached, and no other reading goes beyond it.
    #[test]
    fn no_reading_goes_beyond_the_worst_corner(off in prop::array::uniform5(-H..=H)) {
        let said = scale_tickets(&true_rig()).unwrap();
        let share = scale_tickets(&read(off)).unwrap().tongue_pct;
        prop_assert!(share >= said.lowest_tongue_pct && share <= said.highest_tongue_pct);
        let lowest = scale_tickets(&read([H, H, -H, -H, H])).unwrap().tongue_pct;
        prop_assert!((lowest - said.lowest_tongue_pct).abs() < 1e-9);
        let first_order = said.tongue_pct - said.lowest_tongue_pct;
        prop_assert!((first_order / said.bound_tongue_pct - 1.0).abs() < 0.05);
    }
}
