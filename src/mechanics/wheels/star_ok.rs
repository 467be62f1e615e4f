//! # Whether an order is a star

use crate::mechanics::wheels::star_order::{apart, look_at_count};
use crate::mechanics::{NoNumber, Page, Ranges};
use serde::{Deserialize, Serialize};

/// What `hames figure star_ok` tells of it.
pub const PAGE: Page = Page {
    name: "star_ok",
    title: "Whether an order is a star",
    situation: "There are many right orders to tighten a wheel's nuts in. Right is every one that \
                takes each nut once and never steps to a near neighbour.",
    formula: "each nut once; step = 360 (studs between, the short way) / count, at least 90 deg",
    symbols: &[
        ("order", "numbers of the nuts, first to last"),
        ("step", "angle from one nut to the next, deg"),
    ],
    holds: "4 to 10 studs, evenly round",
    assumes: "The numbers run round the wheel.",
    never: "To judge how tight the nuts are.",
    source: "star order is asked for by axle makers' manuals; a quarter of the way round as its \
             measure is common practice, no source",
};

/// Least step of a star, deg.
const LEAST_STEP_DEG: f64 = 90.0;

/// All the way round, deg.
const ROUND_DEG: f64 = 360.0;

/// An order someone tightens in.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OrderTold {
    /// Numbers round the wheel, first to last.
    pub order: Vec<u32>,
}

/// What it is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct OrderTaken {
    /// Whether it is a star.
    pub ok: bool,
    /// Whether it takes each nut once.
    pub each_once: bool,
    /// Its shortest step, deg.
    pub min_step_deg: f64,
}

/// Whether an order goes across the wheel each time.
///
/// # Errors
/// [`NoNumber`] for fewer than four nuts, more than ten, or numbers that are not on the wheel.
pub fn star_ok(inputs: &OrderTold) -> Result<OrderTaken, NoNumber> {
    let studs = u32::try_from(inputs.order.len()).unwrap_or(u32::MAX);
    let mut ranges = Ranges::new();
    look_at_count(&mut ranges, "length of order", studs);
    for stud in &inputs.order {
        let given = f64::from(*stud);
        ranges.within("order", given, 1.0, f64::from(studs));
    }
    ranges.checked()?;
    let each_once = (1..=studs).all(|stud| inputs.order.contains(&stud));
    let shortest = inputs
        .order
        .iter()
        .zip(inputs.order.iter().skip(1))
        .map(|(one, next)| apart(studs, *one, *next))
        .min();
    let min_step_deg = f64::from(shortest.unwrap_or(0)) * ROUND_DEG / f64::from(studs);
    Ok(OrderTaken {
        ok: each_once && min_step_deg >= LEAST_STEP_DEG,
        each_once,
        min_step_deg,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_nut_taken_twice_or_left_out_is_no_star() {
        let order = vec![1, 3, 5, 2, 5];
        let told = star_ok(&OrderTold { order }).unwrap();
        assert!(!told.ok && !told.each_once);
        assert!(
            star_ok(&OrderTold {
                order: vec![1, 3, 6, 2, 4]
            })
            .is_err()
        );
    }
}
