//! Whose signatures count in a logbook: the crew files of its roster, or what the one here grew
//! from.

use crate::cli::clerk::books::mode_of;
use crate::record::{Crew, Mode, Roster};
use std::borrow::Cow;

/// The crew files trips may count by.
#[derive(Clone, Debug, Default)]
pub struct Trust {
    crews: Vec<Crew>,
    /// Those whose beginnings count as well: a trip walked before has them.
    grown: Vec<Crew>,
    /// Whether it is the drills of these people that count.
    drills: bool,
}

impl Trust {
    /// These crew files and what they grew from.
    pub fn alone(crews: &[Crew]) -> Self {
        Self {
            crews: crews.to_vec(),
            grown: crews.to_vec(),
            drills: false,
        }
    }

    /// These and those of a roster. What was there before the roster stands where its first grew
    /// from it; a later crew file counts only as the roster has it.
    pub fn with_roster(crews: &[Crew], roster: &Roster) -> Self {
        let Some(first) = roster.revisions().first() else {
            return Self::alone(crews);
        };
        let revisions = roster.revisions().iter().map(|one| &one.crew);
        Self {
            crews: crews.iter().chain(revisions).cloned().collect(),
            grown: vec![first.crew.clone()],
            drills: false,
        }
    }

    /// The same for the drills of the same people.
    #[must_use]
    pub fn of_drills(self) -> Self {
        Self {
            drills: true,
            ..self
        }
    }

    /// What the logbook is for, if any crew file says so.
    pub(super) fn mode(&self) -> Option<Mode> {
        if self.drills {
            return Some(Mode::Drill);
        }
        self.crews.first().map(mode_of)
    }

    /// The crews a trip with this crew file pinned is judged by.
    pub(super) fn for_trip(&self, pinned: &[u8]) -> Cow<'_, [Crew]> {
        let known = |crew: &Crew| crew.text().as_bytes() == pinned;
        // Most trips of a barn have the crew of today, which is read already.
        if self.crews.iter().any(known) {
            return Cow::Borrowed(&self.crews);
        }
        match Crew::read(pinned) {
            Ok(earlier) if self.grown.iter().any(|crew| crew.grew_from(&earlier)) => {
                Cow::Owned(self.crews.iter().cloned().chain([earlier]).collect())
            }
            _ => Cow::Borrowed(&self.crews),
        }
    }
}
