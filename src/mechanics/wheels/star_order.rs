//! # The order of the nuts

use crate::mechanics::{NoNumber, Page, Ranges};
use serde::{Deserialize, Serialize};
use std::cmp::Reverse;

/// What `hames figure star_order` tells of it.
pub const PAGE: Page = Page {
    name: "star_order",
    title: "The order of the nuts",
    situation: "Nuts tightened one beside the other pull the wheel on crooked, and it comes loose \
                when it settles. Going across each time, in three passes, pulls it on flat.",
    formula: "an odd count: step on by half the count, rounded down, each time. An even count: the \
              nut farthest from all tightened so far; of equals the one farthest from the last, \
              then the one with the lower number",
    symbols: &[
        (
            "studs",
            "how many studs the wheel has, numbered round it from any one",
        ),
        ("order", "numbers of the nuts, first to last"),
    ],
    holds: "4 to 10 studs, evenly round",
    assumes: "Nothing else; any order that never steps less than a quarter of the way round is as \
              good.",
    never: "To call another star wrong.",
    source: "star order is asked for by axle makers' manuals; this way of finding one is our own",
};

/// The counts taken.
const COUNTS: (u32, u32) = (4, 10);

/// A wheel's studs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Studs {
    /// How many.
    pub studs: u32,
}

/// An order to tighten them in.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct StarOrder {
    /// Numbers round the wheel, first to last.
    pub order: Vec<u32>,
}

/// Looks at a count of studs.
pub(super) fn look_at_count(ranges: &mut Ranges, what: &str, studs: u32) {
    let (fewest, most) = COUNTS;
    ranges.within(what, f64::from(studs), f64::from(fewest), f64::from(most));
}

/// How many studs apart two are, the short way round; nothing where there is no wheel.
pub(super) fn apart(studs: u32, one: u32, other: u32) -> u32 {
    let along = one.abs_diff(other).checked_rem(studs).unwrap_or(0);
    along.min(studs - along)
}

/// An order that goes across the wheel each time.
///
/// # Errors
/// [`NoNumber`] for fewer than four studs or more than ten.
pub fn star_order(inputs: &Studs) -> Result<StarOrder, NoNumber> {
    let mut ranges = Ranges::new();
    look_at_count(&mut ranges, "studs", inputs.studs);
    ranges.checked()?;
    let studs = inputs.studs;
    let order = if studs % 2 == 1 {
        (0..studs)
            .map(|turn| turn * (studs / 2) % studs + 1)
            .collect()
    } else {
        farthest_first(studs)
    };
    Ok(StarOrder { order })
}

fn farthest_first(studs: u32) -> Vec<u32> {
    let mut order: Vec<u32> = Vec::new();
    for _ in 0..studs {
        let next = (1..=studs)
            .filter(|stud| !order.contains(stud))
            .max_by_key(|stud| {
                let from = |done: &u32| apart(studs, *done, *stud);
                (
                    order.iter().map(from).min(),
                    order.last().map(from),
                    Reverse(*stud),
                )
            });
        order.extend(next);
    }
    order
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::wheels::{OrderTold, star_ok};

    #[test]
    fn every_order_told_is_a_star() {
        for studs in 4..=10 {
            let order = star_order(&Studs { studs }).unwrap().order;
            let told = star_ok(&OrderTold {
                order: order.clone(),
            });
            assert!(told.unwrap().ok, "{studs}: {order:?}");
        }
    }

    #[test]
    fn three_studs_or_eleven_are_no_wheel_of_a_horse_trailer() {
        for studs in [0, 3, 11, u32::MAX] {
            assert!(star_order(&Studs { studs }).is_err(), "{studs}");
        }
    }
}
