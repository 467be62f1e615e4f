//! A limit: first as a checklist writes it, then as it stands for one rig.

use crate::figures::{Figure, Item, NotKnown};
use crate::rig::Rig;
use crate::rules::{Basis, Verdict};
use crate::units::{Exact, Quantity};
use std::cmp::Ordering;

/// The value a limit is drawn at, as a checklist writes it.
#[derive(Clone, Debug, PartialEq)]
pub enum Bound {
    /// The same for every rig.
    Fixed(Quantity),
    /// A figure of the rig, or a share of it, or so much above or below it.
    Of {
        /// The figure.
        figure: Figure,
        /// The share of it; one is the whole.
        share: Exact,
        /// What is added, where something is.
        plus: Option<Quantity>,
    },
}

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
    /// How the bound came about: `95 % of tire.cold 65 psi (plate, left wall)`; nothing when the
    /// checklist states the value itself.
    pub derivation: Option<String>,
    /// Whose word it is.
    pub basis: Basis,
    /// The branch it opens.
    pub branch: Option<String>,
}

impl Bound {
    /// The bound for this rig and item, with how it came about.
    ///
    /// # Errors
    /// [`NotKnown`] when the rig has no such figure.
    pub fn on(
        &self,
        rig: &Rig,
        item: Option<&Item>,
    ) -> Result<(Quantity, Option<String>), NotKnown> {
        let (figure, share, plus) = match self {
            Self::Fixed(quantity) => return Ok((quantity.clone(), None)),
            Self::Of {
                figure,
                share,
                plus,
            } => (*figure, share, plus.as_ref()),
        };
        let found = figure.of(rig, item)?;
        let scaled = found.quantity.times(share);
        let bound = match plus {
            Some(more) => scaled.plus(more).unwrap_or(scaled),
            None => scaled,
        };
        let part = if *share == Exact::whole(1) {
            String::new()
        } else {
            format!("{} % of ", (share * &Exact::whole(100)).rounded(1))
        };
        let offset = plus.map_or_else(String::new, |more| {
            let sign = if more.value.is_negative() {
                "less"
            } else {
                "plus"
            };
            format!(
                ", {sign} {}",
                Quantity::new(more.value.magnitude(), more.unit)
            )
        });
        let text = format!(
            "{part}{} {}{offset} ({})",
            figure.label(),
            found.quantity,
            found.from
        );
        Ok((bound, Some(text)))
    }
}

impl Rung {
    /// This limit for a rig and item.
    ///
    /// # Errors
    /// [`NotKnown`] when the rig has no such figure.
    pub fn on(&self, rig: &Rig, item: Option<&Item>) -> Result<Limit, NotKnown> {
        let (bound, derivation) = self.bound.on(rig, item)?;
        Ok(Limit {
            verdict: self.verdict,
            side: self.side,
            bound,
            derivation,
            basis: self.basis.clone(),
            branch: self.branch.clone(),
        })
    }
}
