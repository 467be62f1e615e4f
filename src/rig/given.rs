//! A value together with where it was read.

use crate::units::Quantity;

/// A value of the rig, and the place a person can go to read it again.
#[derive(Clone, Debug, PartialEq)]
pub struct Given {
    /// The value.
    pub quantity: Quantity,
    /// Where it comes from.
    pub source: Source,
}

/// Where a value was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    /// The kind of evidence.
    pub by: Evidence,
    /// The place, in words.
    pub at: String,
}

impl Source {
    /// In words a person can follow: `plate, left wall`.
    pub fn told(&self) -> String {
        [self.by.word(), ", ", &self.at].concat()
    }
}

/// The kinds of evidence a value can rest on, the strongest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Evidence {
    /// A certification label or data plate.
    Plate,
    /// A mark struck or cast into the part.
    Stamp,
    /// The maker's manual or data sheet.
    Manual,
    /// A weighbridge or tongue scale.
    Scale,
    /// A tape, caliper or other measuring tool.
    Tape,
    /// A reasoned guess, named as such.
    Estimate,
}

impl Evidence {
    /// Every kind with its word, the strongest first.
    pub const WORDS: [(&'static str, Self); 6] = [
        ("plate", Self::Plate),
        ("stamp", Self::Stamp),
        ("manual", Self::Manual),
        ("scale", Self::Scale),
        ("tape", Self::Tape),
        ("estimate", Self::Estimate),
    ];

    /// Whether the maker's word stands behind it.
    pub fn is_makers(self) -> bool {
        matches!(self, Self::Plate | Self::Stamp | Self::Manual)
    }

    /// The word used in rig files and on screens.
    pub fn word(self) -> &'static str {
        match self {
            Self::Plate => "plate",
            Self::Stamp => "stamp",
            Self::Manual => "manual",
            Self::Scale => "scale",
            Self::Tape => "tape",
            Self::Estimate => "estimate",
        }
    }
}
