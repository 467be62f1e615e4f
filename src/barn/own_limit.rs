//! A limit of the barn's own, as typed: what it comes to depends on the step it is for.

use crate::document::{Fault, Place};
use crate::rules::{Side, Verdict};
use crate::units::{Dimension, NotAQuantity, Quantity, parse_quantity};

/// A limit of the barn's own, beside those of a checklist's step.
///
/// That it is stricter than what the step has, and looser than no plate and no law, is seen where
/// the list is put together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OwnLimit {
    /// The checklist's id.
    pub checklist: Written,
    /// The step's id.
    pub step: Written,
    /// The verdict beyond the bound. Never [`Verdict::Ok`].
    pub verdict: Verdict,
    /// Which side of the bound it takes.
    pub side: Side,
    /// The bound.
    pub bound: Written,
    /// Why this barn wants it.
    pub why: String,
}

impl OwnLimit {
    /// The bound as a quantity of what the step measures.
    ///
    /// # Errors
    /// A fault at the bound's place when it is none.
    pub fn bound_in(&self, dimension: Dimension) -> Result<Quantity, Fault> {
        let told = |not: NotAQuantity| self.bound.fault(not.reason(), not.advice());
        parse_quantity(&self.bound.text, dimension).map_err(told)
    }
}

/// Words of the settings that are understood later, with their place, so that a fault found then
/// is told where they stand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Written {
    /// As typed.
    pub text: String,
    /// Where.
    pub place: Place,
    /// The keys that lead there.
    pub path: String,
}

impl Written {
    /// A fault of these words.
    pub fn fault(&self, what: impl Into<String>, fix: impl Into<String>) -> Fault {
        Fault {
            place: self.place,
            path: self.path.clone(),
            what: what.into(),
            fix: fix.into(),
            lacking: false,
        }
    }
}
