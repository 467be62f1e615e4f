//! What was found bad and stands so, until it is read again and found well.

use crate::checklist::StepKey;
use crate::haul::Owned;
use crate::rules::{Carried, Limit, Verdict};
use crate::units::Quantity;
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
    /// Since when it stands.
    pub since: DateTime<FixedOffset>,
    /// Every trip on which it was found since then, in order.
    pub trips: Vec<String>,
    /// The furthest odometer read since then.
    pub furthest: Option<Quantity>,
    /// What managers said of it, in order.
    pub owned: Vec<Owned>,
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

impl Closed {
    /// How many days it stood.
    pub fn days(&self) -> i64 {
        let stood = self.by.at.date_naive() - self.defect.since.date_naive();
        stood.num_days()
    }

    /// Whether whoever found what stops the rig also found it well: nobody else has looked at it.
    pub fn by_the_finder(&self) -> bool {
        let was = &self.defect.found;
        was.verdict == Verdict::Stop && self.by.who.names_whom(was.who.as_str())
    }
}
