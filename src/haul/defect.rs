//! What was found bad and stands so, until it is read again and found well.

use crate::checklist::StepKey;
use crate::rules::{Carried, Limit, Verdict};
use crate::walk::Words;
use chrono::{DateTime, FixedOffset};

/// What a step of a walk was last found to be.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// The step, with its part.
    pub step: StepKey,
    /// Its name on screens.
    pub name: String,
    /// The reading as typed, or what was seen.
    pub found: String,
    /// What that means.
    pub verdict: Verdict,
    /// The limit that decided, where a reading was judged.
    pub limit: Option<Limit>,
    /// Who read or saw it.
    pub who: Words,
    /// When.
    pub at: DateTime<FixedOffset>,
    /// What was said to explain a note.
    pub remark: Option<Words>,
    /// What was left before, where the step stands for that alone.
    pub only_for: Option<Carried>,
}

/// Something found bad that no later answer found well.
#[derive(Clone, Debug, PartialEq)]
pub struct Defect {
    /// What was found.
    pub found: Found,
    /// The trip.
    pub trip: String,
    /// The title of its checklist.
    pub list: String,
}

/// A defect and the answer that closed it.
#[derive(Clone, Debug, PartialEq)]
pub struct Closed {
    /// What was bad.
    pub defect: Defect,
    /// The reading or sighting that found it well, with who made it.
    pub by: Found,
    /// The trip of that answer.
    pub trip: String,
}

impl Defect {
    /// Whether it keeps the rig off the road, and does not only warn.
    pub fn blocks(&self) -> bool {
        self.found.verdict.blocks()
    }
}
