//! How a walk belongs to the day's haul.

/// A haul is made of the walks on one rig from its hitch-up to its unhitching.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Haul {
    /// The walk begins one.
    Begins,
    /// The walk is made on the way.
    During,
    /// The walk ends one.
    Ends,
    /// The walk is made apart from hauls, in the shop or at the desk.
    #[default]
    Apart,
}

impl Haul {
    /// Every one with its word.
    pub const WORDS: [(&'static str, Self); 4] = [
        ("begins", Self::Begins),
        ("during", Self::During),
        ("ends", Self::Ends),
        ("apart", Self::Apart),
    ];

    /// The word used in checklists.
    pub fn word(self) -> &'static str {
        let known = Self::WORDS.iter().find(|(_, haul)| *haul == self);
        known.map_or("", |(word, _)| word)
    }
}
