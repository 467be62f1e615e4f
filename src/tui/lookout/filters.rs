//! Which trips are shown: each key turns one filter on to the next thing there is.

use crate::desk::Lookout;
use crate::review::{Filter, Weight, is_named};
use crate::tui::text::escaped;
use std::collections::BTreeSet;

/// The rigs and the people that trips can be asked for by.
#[derive(Clone, Debug, Default)]
pub(super) struct Names {
    pub(super) rigs: BTreeSet<String>,
    pub(super) people: BTreeSet<String>,
}

impl Names {
    pub(super) fn of(lookout: &Lookout) -> Self {
        let mut names = Self::default();
        for trip in &lookout.trips {
            let glance = &trip.glance;
            names.rigs.insert(glance.rig.clone());
            names.people.extend(glance.people().map(str::to_owned));
        }
        names
    }

    /// A sentence where a filter names what no trip has.
    pub(super) fn unknown(&self, filter: &Filter) -> Option<String> {
        let there = |names: &BTreeSet<String>| {
            let names: Vec<String> = names.iter().map(|name| escaped(name)).collect();
            names.join(", ")
        };
        let rig = filter.rig.as_ref().filter(|rig| !self.rigs.contains(*rig));
        if let Some(rig) = rig {
            let rigs = there(&self.rigs);
            return Some(format!("No rig is called {}. Rigs: {rigs}.", escaped(rig)));
        }
        let person = filter.person.as_ref();
        let person =
            person.filter(|person| !self.people.iter().any(|name| is_named(person, name)))?;
        let people = there(&self.people);
        Some(format!(
            "Nobody is called {}. People: {people}.",
            escaped(person)
        ))
    }
}

/// The one after this; after the last none, and after none the first.
pub(super) fn turned(now: Option<&String>, all: &BTreeSet<String>) -> Option<String> {
    match now {
        None => all.first(),
        Some(now) => all.iter().find(|one| *one > now),
    }
    .cloned()
}

/// The next weight round; the lightest would leave nothing out, so it is none.
pub(super) fn graver(now: Option<Weight>) -> Option<Weight> {
    let mut graver = Weight::ALL.into_iter().skip(1);
    graver.find(|weight| now.is_none_or(|now| *weight > now))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_filter_turns_through_what_there_is_and_then_takes_all() {
        let all = ["juniper", "mesquite"].map(str::to_owned);
        let all = BTreeSet::from(all);
        let mut now = None;
        let mut seen = Vec::new();
        for _ in 0..4 {
            now = turned(now.as_ref(), &all);
            seen.push(now.clone().unwrap_or_default());
        }
        assert_eq!(seen, ["juniper", "mesquite", "", "juniper"]);
        // A part of a name, as typed behind a flag, turns on to whoever comes after it.
        let part = "k".to_owned();
        assert_eq!(turned(Some(&part), &all).as_deref(), Some("mesquite"));
        let mut least = None;
        let mut seen = Vec::new();
        for _ in 0..5 {
            least = graver(least);
            seen.push(least.map(Weight::key));
        }
        let words = ["noted", "fixed", "stopped", "doubtful"].map(Some);
        assert_eq!((&seen[..4], seen[4]), (&words[..], None));
    }
}
