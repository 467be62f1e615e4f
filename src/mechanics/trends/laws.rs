//! What must hold of trends whatever the numbers are.

use crate::mechanics::trends::{BadSide, Course, LineRead, ReadOn, limit_day, theil_sen};
use crate::mechanics::wild::{only_numbers, wild};
use proptest::prelude::*;

fn stretch(read: &[(f64, f64)]) -> Vec<ReadOn> {
    let read = read.iter();
    read.map(|(day, value)| ReadOn {
        day: *day,
        value: *value,
    })
    .collect()
}

fn some() -> impl Strategy<Value = Vec<(f64, f64)>> {
    proptest::collection::vec((0.0..400.0_f64, 20.0..90.0_f64), 0..14)
}

proptest! {
    #[test]
    fn nothing_but_numbers_comes_out(
        read in proptest::collection::vec(
            proptest::collection::vec((wild(), wild()), 0..7), 0..4),
        level in wild(), limit in wild(), one in wild(), two in wild(), three in wild(),
    ) {
        let stretches = read.iter().map(|read| stretch(read)).collect();
        only_numbers(&theil_sen(&LineRead { stretches }));
        let mut slopes = [one, two, three];
        slopes.sort_unstable_by(f64::total_cmp);
        let [low_a_day, slope_a_day, high_a_day] = slopes;
        for bad in [BadSide::Below, BadSide::Above] {
            only_numbers(&limit_day(&Course {
                level, limit, bad, slope_a_day, low_a_day, high_a_day,
            }));
        }
    }

    #[test]
    fn the_interval_holds_the_slope(one in some(), two in some()) {
        let line = LineRead { stretches: vec![stretch(&one), stretch(&two)] };
        if let Ok(found) = theil_sen(&line) {
            prop_assert!(found.low_a_day <= found.slope_a_day, "{found:?}");
            prop_assert!(found.slope_a_day <= found.high_a_day, "{found:?}");
        }
    }

    #[test]
    fn more_of_everything_and_the_order_of_typing_change_no_slope(
        mut read in some(), more in -30.0..30.0_f64, turn in 0..14_usize,
    ) {
        let line = |read: &[(f64, f64)]| theil_sen(&LineRead { stretches: vec![stretch(read)] });
        let Ok(first) = line(&read) else { return Ok(()) };
        let turn = turn % read.len().max(1);
        read.rotate_left(turn);
        for (_, value) in &mut read {
            *value += more;
        }
        let again = line(&read).unwrap();
        prop_assert!((first.slope_a_day - again.slope_a_day).abs() < 1e-6, "{first:?} {again:?}");
    }

    #[test]
    fn a_second_stretch_far_away_weighs_by_its_own_pairs_alone(read in some()) {
        let line = |stretches| theil_sen(&LineRead { stretches });
        let lifted: Vec<_> = read.iter().map(|(day, value)| (*day, value + 500.0)).collect();
        let one = line(vec![stretch(&read)]);
        let both = line(vec![stretch(&read), stretch(&lifted)]);
        if let (Ok(one), Ok(both)) = (one, both) {
            prop_assert!((one.slope_a_day - both.slope_a_day).abs() < 1e-6);
        }
    }
}
