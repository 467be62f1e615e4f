//! What was looked at, and how it stands.

use std::fmt;

/// One thing that was looked at.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Check {
    /// What it is of, in one word.
    pub(super) of: &'static str,
    /// How it stands.
    pub(super) stands: Stands,
    /// What was found, and what to do.
    pub(super) told: String,
}

/// How something stands, the gravest last.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Stands {
    /// As it should be.
    Ok,
    /// Worth a look; nothing is lost.
    Look,
    /// Something keeps the logbook from doing what it is for.
    Wrong,
}

impl Check {
    pub(super) fn ok(of: &'static str, told: impl Into<String>) -> Self {
        Self::new(of, Stands::Ok, told)
    }

    pub(super) fn look(of: &'static str, told: impl Into<String>) -> Self {
        Self::new(of, Stands::Look, told)
    }

    pub(super) fn wrong(of: &'static str, told: impl Into<String>) -> Self {
        Self::new(of, Stands::Wrong, told)
    }

    /// Whoever tells it ends it with a point, and a sentence that has one has it once.
    fn new(of: &'static str, stands: Stands, told: impl Into<String>) -> Self {
        let told = told.into();
        Self {
            of,
            stands,
            told: told.trim_end_matches('.').to_owned(),
        }
    }
}

impl Stands {
    pub(super) const fn word(self) -> &'static str {
        match self {
            Self::Ok => "ok",
            Self::Look => "look",
            Self::Wrong => "wrong",
        }
    }
}

impl fmt::Display for Check {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:5}  {}: {}", self.stands.word(), self.of, self.told)
    }
}
