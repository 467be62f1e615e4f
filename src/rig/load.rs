//! What the trailer carries.

use crate::rig::{Given, Position};

/// One thing carried: a horse, tack, water, hay.
///
/// It has a weight or, being a horse, the girth and length that tell it; the reader sees to it
/// that exactly one of the two is there.
#[derive(Clone, Debug, PartialEq)]
pub struct Load {
    /// What it is.
    pub name: String,
    /// Its weight.
    pub weight: Option<Given>,
    /// What a tape says of a horse that stood on no scale.
    pub horse: Option<HorseTape>,
    /// Where its middle is.
    pub at: Position,
    /// The stall it stands in, where the file names one instead of a place.
    pub stall: Option<String>,
}

/// A horse as a tape measures it.
#[derive(Clone, Debug, PartialEq)]
pub struct HorseTape {
    /// Round the barrel behind the withers and the elbow.
    pub girth: Given,
    /// Point of the shoulder to point of the buttock.
    pub length: Given,
    /// How it is built.
    pub kind: HorseKind,
}

/// How a horse is built, which decides what girth and length mean in weight.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HorseKind {
    /// A grown horse.
    Adult,
    /// A pony.
    Pony,
    /// A horse between one and two years old.
    Yearling,
    /// A foal off its mother.
    Weanling,
}

impl HorseKind {
    /// Every kind with its word.
    pub const WORDS: [(&'static str, Self); 4] = [
        ("adult", Self::Adult),
        ("pony", Self::Pony),
        ("yearling", Self::Yearling),
        ("weanling", Self::Weanling),
    ];

    /// The word used in rig files and on screens.
    pub fn word(self) -> &'static str {
        Self::WORDS
            .iter()
            .find(|(_, kind)| *kind == self)
            .map_or("", |(word, _)| word)
    }
}
