//! Which bad states of critical steps some scenario meets.

use super::bench::scenarios;
use hames::checklist::{Ask, Shipped};
use hames::drill::Family;
use hames::rules::Verdict;
use std::collections::BTreeSet;

/// The lists whose critical steps are drilled.
const DRILLED: [&str; 7] = [
    "hitch-bumper",
    "hitch-gooseneck",
    "load-horses",
    "departure",
    "first-stop",
    "stop",
    "unhitch",
];

/// Bad states that no drill on the invented rigs can come to, each with why.
const UNREACHABLE: [(&str, &str); 4] = [
    // What truck and trailer may weigh together lies above what each may weigh alone.
    ("combined-weight", "stop"),
    // A thermometer lies on both rigs, so that the hand is not asked.
    ("hub-hand", "hot"),
    ("hub-hand", "warmer"),
    // It stands in for a limit that both rigs know.
    ("lanyard-length", "note"),
];

#[test]
fn every_bad_state_of_every_critical_step_is_met_by_some_scenario() {
    let mut met = BTreeSet::new();
    for fault in scenarios().iter().flat_map(|scenario| &scenario.faults) {
        for (step, state) in &fault.differs.seen {
            met.insert((step.step().to_owned(), state.clone()));
        }
        if fault.call.verdict > Verdict::Ok {
            met.insert((
                fault.call.step.step().to_owned(),
                fault.call.verdict.word().to_owned(),
            ));
        }
    }
    let mut unmet = BTreeSet::new();
    for list in DRILLED {
        let list = Shipped::named(list).unwrap().by_default().unwrap();
        let steps = list
            .checklist
            .sections
            .iter()
            .flat_map(|section| &section.steps);
        for step in steps.filter(|step| step.critical) {
            let bad: Vec<String> = match &step.ask {
                Ask::Sighting(ask) | Ask::Independent(ask) => {
                    let bad = ask
                        .states
                        .iter()
                        .filter(|state| state.verdict > Verdict::Ok && !state.cannot_see);
                    bad.map(|state| state.id.clone()).collect()
                }
                Ask::Reading(ask) => {
                    let verdicts = ask.limits.iter().map(|rung| rung.verdict.word().to_owned());
                    verdicts.collect()
                }
            };
            unmet.extend(
                bad.into_iter()
                    .map(|bad| (step.id.clone(), bad))
                    .filter(|one| !met.contains(one)),
            );
        }
    }
    let unmet: Vec<(&str, &str)> = unmet
        .iter()
        .map(|(step, bad)| (step.as_str(), bad.as_str()))
        .collect();
    assert_eq!(unmet, UNREACHABLE);
}

#[test]
fn every_family_of_faults_has_a_scenario_and_every_scenario_an_id_of_its_own() {
    for (word, family) in Family::WORDS {
        let any = scenarios().iter().any(|scenario| scenario.family == family);
        assert!(any, "no scenario is about {word}");
    }
    let ids: BTreeSet<&str> = scenarios().iter().map(|one| one.id.as_str()).collect();
    assert_eq!(ids.len(), scenarios().len());
    assert!(ids.len() >= 60, "{}", ids.len());
}
