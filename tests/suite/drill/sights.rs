//! What is seen at a step: in every state, and so that each can be told from every other.

use super::bench::{list_files, own_lists, scenario_files, scenarios, sight_files, sights};
use hames::checklist::{Ask, SightingAsk, Step, shipped_by_default};
use hames::drill::{LIST_FILES, SCENARIO_FILES, SIGHT_FILES, Vantage};

/// Every step of a list that comes with the program, or is for drills alone, that asks what is seen, and what it asks.
fn sightings() -> Vec<(&'static Step, &'static SightingAsk)> {
    let lists = shipped_by_default()
        .chain(own_lists())
        .map(|list| &list.checklist);
    let steps = lists
        .flat_map(|list| &list.sections)
        .flat_map(|section| &section.steps);
    let asks = steps.filter_map(|step| match &step.ask {
        Ask::Sighting(ask) | Ask::Independent(ask) => Some((step, ask)),
        Ask::Reading(_) => None,
    });
    asks.collect()
}

#[test]
fn every_state_of_a_step_is_seen_from_every_place_and_can_be_told_from_the_others() {
    let mut wrong = Vec::new();
    let sights = sights();
    for sight in sights.steps() {
        let places: Vec<Vantage> = sight.places().collect();
        let mut found = false;
        for (step, ask) in sightings() {
            if step.id != sight.step {
                continue;
            }
            found = true;
            let states = ask.states.iter().filter(|state| !state.cannot_see);
            for state in states.clone() {
                for from in &places {
                    if sight.sees(*from, &state.id).is_none() {
                        wrong.push(format!(
                            "{} {} is not seen {}",
                            step.id,
                            state.id,
                            from.label()
                        ));
                    }
                }
                if !sight.is_known(&state.id, &places) {
                    wrong.push(format!(
                        "{} {} cannot be told from another state",
                        step.id, state.id
                    ));
                }
            }
            for told in sight.states() {
                if !ask
                    .states
                    .iter()
                    .any(|state| state.id == told && !state.cannot_see)
                {
                    wrong.push(format!("{} has no state {told}", step.id));
                }
            }
        }
        if !found {
            wrong.push(format!(
                "no list has a step {} that asks what is seen",
                sight.step
            ));
        }
        if sights
            .steps()
            .filter(|other| other.step == sight.step)
            .count()
            > 1
        {
            wrong.push(format!("{} is described twice", sight.step));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn whatever_a_fault_shows_is_described() {
    let mut wrong = Vec::new();
    for scenario in scenarios() {
        for (step, _) in scenario.faults.iter().flat_map(|fault| &fault.differs.seen) {
            if sights().of(step.step()).is_none() {
                wrong.push(format!(
                    "{}: nothing says what is seen at {step}",
                    scenario.id
                ));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn what_is_on_the_disk_is_what_is_in_the_program() {
    let same = |inside: &[&str], mut outside: Vec<String>| {
        let mut inside: Vec<String> = inside.iter().map(|text| (*text).to_owned()).collect();
        inside.sort();
        outside.sort();
        assert_eq!(inside, outside, "add the file to src/drill/shipped.rs");
    };
    same(&SCENARIO_FILES, scenario_files());
    same(&SIGHT_FILES, sight_files());
    same(&LIST_FILES, list_files());
}
