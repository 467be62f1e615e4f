//! # So many hits or more

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure at_least` tells of it.
pub const PAGE: Page = Page {
    name: "at_least",
    title: "So many hits or more",
    situation: "Things are counted that are each a hit or not, with the same chance: a reading \
                that ends in 0 or 5, a walk that finds nothing. So many hits may be no more than \
                luck; this says how often luck would give as many.",
    formula: "P = sum over i from k to n of n! / (i! (n - i)!) p^i (1 - p)^(n - i)",
    symbols: &[
        ("n", "how many were counted"),
        ("k", "how many of them were hits"),
        ("p", "the chance of a hit, 0 to 1"),
        ("P", "the chance of k hits or more"),
    ],
    holds: "up to 100,000 counted",
    assumes: "One count does not sway the next, and all have the same chance.",
    never: "As a proof of anything about a person. Ask.",
    source: "the binomial distribution, any handbook of statistics; NIST/SEMATECH e-Handbook of \
             Statistical Methods, 1.3.6.6.18, from memory",
};

/// What was counted.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Counted {
    /// How many were counted.
    pub counted: u32,
    /// How many of them were hits.
    pub hits: u32,
    /// The chance of a hit, 0 to 1.
    pub chance: f64,
}

/// How often luck gives as many.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Likely {
    /// The chance of so many hits or more.
    pub chance: f64,
}

/// The chance of so many hits or more.
///
/// # Errors
/// [`NoNumber`] outside the ranges, or with more hits than were counted.
pub fn at_least(inputs: &Counted) -> Result<Likely, NoNumber> {
    let (counted, hits) = (f64::from(inputs.counted), f64::from(inputs.hits));
    let mut ranges = Ranges::new();
    ranges
        .within("counted", counted, 1.0, 100_000.0)
        .within("hits", hits, 0.0, counted)
        .within("chance", inputs.chance, 0.0, 1.0)
        .checked()?;
    let chance = if inputs.hits == 0 || inputs.chance >= 1.0 {
        1.0
    } else if inputs.chance <= 0.0 {
        0.0
    } else {
        let terms = inputs.hits..=inputs.counted;
        terms
            .map(|i| term(counted, f64::from(i), inputs.chance))
            .sum()
    };
    Ok(Likely {
        chance: finite("the chance", chance)?.min(1.0),
    })
}

/// The chance of exactly `i` hits, by logarithms, since the factorials are out of all range.
fn term(n: f64, i: f64, p: f64) -> f64 {
    let ways = libm::lgamma(n + 1.0) - libm::lgamma(i + 1.0) - libm::lgamma(n - i + 1.0);
    libm::exp(ways + i * libm::log(p) + (n - i) * libm::log1p(-p))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::wild::{only_numbers, wild};
    use proptest::prelude::*;

    #[test]
    fn eight_heads_or_more_of_ten_are_fifty_six_ways_of_a_thousand_and_twenty_four() {
        // 45 + 10 + 1 ways, counted by hand.
        let told = at_least(&Counted {
            counted: 10,
            hits: 8,
            chance: 0.5,
        })
        .unwrap();
        assert!((told.chance - 56.0 / 1024.0).abs() < 1e-12, "{told:?}");
    }

    proptest! {
        #[test]
        fn more_hits_are_never_likelier(n in 1_u32..300, k in 0_u32..300, p in 0.0..1.0_f64) {
            let k = k.min(n - 1);
            let of = |hits| at_least(&Counted { counted: n, hits, chance: p }).unwrap().chance;
            prop_assert!(of(k + 1) <= of(k) + 1e-9);
        }

        #[test]
        fn whatever_goes_in_only_numbers_come_out(p in wild(), n in 0_u32..2000, k in 0_u32..2000) {
            only_numbers(&at_least(&Counted { counted: n, hits: k, chance: p }));
        }
    }
}
