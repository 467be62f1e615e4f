//! The stages of a section, and what leads from one to the next.
//!
//! Ours, no source for the numbers: hints that vanish as a learner succeeds and come back by a miss
//! did better than fixed ones in trials of worked examples, from memory.

use crate::drill::Score;

/// How far a learner is with a section.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Stage {
    /// A worked run is watched, with its reasons.
    Watch,
    /// Every step with its hints, told at once what it came to.
    Guided,
    /// The same, with hints only where they are still needed.
    Faded,
    /// No hints; told after the run.
    Solo,
    /// With faults in it, told after the run.
    Faults,
    /// Examined: told at the end.
    CheckRide,
}

impl Stage {
    /// Every stage with the word records name it by, in their order.
    pub const WORDS: [(&'static str, Self); 6] = [
        ("watch", Self::Watch),
        ("guided", Self::Guided),
        ("faded", Self::Faded),
        ("solo", Self::Solo),
        ("faults", Self::Faults),
        ("check-ride", Self::CheckRide),
    ];

    /// The word records name it by.
    pub fn word(self) -> &'static str {
        let found = Self::WORDS.iter().find(|(_, stage)| *stage == self);
        found.map_or("", |(word, _)| word)
    }

    /// In words.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Watch => "watch, a worked run with its reasons",
            Self::Guided => "guided, with every hint",
            Self::Faded => "faded, with hints where they are still needed",
            Self::Solo => "solo, without hints",
            Self::Faults => "faults, without hints",
            Self::CheckRide => "check ride",
        }
    }

    /// Whether it is told how the run went before it is signed. Of a check ride it is told once
    /// both have signed.
    pub const fn tells_before_signing(self) -> bool {
        !matches!(self, Self::CheckRide)
    }

    /// Whether a wrong call is told at once.
    pub const fn tells_at_once(self) -> bool {
        matches!(self, Self::Guided | Self::Faded)
    }
}

/// So many drills in a row without a slip lead from solo to faults.
pub const SOLO_IN_A_ROW: usize = 2;

/// So many in a row lead from faults to the check ride, with faults and a good rig among them.
pub const FAULTS_IN_A_ROW: usize = 4;

/// How far a learner is with one section, and what counts towards the next stage.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reached {
    /// The stage that is next to be played.
    pub stage: Stage,
    /// Drills in a row at this stage without a slip.
    pub in_a_row: usize,
    /// Of those, how many had a fault, which was caught.
    pub caught: usize,
    /// Of those, how many were of a rig that is well.
    pub well: usize,
}

impl Default for Reached {
    /// Nothing was played yet.
    fn default() -> Self {
        Self::at(Stage::Watch)
    }
}

impl Reached {
    pub(super) const fn at(stage: Stage) -> Self {
        Self {
            stage,
            in_a_row: 0,
            caught: 0,
            well: 0,
        }
    }

    /// How far a learner is after a drill at this stage. One at an earlier stage than reached, such
    /// as a look back at the worked run, changes nothing, and one at a later stage counts there.
    #[must_use]
    pub fn after(self, stage: Stage, score: &Score, hints_left: usize) -> Self {
        if stage < self.stage {
            return self;
        }
        let now = if stage > self.stage {
            Self::at(stage)
        } else {
            self
        };
        if stage != Stage::Watch && !score.is_clean() {
            return now.after_a_slip(score);
        }
        let has_fault = score.caught().next().is_some();
        let now = Self {
            in_a_row: now.in_a_row + 1,
            caught: now.caught + usize::from(has_fault),
            well: now.well + usize::from(!has_fault),
            ..now
        };
        match stage {
            Stage::Watch => Self::at(Stage::Guided),
            Stage::Guided => Self::at(Stage::Faded),
            Stage::Faded if hints_left == 0 => Self::at(Stage::Solo),
            Stage::Solo if now.in_a_row >= SOLO_IN_A_ROW => Self::at(Stage::Faults),
            Stage::Faults if now.in_a_row >= FAULTS_IN_A_ROW && now.caught > 0 && now.well > 0 => {
                Self::at(Stage::CheckRide)
            }
            Stage::Faded | Stage::Solo | Stage::Faults | Stage::CheckRide => now,
        }
    }

    /// A slip begins the row again. A critical fault that was missed with nobody helping goes back
    /// to the stage with hints.
    fn after_a_slip(self, score: &Score) -> Self {
        let critical = score.missed().any(|step| step.critical);
        match self.stage {
            Stage::Faults | Stage::CheckRide if critical => Self::at(Stage::Faded),
            stage => Self::at(stage),
        }
    }
}
