//! Where a learner looks from.

/// A place to look from, or a way to try by hand. A fault shows from some of them and not from
/// others, as it would in the yard.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Vantage {
    /// Vantage the left side, walking by.
    Left,
    /// Vantage the right side.
    Right,
    /// Vantage above, standing over it.
    Above,
    /// Close up, with a light.
    Close,
    /// Vantage below, kneeling, with a light.
    Under,
    /// Vantage behind the trailer.
    Behind,
    /// Vantage inside the trailer.
    Inside,
    /// Vantage the driver's place.
    Cab,
    /// By hand: pressed, pulled, turned.
    Hand,
}

impl Vantage {
    /// Each with the word sights name it by.
    pub const WORDS: [(&'static str, Self); 9] = [
        ("left", Self::Left),
        ("right", Self::Right),
        ("above", Self::Above),
        ("close", Self::Close),
        ("under", Self::Under),
        ("behind", Self::Behind),
        ("inside", Self::Inside),
        ("cab", Self::Cab),
        ("hand", Self::Hand),
    ];

    /// The word sights and records name it by.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
            Self::Above => "above",
            Self::Close => "close",
            Self::Under => "under",
            Self::Behind => "behind",
            Self::Inside => "inside",
            Self::Cab => "cab",
            Self::Hand => "hand",
        }
    }

    /// As a choice on a screen.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Left => "from the left side",
            Self::Right => "from the right side",
            Self::Above => "from above",
            Self::Close => "close up, with a light",
            Self::Under => "from below, kneeling",
            Self::Behind => "from behind",
            Self::Inside => "from inside",
            Self::Cab => "from the driver's place",
            Self::Hand => "by hand",
        }
    }
}
