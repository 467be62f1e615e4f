//! # What the two safety chains must hold
//!
//! Publications differ up to twofold in what they ask of the same two chains, so a verdict says
//! which rule it used.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | A₁, A₂ | breaking strength of the two assemblies | lb or kN |
//! | W | most the trailer may weigh, as a force at standard gravity | lb or kN |
//!
//! Combined: `A₁ + A₂ ≥ W`. Each: `min(A₁, A₂) ≥ W`. Twice the mass: `A₁ + A₂ ≥ 2 W`.
//! Valid for two chains that share no part. The federal rule is written for full trailers and
//! dollies; for a trailer that rests on its truck it is a yardstick, and state law is the rule.

use crate::figures::chain_strength::lowest;
use crate::units::{Exact, Quantity, weight_of};
use std::cmp::Ordering;

/// A rule for the strength of two safety chains, the most lenient first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ChainRule {
    /// The two together hold the trailer.
    Combined,
    /// Each one alone holds the trailer.
    Each,
    /// The two together hold twice the trailer.
    TwiceMass,
}

impl ChainRule {
    /// Every rule with its word, the most lenient first.
    pub const WORDS: [(&'static str, Self); 3] = [
        ("combined", Self::Combined),
        ("each", Self::Each),
        ("twice-mass", Self::TwiceMass),
    ];

    /// Where the rule is written.
    pub fn source(self) -> &'static str {
        match self {
            Self::Combined => "49 CFR 393.70(d), FMCSA interpretation, question 2",
            Self::Each => "New Hampshire RSA 266:63; SAE J684, class 4",
            Self::TwiceMass => "BS AU 267:1998, as a secondary page quotes it",
        }
    }

    /// The strength of two assemblies that this rule counts.
    pub fn strength(self, assemblies: &[Quantity; 2]) -> Option<Quantity> {
        let [left, right] = assemblies;
        match self {
            Self::Combined | Self::TwiceMass => left.plus(right),
            Self::Each => lowest(assemblies).cloned(),
        }
    }

    /// The strength this rule asks for a trailer of this mass.
    pub fn needed(self, trailer: &Quantity) -> Option<Quantity> {
        let weight = weight_of(trailer)?;
        Some(match self {
            Self::Combined | Self::Each => weight,
            Self::TwiceMass => weight.times(&Exact::whole(2)),
        })
    }

    /// Whether two assemblies satisfy this rule; nothing when they are no strengths, or the trailer
    /// no mass.
    pub fn holds(self, assemblies: &[Quantity; 2], trailer: &Quantity) -> Option<bool> {
        let order = self.strength(assemblies)?.compare(&self.needed(trailer)?)?;
        Some(order != Ordering::Less)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Unit;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn chains_that_hold_alone_or_hold_twice_also_hold_together(
            left in 1i64..40_000, right in 1i64..40_000, trailer in 1i64..40_000,
        ) {
            let chains = [left, right].map(|pounds| Quantity::whole(pounds, Unit::PoundForce));
            let trailer = Quantity::whole(trailer, Unit::Pound);
            let holds = |rule: ChainRule| rule.holds(&chains, &trailer).unwrap();
            prop_assert!(holds(ChainRule::Combined) || !holds(ChainRule::Each));
            prop_assert!(holds(ChainRule::Combined) || !holds(ChainRule::TwiceMass));
            prop_assert!(holds(ChainRule::TwiceMass) || !holds(ChainRule::Each));
        }
    }

    #[test]
    fn at_exactly_the_weight_the_chains_hold() {
        let chains = [7000, 7000].map(|pounds| Quantity::whole(pounds, Unit::PoundForce));
        for (pounds, each) in [(7000, true), (7001, false)] {
            let trailer = Quantity::whole(pounds, Unit::Pound);
            assert_eq!(ChainRule::Each.holds(&chains, &trailer), Some(each));
            assert_eq!(ChainRule::TwiceMass.holds(&chains, &trailer), Some(each));
        }
    }
}
