//! A limit: first as a checklist writes it, then as it stands for one rig today.

use crate::figures::{Item, NotKnown, Today};
use crate::rules::{Basis, Bound, Carry, Drawn, Verdict};
use crate::units::Quantity;
use std::cmp::Ordering;

/// On which side of the bound the verdict falls.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Side {
    /// Less than the bound.
    Below,
    /// The bound or less.
    AtOrBelow,
    /// More than the bound.
    Above,
    /// The bound or more.
    AtOrAbove,
}

impl Side {
    /// Every side with the word used in checklists.
    pub const WORDS: [(&'static str, Self); 4] = [
        ("below", Self::Below),
        ("at-or-below", Self::AtOrBelow),
        ("above", Self::Above),
        ("at-or-above", Self::AtOrAbove),
    ];

    /// The word used in checklists and sentences.
    pub fn word(self) -> &'static str {
        match self {
            Self::Below => "below",
            Self::AtOrBelow => "at-or-below",
            Self::Above => "above",
            Self::AtOrAbove => "at-or-above",
        }
    }

    /// Whether a value that compares so to the bound is on this side.
    pub fn takes(self, order: Ordering) -> bool {
        match self {
            Self::Below => order == Ordering::Less,
            Self::AtOrBelow => order != Ordering::Greater,
            Self::Above => order == Ordering::Greater,
            Self::AtOrAbove => order != Ordering::Less,
        }
    }
}

/// One limit of a step, as a checklist writes it: this verdict on that side of this bound.
#[derive(Clone, Debug, PartialEq)]
pub struct Rung {
    /// The verdict beyond the bound. Never [`Verdict::Ok`]: what no rung takes is ok.
    pub verdict: Verdict,
    /// Which side of the bound it takes.
    pub side: Side,
    /// The bound.
    pub bound: Bound,
    /// Whose word it is.
    pub basis: Basis,
    /// The branch it opens, by id; a fix or stop has one, a note none.
    pub branch: Option<String>,
    /// What a reading beyond it leaves to later walks.
    pub leaves: Option<Carry>,
}

/// A limit as it stands for one rig and, where the step is repeated, one item.
#[derive(Clone, Debug, PartialEq)]
pub struct Limit {
    /// The verdict beyond the bound.
    pub verdict: Verdict,
    /// Which side of the bound it takes.
    pub side: Side,
    /// The bound, as a quantity.
    pub bound: Quantity,
    /// How the bound came about, as [`Drawn`](crate::rules::Drawn) says it.
    pub derivation: Option<String>,
    /// Whose word it is.
    pub basis: Basis,
    /// The branch it opens.
    pub branch: Option<String>,
}

impl Rung {
    /// This limit for a rig and item, as far as is known today.
    ///
    /// # Errors
    /// [`NotKnown`] when the rig has no such figure and no rule of thumb stands for it.
    pub fn on(&self, today: &Today<'_>, item: Option<&Item>) -> Result<Limit, NotKnown> {
        self.bound.on(today, item).map(|drawn| self.at(&drawn))
    }

    /// This limit at a bound that is drawn already.
    pub fn at(&self, drawn: &Drawn) -> Limit {
        Limit {
            verdict: self.verdict,
            side: self.side,
            bound: drawn.at.clone(),
            derivation: drawn.derivation.clone(),
            basis: drawn.basis.as_ref().unwrap_or(&self.basis).clone(),
            branch: self.branch.clone(),
        }
    }
}
