//! What a drill rests on is kept as texts, and the same drill comes out of them.

use super::bench::{drill, scenario_files, scenarios, sight_files};
use hames::drill::{Drill, DrillTexts, Stage, scenario_of, sights_of};
use hames::rig::demo;
use hames::walk::{Moment, Walk, Words};
use std::sync::Arc;

#[test]
fn the_texts_kept_beside_a_drill_give_the_same_drill_again() {
    let (files, sights) = (scenario_files(), sight_files());
    let who = Words::read("Wren Ashdown").unwrap();
    let at: Moment = super::bench::moment(0);
    // Each takes its time; every fifth tells.
    for scenario in scenarios().iter().step_by(5) {
        let seed = 11;
        let played = drill(scenario, scenario.thrown(seed), seed);
        let scenario_text = scenario_of(files.iter().map(String::as_str), &scenario.id).unwrap();
        let sights_text = sights_of(sights.iter().map(String::as_str), &played.plan);
        let texts = DrillTexts {
            checklist: &played.passage,
            rig: demo::named(&scenario.rig).unwrap(),
            scenario: &scenario_text,
            sights: &sights_text,
        };
        let again = Drill::again(texts, (seed, Stage::Solo));
        let again = again.unwrap_or_else(|why| panic!("{}: {why:?}", scenario.id));
        assert_eq!(again.scenario, *scenario);
        assert_eq!(again.fault(), played.fault());
        assert_eq!(again.plan, played.plan, "{}", scenario.id);
        let walk = Walk::begin(
            Arc::clone(&played.plan),
            who.clone(),
            who.clone(),
            at.clone(),
        );
        for (index, planned) in played.plan.steps().iter().enumerate() {
            assert_eq!(again.there(&walk, index), played.there(&walk, index));
            assert_eq!(again.vantages(planned), played.vantages(planned));
            for from in played.vantages(planned) {
                assert_eq!(
                    again.sees(&walk, index, from),
                    played.sees(&walk, index, from)
                );
            }
        }
    }
}
