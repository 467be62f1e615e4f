//! Whose word a limit is.

use std::fmt;

/// Who set a limit. Ordered from the weakest to the strongest word.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Authority {
    /// A default of this program, from common practice or a named publication.
    Default,
    /// The barn's own policy.
    Barn,
    /// The law where the trip runs.
    Law,
    /// The plate or manual of the exact part.
    Plate,
}

impl Authority {
    /// Every authority with its word, the strongest first.
    pub const WORDS: [(&'static str, Self); 4] = [
        ("plate", Self::Plate),
        ("law", Self::Law),
        ("barn", Self::Barn),
        ("default", Self::Default),
    ];

    /// The word used in checklists, records and on screens.
    pub fn word(self) -> &'static str {
        match self {
            Self::Plate => "plate",
            Self::Law => "law",
            Self::Barn => "barn",
            Self::Default => "default",
        }
    }
}

/// Whose word a limit is, and where it is written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Basis {
    /// Who set it.
    pub authority: Authority,
    /// Where it is written, or that there is no source.
    pub source: String,
}

impl fmt::Display for Basis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.authority.word(), self.source)
    }
}
