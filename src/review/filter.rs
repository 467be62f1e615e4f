//! Which trips somebody wants to see.

use crate::review::{Glance, Weight};
use chrono::NaiveDate;

/// What the trips that are shown have in common; one that says nothing takes all.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Filter {
    /// Of this rig, by its id.
    pub rig: Option<String>,
    /// Somebody whose name has these letters took part, whoever signed.
    pub person: Option<String>,
    /// At least so grave.
    pub least: Option<Weight>,
    /// From this day on.
    pub since: Option<NaiveDate>,
    /// Up to this day, which counts.
    pub until: Option<NaiveDate>,
    /// A manager still has something to do with it.
    pub open: bool,
}

impl Filter {
    /// Whether it takes this trip. A trip is of the day its own clock told where it was walked.
    pub fn takes(&self, glance: &Glance) -> bool {
        let day = glance.at.date_naive();
        self.rig.as_ref().is_none_or(|rig| *rig == glance.rig)
            && self.person.as_ref().is_none_or(|person| took_part(glance, person))
            && self.least.is_none_or(|least| glance.weight() >= least)
            && self.since.is_none_or(|since| day >= since)
            && self.until.is_none_or(|until| day <= until)
            && (!self.open || glance.is_open())
    }
}

fn took_part(glance: &Glance, person: &str) -> bool {
    let wanted = person.trim().to_lowercase();
    let mut names = std::iter::once(&glance.who).chain(&glance.others);
    names.any(|name| name.to_lowercase().contains(&wanted))
}
