//! Names: a list, section or rig that is not there, and ids that stand twice.

use crate::document::nearest;
use crate::drill::Scenario;
use crate::drill::check::case::Case;
use crate::drill::check::{Known, Remark, Rule};
use std::collections::HashSet;

pub(super) fn remarks(case: &Case<'_>) -> Vec<Remark> {
    let (scenario, known) = (case.scenario, case.known);
    let mut remarks = Vec::new();
    match known.list(&scenario.list) {
        None => {
            let what = format!("there is no list `{}`", scenario.list);
            remarks.push(no_such(case.key("list"), what, &known.list_ids()));
        }
        Some(list) => {
            let sections = &list.checklist.sections;
            let ids: Vec<&str> = sections.iter().map(|one| one.id.as_str()).collect();
            for (at, section) in scenario.sections.iter().enumerate() {
                if !ids.contains(&section.as_str()) {
                    let what = format!("`{}` has no section `{section}`", scenario.list);
                    remarks.push(no_such(case.key(&format!("sections[{at}]")), what, &ids));
                }
            }
        }
    }
    if known.rig(&scenario.rig).is_none() {
        let what = format!("there is no rig `{}`", scenario.rig);
        remarks.push(no_such(case.key("rig"), what, &known.rig_ids()));
    }
    remarks
}

/// A name that is not among these, with the one that was most likely meant.
pub(super) fn no_such(path: String, what: String, there_are: &[&str]) -> Remark {
    let word = what.rsplit('`').nth(1).unwrap_or_default();
    let all = there_are.join(", ");
    let fix = match nearest(word, there_are.iter().copied()) {
        Some(meant) => format!("did you mean `{meant}`? There are {all}"),
        None if there_are.is_empty() => "take it away".to_owned(),
        None => format!("there are {all}"),
    };
    Remark::new(Rule::NoSuchName, path, what, fix)
}

/// Scenarios of one id, in this file and beside others, and faults of one id in one scenario.
pub(super) fn ids_twice(scenarios: &[Scenario], known: &Known) -> Vec<Remark> {
    let mut remarks = Vec::new();
    let mut seen = HashSet::new();
    for (at, scenario) in scenarios.iter().enumerate() {
        let id = scenario.id.as_str();
        if !seen.insert(id) || known.is_taken(scenario) {
            let what = format!("another scenario is called `{id}`");
            remarks.push(twice(format!("scenarios[{at}].id"), what));
        }
        let mut faults = HashSet::new();
        for (place, fault) in scenario.faults.iter().enumerate() {
            if !faults.insert(fault.id.as_str()) {
                let what = format!("another fault of this scenario is called `{}`", fault.id);
                let path = format!("scenarios[{at}].faults[{place}].id");
                remarks.push(twice(path, what));
            }
        }
    }
    remarks
}

pub(super) fn twice(path: String, what: String) -> Remark {
    Remark::new(Rule::SameName, path, what, "give it a name of its own")
}
