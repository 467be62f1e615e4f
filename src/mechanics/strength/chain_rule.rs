//! # What the two safety chains must hold

use crate::mechanics::strength::lowest;
use crate::mechanics::{NoNumber, Page, Ranges};
use crate::units::{Exact, Quantity, Unit, weight_of};
use serde::{Deserialize, Serialize};
use std::cmp::Ordering;

/// What `hames figure chain_rule` tells of it.
pub const PAGE: Page = Page {
    name: "chain_rule",
    title: "What the two safety chains must hold",
    situation: "Publications differ up to twofold in what they ask of the same two chains. So a \
                verdict says which rule it used, and the others stand beside it.",
    formula: "combined: A1 + A2 >= W; each: min(A1, A2) >= W; twice the mass: A1 + A2 >= 2 W",
    symbols: &[
        (
            "A1, A2",
            "breaking strength of the two assemblies, lb or kN",
        ),
        (
            "W",
            "most the trailer may weigh, as a force at standard gravity, lb or kN",
        ),
    ],
    holds: "two chains that share no part",
    assumes: "Eyes and their fastening hold at least as much as the chains.",
    never: "In place of state law. The federal rule is written for full trailers and dollies; for \
            a trailer that rests on its truck it is a yardstick.",
    source: "combined: 49 CFR 393.70(d), FMCSA interpretation, question 2; each: New Hampshire RSA \
             266:63 and SAE J684, class 4; twice the mass: BS AU 267:1998, as a secondary page \
             quotes it",
};

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

/// Two chains and the trailer they must hold.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RuleInputs {
    /// Breaking strength of one assembly, lb.
    pub left_breaking_lb: f64,
    /// Breaking strength of the other, lb.
    pub right_breaking_lb: f64,
    /// Most the trailer may weigh, lb.
    pub trailer_gvwr_lb: f64,
}

/// What every rule says of two chains, the most lenient first.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RuleOutcome {
    /// Each rule.
    pub rules: Vec<HeldTo>,
}

/// What one rule says of two chains.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct HeldTo {
    /// The rule's word.
    pub rule: &'static str,
    /// Where it is written.
    pub source: &'static str,
    /// The strength it counts, lb.
    pub strength_lb: f64,
    /// The strength it asks for, lb.
    pub needed_lb: f64,
    /// Whether the chains satisfy it.
    pub holds: bool,
}

/// What every rule says of two chains.
///
/// # Errors
/// [`NoNumber`] for a strength or weight that is not more than nothing.
pub fn chain_rule(inputs: &RuleInputs) -> Result<RuleOutcome, NoNumber> {
    let RuleInputs {
        left_breaking_lb: left,
        right_breaking_lb: right,
        trailer_gvwr_lb: trailer,
    } = *inputs;
    Ranges::new()
        .positive("left_breaking_lb", left)
        .positive("right_breaking_lb", right)
        .positive("trailer_gvwr_lb", trailer)
        .checked()?;
    let read = || {
        // A thousandth of a pound is finer than any mark; within it the comparison is exact.
        let step = Exact::ratio(1, 1000)?;
        let pounds =
            |given: f64, unit: Unit| Some(Quantity::new(Exact::nearest(given, &step)?, unit));
        let chains = [
            pounds(left, Unit::PoundForce)?,
            pounds(right, Unit::PoundForce)?,
        ];
        let trailer = pounds(trailer, Unit::Pound)?;
        let rules = ChainRule::WORDS.iter().map(|(word, rule)| {
            Some(HeldTo {
                rule: word,
                source: rule.source(),
                strength_lb: rule.strength(&chains)?.value.to_f64()?,
                needed_lb: rule.needed(&trailer)?.value.to_f64()?,
                holds: rule.holds(&chains, &trailer)?,
            })
        });
        rules.collect::<Option<Vec<_>>>()
    };
    let rules =
        read().ok_or_else(|| NoNumber::because("these strengths are too large to compare"))?;
    Ok(RuleOutcome { rules })
}

#[cfg(test)]
mod tests {
    use super::*;
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
