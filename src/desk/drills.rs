//! What can be drilled, and how far each learner is.

use crate::desk::{CrewCard, TripCard};
use crate::drill::{Family, Progress, Stage};
use chrono::NaiveDate;

/// What the name of a drill begins with, so that it is never taken for a trip's.
pub const DRILL: &str = "drill/";

/// What there is to drill with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DrillRoom {
    /// Whose drills can be recorded here; nobody where none are.
    pub learners: Vec<Learner>,
    /// Why no drill is recorded here, where none is, with the way out.
    pub unrecorded: Option<String>,
    /// The scenarios, in the order of their files.
    pub scenarios: Vec<ScenarioCard>,
    /// The checklists of which a check ride can be put together, by id.
    pub rides: Vec<String>,
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
    /// Their drills that were begun on this laptop and are not ended or not signed, the newest first.
    pub unfinished: Vec<TripCard>,
    /// Who of the crew may examine them, by printed name; else why nobody may, with the way out.
    pub examiners: Result<Vec<String>, String>,
}

/// What is said in place of a name where nobody learns.
pub const NOBODY_LEARNS: &str = "Nobody: nothing of it is recorded";

impl DrillRoom {
    /// Who learns by this printed name or id.
    ///
    /// # Errors
    /// A sentence with everyone there is.
    pub fn named(&self, name: &str) -> Result<&Learner, String> {
        let lower = name.trim().to_lowercase();
        let mut learners = self.learners.iter();
        let is_named = |one: &&Learner| one.who.id == lower || one.who.name.to_lowercase() == lower;
        learners.find(is_named).ok_or_else(|| {
            let known = self.learners.iter().map(|one| one.who.name.as_str());
            let known: Vec<&str> = known.collect();
            let known = match &self.unrecorded {
                Some(why) => why.clone(),
                None => format!("There is: {}.", known.join(", ")),
            };
            let name = name.escape_debug();
            format!("“{name}” is nobody whose drills are recorded here. {known}")
        })
    }
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

/// A drill as it was asked for where the program was started.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct DrillWanted {
    /// Which; it is asked where none is named.
    pub which: Option<WhichDrill>,
    /// What stands behind `hames drill` to play it again, where its scenario is none of those that
    /// come with the program.
    pub again: Option<String>,
    /// Who learns, by printed name or id; it is asked where nobody is named.
    pub learner: Option<String>,
    /// The stage.
    pub stage: Option<Stage>,
    /// What the dice are thrown by.
    pub seed: Option<u64>,
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
