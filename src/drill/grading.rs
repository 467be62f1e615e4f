//! By which rules a check ride is graded. They are told before it begins and kept with it, so that
//! a later program comes to what was said then.

/// The rules of a check ride.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Grading {
    /// The first answer to a step counts, and what a reading was called first. What is answered
    /// again after a repair is not graded.
    #[default]
    FirstAnswer,
    /// The first answer that says something counts: not one that the step could not be seen, nor a
    /// reading that leaves it open. A reading counts as it was called last before it was typed.
    /// What was put right is looked at or measured again before it is answered.
    Shown,
}

impl Grading {
    /// Every one with the word scenario files name it by.
    pub const WORDS: [(&'static str, Self); 2] =
        [("first-answer", Self::FirstAnswer), ("shown", Self::Shown)];

    /// Those of every drill, and of a check ride that is put together now.
    pub const NEWEST: Self = Self::Shown;

    /// The word scenario files name it by.
    pub fn word(self) -> &'static str {
        let found = Self::WORDS.iter().find(|(_, known)| *known == self);
        found.map_or("", |(word, _)| word)
    }

    /// What is told before a check ride begins.
    pub const fn pass_rule(self) -> &'static str {
        match self {
            Self::FirstAnswer => {
                "Passed when every hidden fault is called for what it is at its step, no critical \
                 step is answered without having been looked at or measured so that it could be \
                 known, the work goes on at the right step where you are called away, and the list \
                 is walked to its end. What is well and called otherwise is told, and fails \
                 nobody. How long it takes does not count."
            }
            Self::Shown => {
                "Passed when every hidden fault is called for what it is at its step; every \
                 critical step is looked at or measured so that it could be known, and again after \
                 a repair; the work goes on at the right step where you are called away; and the \
                 list is walked to its end. Your first answer to a step counts; a call can be \
                 changed until its reading is typed. What is well and called otherwise is told, \
                 and fails nobody. How long it takes does not count."
            }
        }
    }
}
