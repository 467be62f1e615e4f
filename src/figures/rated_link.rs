//! One rating of one link between truck and tires, and what is held against it.

use crate::figures::{Found, NotKnown};
use crate::rig::Place;
use crate::units::{Exact, Quantity, Unit};
use std::cmp::Ordering;

/// One rating of one link.
#[derive(Clone, Debug, PartialEq)]
pub struct RatedLink {
    /// What people call it: `receiver`, `left front tire`.
    pub name: String,
    /// Where it is on the drawing.
    pub place: Place,
    /// What its rating is about.
    pub kind: RatingKind,
    /// The rating, with its plate.
    pub rating: Result<Found, NotKnown>,
    /// What it carries, pulls or must hold.
    pub load: Result<Found, NotKnown>,
    /// Whether it is held to this rating, or the rating only stands beside the one in force.
    pub in_force: bool,
    /// Why this rating is the one in force or is not, and which rule it follows.
    pub basis: String,
    /// Where it comes on the way from truck to tires.
    pub order: usize,
}

/// What a rating is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum RatingKind {
    /// The trailer's weight.
    Total,
    /// The weight that presses down on the hitch.
    Downward,
    /// What an axle carries.
    Axle,
    /// What one tire carries.
    Tire,
    /// What a vehicle weighs.
    Gross,
    /// What a truck carries of people, goods and tongue.
    Payload,
    /// What truck and trailer weigh together.
    Combined,
    /// The force a chain breaks at.
    Strength,
}

impl RatingKind {
    /// Every kind with its words.
    pub const WORDS: [(&'static str, Self); 8] = [
        ("total rating", Self::Total),
        ("downward rating", Self::Downward),
        ("axle rating", Self::Axle),
        ("tire capacity", Self::Tire),
        ("gross weight rating", Self::Gross),
        ("payload", Self::Payload),
        ("combined weight rating", Self::Combined),
        ("breaking strength", Self::Strength),
    ];

    /// What kind of rating it is, in words.
    pub fn words(self) -> &'static str {
        Self::WORDS
            .iter()
            .find(|(_, kind)| *kind == self)
            .map_or("", |(words, _)| words)
    }
}

/// What is left between a load and its rating.
#[derive(Clone, Debug, PartialEq)]
pub struct Margin {
    /// What is left, in the rating's unit; below 0 when the rating is passed.
    pub left: Quantity,
    /// The same as a share of the rating, exactly.
    pub share: Quantity,
}

impl RatedLink {
    /// Its name among its like: parts with two ratings say which.
    pub fn label(&self) -> String {
        match self.kind {
            RatingKind::Total => format!("{}, total", self.name),
            RatingKind::Downward => format!("{}, downward", self.name),
            _ => self.name.clone(),
        }
    }

    /// What is left, where rating and load are both known.
    pub fn margin(&self) -> Option<Margin> {
        let rating = &self.rating.as_ref().ok()?.quantity;
        let left = rating.minus(&self.load.as_ref().ok()?.quantity)?;
        let share = &left.value.over(&rating.value)? * &Exact::whole(100);
        Some(Margin {
            left,
            share: Quantity::new(share, Unit::Percent),
        })
    }

    /// Whether its load passes its rating; nothing when one of them is not known.
    pub fn over(&self) -> Option<bool> {
        Some(self.margin()?.left.value.is_negative())
    }
}

/// Puts the weakest first: links in force by the share that is left, then those of which it is not
/// known, then those that only stand beside. Equal ones stay on the way from truck to tires.
pub(super) fn weakest_first(links: &mut [RatedLink]) {
    links.sort_by(|one, other| {
        let known = |link: &RatedLink| link.margin().map(|margin| margin.share.value);
        let (mine, yours) = (known(one), known(other));
        let by_share = match (&mine, &yours) {
            (Some(mine), Some(yours)) => mine.cmp(yours),
            (Some(_), None) => Ordering::Less,
            (None, Some(_)) => Ordering::Greater,
            (None, None) => Ordering::Equal,
        };
        other
            .in_force
            .cmp(&one.in_force)
            .then(by_share)
            .then(one.order.cmp(&other.order))
    });
}
