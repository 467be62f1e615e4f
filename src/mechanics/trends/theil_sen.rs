//! # The slope of readings, and how far it is known

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// What `hames figure theil_sen` tells of it.
pub const PAGE: Page = Page {
    name: "theil_sen",
    title: "The slope of readings, and how far it is known",
    situation: "Each pair of readings of one stretch tells a slope, and the middle one of all \
                pairs is taken: one wild reading spoils few pairs and moves it little. Between \
                two stretches something was put right, so no pair reaches across.",
    formula: "b = median of (y_j - y_i) / (x_j - x_i) over pairs of one stretch with x_i < x_j; \
              s^2 = sum over stretches of [n (n - 1) (2 n + 5) - ties of x - ties of y] / 18, \
              each tie of t readings t (t - 1) (2 t + 5); the interval of 95 % runs from the \
              slope in place (N - 1.96 s) / 2 to the one in place (N + 1.96 s) / 2 + 1 of the N \
              in order",
    symbols: &[
        ("x", "day of a reading, from any first day"),
        ("y", "reading, in its own unit"),
        ("n", "readings of a stretch"),
        ("N", "pairs"),
        (
            "s",
            "standard deviation of Kendall's sum where nothing moves",
        ),
        ("b", "slope, the reading's unit a day"),
    ],
    holds: "2000 readings at the most, days within 100,000 and readings within 1e9 of 0. Refused \
            are so few readings that chance alone, where nothing moves, puts them in falling or \
            rising order more often than once in twenty: four in one stretch, or five stretches \
            of two",
    assumes: "Whatever is wrong with one reading has nothing to do with what is wrong with the \
              next, the slope is the same in each stretch, and what is read moves evenly. Where it \
              began to move half-way, the slope lies between.",
    never: "To tell what readings will be: it tells how they went. To call a thing steady because \
            its interval holds 0.",
    source: "P. K. Sen, Journal of the American Statistical Association 63 (1968) 1379, and H. \
             Theil (1950), with ties as in Hollander and Wolfe, Nonparametric Statistical Methods; \
             stretches put together as seasons are by Hirsch, Slack and Smith, Water Resources \
             Research 18 (1982) 107; all from memory",
};

/// The most readings it takes: so many have two million pairs.
pub const MOST_READINGS: usize = 2000;

/// Standard normal deviate that 2.5 % lie beyond.
const Z_95: f64 = 1.959_963_984_540_054;

/// So many orders must be possible that all falling and all rising together are at most one in
/// twenty of them.
const LEAST_ORDERS: u64 = 40;

/// One reading.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ReadOn {
    /// Its day, from any first day.
    pub day: f64,
    /// What was read.
    pub value: f64,
}

/// Readings in stretches; between two of them something was put right.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LineRead {
    /// The stretches.
    pub stretches: Vec<Vec<ReadOn>>,
}

/// How fast it moves.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Slope {
    /// The middle slope, a day.
    pub slope_a_day: f64,
    /// Lower end of the interval of 95 %.
    pub low_a_day: f64,
    /// Upper end.
    pub high_a_day: f64,
    /// How many pairs it rests on.
    pub pairs: usize,
    /// Whether the whole interval lies on one side of 0.
    pub moves: bool,
}

/// The middle slope with its interval.
///
/// # Errors
/// [`NoNumber`] outside the ranges, for too few readings, and where all of them are of one day.
pub fn theil_sen(inputs: &LineRead) -> Result<Slope, NoNumber> {
    look_at(inputs)?;
    let stretches = || inputs.stretches.iter();
    if !is_enough(stretches().map(|stretch| days(stretch))) {
        let readings: usize = stretches().map(Vec::len).sum();
        return Err(NoNumber::because(format!(
            "{readings} readings in {} tell no slope: where nothing moves, chance alone puts so \
             few in falling or rising order more often than once in twenty. Five readings on five \
             days between which nothing was put right are enough",
            counted(inputs.stretches.len())
        )));
    }
    let mut slopes: Vec<f64> = stretches().flat_map(|stretch| of_pairs(stretch)).collect();
    let variance: f64 = stretches().map(|stretch| variance(stretch)).sum();
    let pairs = number(slopes.len());
    let wide = Z_95 * variance.max(0.0).sqrt();
    // The same rounding as in the reference: half to even.
    let low = ((pairs - wide) / 2.0).round_ties_even() - 1.0;
    let high = f64::midpoint(pairs, wide).round_ties_even();
    let ends = (in_place(&mut slopes, low), in_place(&mut slopes, high));
    let (Some(low), Some(high)) = ends else {
        return Err(one_day());
    };
    let Some(slope) = middle(&mut slopes) else {
        return Err(one_day());
    };
    Ok(Slope {
        slope_a_day: finite("the slope", slope)?,
        low_a_day: finite("the slope", low)?,
        high_a_day: finite("the slope", high)?,
        pairs: slopes.len(),
        moves: low > 0.0 || high < 0.0,
    })
}

