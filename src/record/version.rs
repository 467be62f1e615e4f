//! The versions of the format, and which is the lowest that can hold a line.

/// A version of the format of lines.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Version {
    /// Every kind of line.
    V1,
    /// Line 0 with the haul, what was carried in, paper, and answers; and the statement that joins.
    V2,
    /// Line 0 of a drill, and the lines there are in drills alone.
    V3,
}

impl Version {
    /// The newest this program reads.
    pub const NEWEST: Self = Self::V3;

    /// The number stored.
    pub const fn number(self) -> u64 {
        match self {
            Self::V1 => 1,
            Self::V2 => 2,
            Self::V3 => 3,
        }
    }

    /// The version with this number, where this program knows it.
    pub fn read(number: u64) -> Option<Self> {
        [Self::V1, Self::V2, Self::V3]
            .into_iter()
            .find(|version| version.number() == number)
    }
}
