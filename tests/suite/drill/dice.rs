//! The same seed is the same drill, and about a third of all drills are of a rig that is well.

use super::bench::{Learner, drill, rig, scenarios, sights};
use hames::checklist::Shipped;
use hames::drill::{Drill, Scenario, Stage};
use std::sync::Arc;

fn thrown(scenario: &Arc<Scenario>, seed: u64) -> Drill {
    let list = Shipped::named(&scenario.list)
        .unwrap()
        .by_default()
        .unwrap();
    let rig = rig(&scenario.rig);
    Drill::throw(Arc::clone(scenario), list, rig, sights(), seed).unwrap()
}

#[test]
fn the_same_seed_is_the_same_drill_to_the_last_reading() {
    for scenario in scenarios() {
        let play = |seed| Learner::new(thrown(scenario, seed), Stage::Solo, None).plays();
        let (one, other) = (play(4711), play(4711));
        assert_eq!(one.walk(), other.walk(), "{}", scenario.id);
        assert_eq!(one.score(), other.score(), "{}", scenario.id);
    }
}

#[test]
fn of_all_drills_about_a_third_are_of_a_rig_that_is_well() {
    let seeds = 300;
    let drills = scenarios()
        .iter()
        .flat_map(|scenario| (0..seeds).map(move |seed| (scenario, seed)));
    let good = drills
        .filter(|(scenario, seed)| scenario.is_good_by(*seed))
        .count();
    let all = scenarios().len() * usize::try_from(seeds).unwrap();
    let share = good * 100 / all;
    assert!((28..=42).contains(&share), "{share} of 100");
}

#[test]
fn every_fault_of_a_scenario_comes_up() {
    for scenario in scenarios() {
        for (at, fault) in scenario.faults.iter().enumerate() {
            let comes = (0..200).any(|seed| scenario.thrown(seed) == Some(at));
            assert!(comes, "{} {}", scenario.id, fault.id);
        }
    }
}
