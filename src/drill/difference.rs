//! What whoever passed a check ride has to drill again, since the checklist has changed.

use crate::checklist::{Checklist, Step};

/// Where a critical step stands that is new, or other than it was.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Different {
    /// The section, by its id.
    pub section: String,
    /// The step, by its id.
    pub step: String,
}

/// The critical steps of a checklist that are new since this earlier revision, or other than they
/// were: another question, other limits, another branch. A step that is gone is nothing to drill.
pub fn different(before: &Checklist, now: &Checklist) -> Vec<Different> {
    let earlier = |id: &str| {
        let mut steps = before.sections.iter().flat_map(|section| &section.steps);
        steps.find(|step| step.id == id)
    };
    // Why it is done may be said better without anything to drill.
    let asked = |step: &Step| Step {
        why: String::new(),
        skipped: String::new(),
        ..step.clone()
    };
    let is_other =
        |step: &&Step| step.critical && earlier(&step.id).map(asked) != Some(asked(step));
    let sections = now.sections.iter();
    let found = sections.flat_map(|section| {
        let changed = section.steps.iter().filter(is_other);
        changed.map(|step| Different {
            section: section.id.clone(),
            step: step.id.clone(),
        })
    });
    found.collect()
}