/// Whether stretches of readings on so many days are enough to tell anything by: the orders they
/// can come in are many.
pub fn is_enough(stretches: impl IntoIterator<Item = usize>) -> bool {
    let mut orders = 1_u64;
    for days in stretches {
        for day in 1..=u64::try_from(days).unwrap_or(u64::MAX) {
            orders = orders.saturating_mul(day);
            if orders >= LEAST_ORDERS {
                return true;
            }
        }
    }
    false
}

/// The middle of numbers; of an even number the mean of the two in the middle.
fn middle(numbers: &mut [f64]) -> Option<f64> {
    let (upper, lower) = (numbers.len() / 2, numbers.len().saturating_sub(1) / 2);
    Some(f64::midpoint(nth(numbers, lower)?, nth(numbers, upper)?))
}

/// The one in this place of all in order, the first in place 0; beyond either end that end.
fn in_place(numbers: &mut [f64], place: f64) -> Option<f64> {
    let last = numbers.len().checked_sub(1)?;
    let place = place.clamp(0.0, number(last));
    let place = (0..=last).take_while(|at| number(*at) < place).count();
    nth(numbers, place)
}

fn nth(numbers: &mut [f64], place: usize) -> Option<f64> {
    // Much faster than to put all in order: the pairs are many.
    (place < numbers.len()).then(|| {
        let (_, found, _) = numbers.select_nth_unstable_by(place, f64::total_cmp);
        *found
    })
}

/// The middle of numbers in whatever order.
pub fn median(numbers: impl IntoIterator<Item = f64>) -> Option<f64> {
    let mut numbers: Vec<f64> = numbers.into_iter().collect();
    middle(&mut numbers)
}

fn look_at(inputs: &LineRead) -> Result<(), NoNumber> {
    let mut ranges = Ranges::new();
    let readings: usize = inputs.stretches.iter().map(Vec::len).sum();
    ranges.holds(
        readings <= MOST_READINGS,
        "number of readings",
        number(readings),
        "2000 at the most",
    );
    for read in inputs.stretches.iter().flatten() {
        ranges
            .within("day", read.day, -1e5, 1e5)
            .within("value", read.value, -1e9, 1e9);
    }
    ranges.checked()
}

fn one_day() -> NoNumber {
    NoNumber::because("no two readings of one stretch are of different days; nothing tells a slope")
}

fn counted(stretches: usize) -> String {
    match stretches {
        1 => "one stretch".to_owned(),
        many => format!("{many} stretches"),
    }
}

/// On how many different days a stretch was read.
fn days(stretch: &[ReadOn]) -> usize {
    ties(stretch.iter().map(|read| read.day)).len()
}

/// The slopes of all pairs of a stretch, those of one day left out. Two days so near to each other
/// that their slope is no number a computer holds are one day.
fn of_pairs(stretch: &[ReadOn]) -> Vec<f64> {
    let mut slopes = Vec::with_capacity(stretch.len() * stretch.len().saturating_sub(1) / 2);
    for (at, one) in stretch.iter().enumerate() {
        for other in stretch.iter().skip(at + 1) {
            let slope = (other.value - one.value) / (other.day - one.day);
            if one.day.total_cmp(&other.day).is_ne() && slope.is_finite() {
                slopes.push(slope);
            }
        }
    }
    slopes
}

