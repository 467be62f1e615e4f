//! Every scenario, every fault of it, and the same rig with nothing wrong.

use super::bench::{Learner, drill, scenarios};
use hames::drill::{Fault, Scenario, Slip, Stage};
use hames::walk::Ended;
use std::sync::Arc;

/// Every scenario with each of its faults.
fn faulty() -> impl Iterator<Item = (&'static Arc<Scenario>, usize, &'static Fault)> {
    scenarios().iter().flat_map(|scenario| {
        let faults = scenario.faults.iter().enumerate();
        faults.map(move |(at, fault)| (scenario, at, fault))
    })
}

/// Plays them all and tells every one that went wrong, not only the first.
fn all<T>(each: impl Iterator<Item = T>, play: impl Fn(T) -> Result<(), String>) {
    let wrong: Vec<String> = each.filter_map(|one| play(one).err()).collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

#[test]
fn whoever_looks_and_measures_catches_every_fault_of_every_scenario() {
    all(faulty(), |(scenario, at, fault)| {
        let name = format!("{} {}", scenario.id, fault.id);
        let run = Learner::new(drill(scenario, Some(at), 7), Stage::Faults, None).plays();
        let score = run.score();
        let caught = score.caught().find(|step| step.step == fault.call.step);
        let as_grave = caught.is_some_and(|step| step.truly == Some(fault.call.verdict));
        if score.is_clean() && as_grave {
            return Ok(());
        }
        Err(format!("{name}: not {:?}: {score:#?}", fault.call))
    });
}

#[test]
fn the_commonest_wrong_call_of_every_fault_misses_it() {
    all(faulty(), |(scenario, at, fault)| {
        let name = format!("{} {}", scenario.id, fault.id);
        let slip = Some(fault.slip.clone());
        let run = Learner::new(drill(scenario, Some(at), 7), Stage::Faults, slip).plays();
        let step = match &fault.slip {
            Slip::Seen(step, _) | Slip::Called(step, _) => step,
        };
        let missed = run.score().missed().any(|missed| missed.step == *step);
        missed
            .then_some(())
            .ok_or_else(|| format!("{name}: {:#?}", run.score()))
    });
}

#[test]
fn on_a_rig_with_nothing_wrong_nothing_is_found() {
    all(scenarios().iter(), |scenario| {
        let run = Learner::new(drill(scenario, None, 7), Stage::Faults, None).plays();
        let score = run.score();
        let well = score.is_clean()
            && score.caught().count() == 0
            && run.walk().ended() == Some(Ended::Complete);
        well.then_some(())
            .ok_or_else(|| format!("{}: {score:#?}", scenario.id))
    });
}
