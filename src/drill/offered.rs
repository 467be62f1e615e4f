//! What can be played: the scenarios that come with the program, or those of one file of a barn's
//! own, with the lists, rigs and sights they name.

use crate::checklist::{Plan, Together};
use crate::drill::{
    Finding, Known, SCENARIO_FILES, Scenario, Sights, check, scenario_of, scenarios, sights_of,
};
use std::sync::Arc;

/// Scenarios to choose from.
#[derive(Clone, Debug, Default)]
pub struct Offered {
    own: Option<Own>,
    known: Known,
}

/// A file of a barn's own.
#[derive(Clone, Debug)]
struct Own {
    text: String,
    scenarios: Vec<Arc<Scenario>>,
}

impl Offered {
    /// The scenarios of a file, on what is known beside it.
    ///
    /// # Errors
    /// Every finding: a scenario is played fairly or not at all.
    pub fn of_file(text: &str, known: Known) -> Result<Self, Vec<Finding>> {
        let scenarios = check(text, &known)?.into_iter().map(Arc::new).collect();
        let own = Own {
            text: text.to_owned(),
            scenarios,
        };
        Ok(Self {
            own: Some(own),
            known,
        })
    }

    /// Every one, in the order of its file.
    pub fn scenarios(&self) -> &[Arc<Scenario>] {
        match &self.own {
            Some(own) => &own.scenarios,
            None => scenarios(),
        }
    }

    /// The list with this id.
    pub fn list(&self, id: &str) -> Option<&Together> {
        self.known.list(id)
    }

    /// The file of the rig with this id.
    pub fn rig(&self, id: &str) -> Option<&str> {
        self.known.rig(id)
    }

    /// What is seen at each step.
    pub fn sights(&self) -> Arc<Sights> {
        Arc::new(self.known.sights())
    }

    /// The scenario with this id, as a file to keep.
    pub fn scenario_to_keep(&self, id: &str) -> Option<String> {
        match &self.own {
            Some(own) => scenario_of([own.text.as_str()], id),
            None => scenario_of(SCENARIO_FILES, id),
        }
    }

    /// What is seen at the steps of a plan, as a file to keep.
    pub fn sights_to_keep(&self, plan: &Plan) -> String {
        sights_of(self.known.sight_files(), plan)
    }
}
