//! The four verdicts.

/// What a reading or sighting means for going on. Ordered from best to worst.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Verdict {
    /// Inside the limits.
    Ok,
    /// Go on, with the finding written and a day or mileage by which it is closed.
    Note,
    /// Put right now and answer the step afresh.
    Fix,
    /// The rig does not move until repaired and freshly measured.
    Stop,
}

impl Verdict {
    /// Every verdict with its word, best first.
    pub const WORDS: [(&'static str, Self); 4] = [
        ("ok", Self::Ok),
        ("note", Self::Note),
        ("fix", Self::Fix),
        ("stop", Self::Stop),
    ];

    /// The word used in checklists, records and on screens.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Ok => "ok",
            Self::Note => "note",
            Self::Fix => "fix",
            Self::Stop => "stop",
        }
    }

    /// Whether the step is not done until it is put right and answered afresh.
    pub fn blocks(self) -> bool {
        self >= Self::Fix
    }
}
