//! A formula's own page: what a person may want to know of it before trusting its number.

/// The page of one formula. The walk shows it, and `docs/mechanics.md` is made of all of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Page {
    /// Name at the door `hames figure NAME`, in small letters and low strokes.
    pub name: &'static str,
    /// Title, in a few words.
    pub title: &'static str,
    /// The physical situation, in two sentences.
    pub situation: &'static str,
    /// The formula in words and symbols.
    pub formula: &'static str,
    /// Each symbol with its meaning and unit.
    pub symbols: &'static [(&'static str, &'static str)],
    /// Where it holds; outside it refuses.
    pub holds: &'static str,
    /// What it takes for granted.
    pub assumes: &'static str,
    /// What it must not be used for.
    pub never: &'static str,
    /// Where it is written.
    pub source: &'static str,
}
