//! What the start screen shows: rigs, checklists, people and trips of one logbook.

use crate::checklist::Haul;
use crate::desk::{DefectCard, DueCard, HaulCard};
use crate::record::{Mode, Role};
use crate::rig::HitchKind;
use std::fmt;

/// A logbook as the start screen shows it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Barn {
    /// Its name.
    pub name: String,
    /// Real, demo or drill; marks every frame.
    pub mode: Mode,
    /// The folder everything is written to, as text.
    pub folder: String,
    /// Rigs to choose from.
    pub rigs: Vec<RigCard>,
    /// Checklists to choose from.
    pub checklists: Vec<ChecklistCard>,
    /// People who may sign.
    pub crew: Vec<CrewCard>,
    /// Trips begun and not ended, the newest first.
    pub unfinished: Vec<TripCard>,
    /// Trips ended, the newest first.
    pub finished: Vec<TripCard>,
    /// Things to know before starting, such as a folder that cannot be written.
    pub notices: Vec<String>,
    /// Why no walk can begin on this laptop, with the way out.
    pub no_walk: Option<String>,
}

/// A rig on the start screen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RigCard {
    /// Id.
    pub id: String,
    /// Name.
    pub name: String,
    /// Bumper pull or gooseneck.
    pub kind: HitchKind,
    /// What earlier walks left open, a sentence each.
    pub open: Vec<String>,
    /// What was found bad and not yet well, those that keep it off the road first.
    pub defects: Vec<DefectCard>,
    /// What is due today, the worst and soonest first.
    pub due: Vec<DueCard>,
    /// The haul it is on.
    pub haul: Option<HaulCard>,
}

/// A checklist on the start screen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ChecklistCard {
    /// Id.
    pub id: String,
    /// Title.
    pub title: String,
    /// Revision.
    pub revision: u32,
    /// The kinds of rig it is for.
    pub rigs: Vec<HitchKind>,
    /// How a walk of it belongs to the day's haul.
    pub haul: Haul,
    /// Who stands behind it.
    pub standing: Approval,
}

/// Who stands behind a checklist as it is, to the byte.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Approval {
    /// It comes with this program.
    Shipped,
    /// A manager of the barn has approved it.
    Approved {
        /// The manager's printed name.
        by: String,
        /// The day.
        on: String,
    },
    /// Nobody; it is marked so wherever it shows.
    Unapproved,
}

impl Approval {
    /// What is marked on every screen and at every prompt; nothing where somebody stands behind it.
    pub fn mark(&self) -> &'static str {
        match self {
            Self::Shipped | Self::Approved { .. } => "",
            Self::Unapproved => "UNAPPROVED",
        }
    }

    /// The same in front of a line, parted from it.
    pub fn before_a_line(&self) -> &'static str {
        match self {
            Self::Shipped | Self::Approved { .. } => "",
            Self::Unapproved => "UNAPPROVED  ",
        }
    }
}

impl fmt::Display for Approval {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Shipped => f.write_str("as it comes with the program"),
            Self::Approved { by, on } => write!(f, "approved by {by} on {on}"),
            Self::Unapproved => f.write_str("UNAPPROVED"),
        }
    }
}

/// A person on the start screen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CrewCard {
    /// Id.
    pub id: String,
    /// Printed name.
    pub name: String,
    /// What the person may sign as.
    pub roles: Vec<Role>,
}

/// A trip on the start screen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TripCard {
    /// Trip id.
    pub trip: String,
    /// Rig name.
    pub rig: String,
    /// Checklist title.
    pub checklist: String,
    /// When anything last happened, as local date and time.
    pub last: String,
    /// How it stands or ended, in a few words: `step 12 of 61`, `complete, sealed`.
    pub stands: String,
    /// Whether it can be gone on with: it has not ended, and nothing began after it.
    pub goes_on: bool,
}
