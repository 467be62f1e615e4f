//! What the start screen shows: rigs, checklists, people and trips of one logbook.

use crate::desk::DefectCard;
use crate::record::{Mode, Role};
use crate::rig::HitchKind;

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
    /// Whether it is as shipped with this program; any other is marked UNAPPROVED.
    pub shipped: bool,
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
}