/// The variance of Kendall's sum over a stretch where nothing moves.
fn variance(stretch: &[ReadOn]) -> f64 {
    let of = |count: usize| {
        let count = number(count);
        count * (count - 1.0) * (2.0 * count + 5.0)
    };
    let tied = |ties: BTreeMap<u64, usize>| -> f64 { ties.into_values().map(of).sum() };
    let x = tied(ties(stretch.iter().map(|read| read.day)));
    let y = tied(ties(stretch.iter().map(|read| read.value)));
    (of(stretch.len()) - x - y) / 18.0
}

/// How many times each number stands there. Nothing below nothing is nothing.
fn ties(numbers: impl Iterator<Item = f64>) -> BTreeMap<u64, usize> {
    let mut ties = BTreeMap::new();
    for number in numbers {
        *ties.entry((number + 0.0).to_bits()).or_insert(0) += 1;
    }
    ties
}

/// A count as a number; there are never so many that it is not exact.
fn number(count: usize) -> f64 {
    u32::try_from(count).map_or(f64::MAX, f64::from)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(stretches: &[&[(f64, f64)]]) -> LineRead {
        let stretch = |pairs: &&[(f64, f64)]| {
            let read = |(day, value): &(f64, f64)| ReadOn {
                day: *day,
                value: *value,
            };
            pairs.iter().map(read).collect()
        };
        LineRead {
            stretches: stretches.iter().map(stretch).collect(),
        }
    }

    /// The example of Sen's paper of 1968: a slope of 4. From memory.
    const SEN: &[(f64, f64)] = &[
        (1.0, 9.0),
        (2.0, 15.0),
        (3.0, 19.0),
        (4.0, 20.0),
        (10.0, 45.0),
        (12.0, 55.0),
        (18.0, 78.0),
    ];

    #[test]
    fn the_published_example_comes_out() {
        let slope = theil_sen(&line(&[SEN])).unwrap();
        assert!((slope.slope_a_day - 4.0).abs() < 1e-12, "{slope:?}");
        assert_eq!(slope.pairs, 21);
        assert!(slope.moves);
    }

    #[test]
    fn one_wild_reading_moves_it_hardly() {
        for wild in [6.5, 650.0, -1e8] {
            let mut read = SEN.to_vec();
            read.push((11.0, wild));
            let slope = theil_sen(&line(&[&read])).unwrap();
            assert!((slope.slope_a_day - 4.0).abs() < 0.15, "{slope:?}");
        }
    }

    #[test]
    fn what_was_put_right_between_two_stretches_hides_nothing() {
        // It loses one a day, and is filled up each time it has lost three.
        let up = |from: f64| [(from, 65.0), (from + 1.0, 64.0), (from + 2.0, 63.0)];
        let (one, two, three) = (up(0.0), up(3.0), up(6.0));
        let apart = theil_sen(&line(&[&one, &two, &three])).unwrap();
        assert!((apart.slope_a_day + 1.0).abs() < 1e-12, "{apart:?}");
        let all: Vec<_> = one.into_iter().chain(two).chain(three).collect();
        let together = theil_sen(&line(&[&all])).unwrap();
        assert!(!together.moves, "{together:?}");
    }

    #[test]
    fn so_few_that_chance_alone_may_order_them_tell_nothing() {
        for (stretches, enough) in [
            (vec![4], false),
            (vec![5], true),
            (vec![2; 5], false),
            (vec![2; 6], true),
            (vec![3, 3], false),
            (vec![4, 2], true),
            (vec![], false),
        ] {
            assert_eq!(is_enough(stretches.clone()), enough, "{stretches:?}");
        }
        let few = theil_sen(&line(&[&SEN[..4]])).unwrap_err().to_string();
        assert!(few.starts_with("4 readings in one stretch"), "{few}");
        // Many readings of one day are one day's.
        assert!(theil_sen(&line(&[&[(3.0, 1.0); 9]])).is_err());
    }

    #[test]
    fn readings_that_are_all_alike_have_a_slope_of_nothing_and_do_not_move() {
        let flat: Vec<_> = (0..9).map(|day| (f64::from(day), 60.0)).collect();
        let slope = theil_sen(&line(&[&flat])).unwrap();
        assert!(slope.low_a_day.abs() < 1e-12 && slope.high_a_day.abs() < 1e-12);
        assert!(!slope.moves);
    }
}
