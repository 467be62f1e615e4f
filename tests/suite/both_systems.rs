//! Both systems of units: a metric barn reads other figures on the same screens, and no verdict
//! moves.

use crate::plain::bench::{BEGIN, Bench};
use crate::screens::bench::Bench as Screens;
use hames::barn::{ForWalk, Units};
use hames::checklist::{Plan, PlannedAsk, shipped_by_default};
use hames::rig::demo::{JUNIPER, MESQUITE};
use hames::rig::{Instrument, Rig};
use hames::rules::{Limit, judge};
use hames::units::{Exact, Quantity};

/// A little under a bound, at it, and a little over it.
fn about(limit: &Limit) -> [Quantity; 3] {
    let by = |parts| {
        let share = Exact::ratio(parts, 1000).unwrap();
        let moved = &limit.bound.value + &(&limit.bound.value.magnitude() * &share);
        Quantity::new(moved, limit.bound.unit)
    };
    [by(-3), by(0), by(3)]
}

/// Holds what a reading comes to against what the same reading typed in the other system does.
fn same_verdict(limits: &[Limit], instruments: &[&Instrument], reading: &Quantity) {
    let other = Units::Metric.unit_for(reading.unit);
    let metric = reading.in_unit(other).unwrap();
    for instrument in [None]
        .into_iter()
        .chain(instruments.iter().copied().map(Some))
    {
        let judged = [reading, &metric].map(|reading| judge(reading, instrument, limits).outcome);
        assert_eq!(
            judged[0], judged[1],
            "{reading} and {metric} with {instrument:?}"
        );
    }
}

#[test]
fn a_reading_typed_in_either_system_comes_to_the_same_verdict() {
    let mut compared = 0;
    for text in [JUNIPER, MESQUITE] {
        let rig = Rig::read(text).unwrap();
        for list in shipped_by_default() {
            let Ok(plan) = Plan::lay(list.checklist.clone(), rig.clone()) else {
                continue;
            };
            for step in plan.steps() {
                let PlannedAsk::Reading { ask, limits, .. } = &step.ask else {
                    continue;
                };
                let suits = |tool: &&Instrument| tool.kind == ask.instrument;
                let tools: Vec<&Instrument> = rig.instruments.iter().filter(suits).collect();
                for reading in limits.iter().flat_map(about) {
                    same_verdict(limits, &tools, &reading);
                    compared += 1;
                }
            }
        }
    }
    assert!(compared > 300, "{compared}");
}

#[test]
fn a_metric_barn_is_shown_metric_units_with_what_the_list_says_in_brackets() {
    let metric = ForWalk {
        units: Units::Metric,
        call: None,
    };
    let mut screens = Screens::new();
    screens.desk.barn_settings = metric.clone();
    let asked = screens
        .play("1")
        .at_step("tire-cold/left-front")
        .play("a450 kPa");
    let shown = asked.text(120, 40);
    assert!(shown.contains("____ with its unit (kPa)\n"), "{shown}");
    let shown = asked.play("⏎").text(120, 40);
    assert!(shown.contains("fix below 426 kPa (61.75 psi)"), "{shown}");
    let mut lines = Bench::with(Screens::new().desk.plan);
    lines.barn_settings = metric;
    let told = lines.type_in(&format!("{BEGIN}2\n2\n400 kg\n")).text;
    assert!(told.contains("with its unit, such as kg."), "{told}");
    assert!(told.contains("stop above 363 kg (800 lb)"), "{told}");
}
