//! The same seed is the same drill, and about a third of all drills are of a rig that is well.

use super::bench::{Learner, drill, scenarios};
use hames::drill::Stage;

#[test]
fn the_same_seed_is_the_same_drill_to_the_last_reading() {
    // One in seven is enough to tell, and each is played twice.
    for scenario in scenarios().iter().step_by(7) {
        let thrown = || drill(scenario, scenario.thrown(4711), 4711);
        let play = || Learner::new(thrown(), Stage::Solo, None).plays();
        let (one, other) = (play(), play());
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
