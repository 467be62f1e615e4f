//! What can be drilled, and how far each learner is.

use crate::desk::{CrewCard, TripCard};
use crate::drill::{Family, Progress, Stage};
use chrono::NaiveDate;

/// What there is to drill with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DrillRoom {
    /// Whose drills can be recorded here; nobody where none are.
    pub learners: Vec<Learner>,
    /// Why no drill is recorded here, where none is, with the way out.
    pub unrecorded: Option<String>,
    /// The scenarios, in the order of their files.
    pub scenarios: Vec<ScenarioCard>,
    /// Drills begun on this laptop and not ended, the newest first.
    pub unfinished: Vec<TripCard>,
    /// The day it is here.
    pub today: NaiveDate,
    /// Whether the people are those of the demo barn, whose passphrase is no secret.
    pub is_demo: bool,
}

/// One who learns.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Learner {
    /// Who.
    pub who: CrewCard,
    /// How far they are, by the drills they signed.
    pub progress: Progress,
    /// When they last walked a rig.
    pub walked: Option<NaiveDate>,
    /// What changed since the check rides they are signed off by, and is to be drilled.
    pub differences: Vec<Difference>,
}

/// A scenario as it is offered: nothing of it gives anything away.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ScenarioCard {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// What it is about.
    pub family: Family,
    /// The checklist of which a passage is walked.
    pub list: String,
    /// Its sections that are walked.
    pub sections: Vec<String>,
    /// The rig.
    pub rig: String,
}

/// Which drill is meant.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WhichDrill {
    /// Any, by the dice.
    Any,
    /// This scenario.
    Named(String),
    /// One about this, by the dice.
    About(Family),
    /// One in which this step of this checklist is asked, by the dice.
    OfStep {
        /// The checklist.
        list: String,
        /// The step.
        step: String,
    },
    /// The check ride of a checklist.
    CheckRide {
        /// The checklist.
        list: String,
        /// Who examines, by printed name or id.
        examiner: String,
    },
}

/// A drill as it is asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AskedDrill {
    /// Which.
    pub which: WhichDrill,
    /// The learner's printed name; empty where nothing is recorded.
    pub learner: String,
    /// The stage; the one the learner has reached with its sections where none is named.
    pub stage: Option<Stage>,
    /// The number the dice are thrown by; another each time where none is named.
    pub seed: Option<u64>,
}

/// A critical step that changed since a check ride.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Difference {
    /// The checklist.
    pub list: String,
    /// Its revision now.
    pub revision: u32,
    /// The step.
    pub step: String,
}
