//! The shipped hitch-up as it is walked: the order of the work, what is looked at again after an
//! absence, and a driver who is alone.

use crate::harness::good;
use chrono::{DateTime, TimeDelta};
use hames::checklist::{Checklist, Plan, PlannedAsk, StepKey};
use hames::rig::demo::JUNIPER;
use hames::rig::{InstrumentKind, Rig};
use hames::rules::{Authority, Limit};
use hames::walk::{Act, Ended, Given, Moment, Now, Walk, Words};
use std::collections::BTreeSet;

fn moment() -> Moment {
    Moment {
        wall: DateTime::parse_from_rfc3339("2026-11-25T07:30:00-05:00").unwrap(),
        boot: "boot-1".to_owned(),
        mono_ms: 1_000_000,
    }
}

fn plan_on(rig: Rig) -> Plan {
    Plan::lay(
        Checklist::read(&crate::harness::hitch_up_text()).unwrap(),
        rig,
    )
    .unwrap()
}

fn walk() -> Walk {
    let words = |text| Words::read(text).unwrap();
    Walk::begin(
        plan_on(Rig::read(JUNIPER).unwrap()),
        words("Wren Ashdown"),
        words("Tobias Fenn"),
        moment(),
    )
}

fn act(walk: &mut Walk, act: &Act) {
    good::step(walk, act, &moment()).unwrap_or_else(|refusal| panic!("{act:?}: {refusal}"));
}

/// Walks on with good answers until the step with this name stands open, or to the end.
fn go_to(walk: &mut Walk, name: &str) {
    loop {
        let next = match walk.now() {
            Now::Next(_) => Act::Open,
            Now::Open(index) => {
                let planned = walk.asked(index).unwrap();
                if planned.key.as_str() == name {
                    return;
                }
                let good = good::good(walk.plan(), &planned, "Odile Marsh");
                good.act().clone()
            }
            Now::SectionEnd(_) => Act::CloseSection,
            Now::Finished => return,
            other => panic!("{other:?} on the way to {name}"),
        };
        act(walk, &next);
    }
}

/// What an absence of three minutes before the step with this name lets look at again.
fn after_an_absence_at(name: &str) -> Vec<String> {
    let mut walk = walk();
    go_to(&mut walk, name);
    let (why, next) = (String::new(), String::new());
    act(&mut walk, &Act::Hold { why, next });
    let mut later = moment();
    later.mono_ms += 180_000;
    later.wall += TimeDelta::seconds(180);
    good::step(&mut walk, &Act::Resume, &later).unwrap();
    let again = walk.to_look_at_again();
    again
        .map(|index| walk.step(index).unwrap().0.key.to_string())
        .collect()
}

#[test]
fn the_steps_stand_in_the_order_of_the_work() {
    let plan = plan_on(Rig::read(JUNIPER).unwrap());
    let order = [
        "trailer-weight",
        "tongue-weight",
        "air",
        "truck-fluids",
        "chocks-in",
        "receiver-pin",
        "ball-size",
        "socket",
        "ball-under",
        "seat",
        "latch",
        "latch-pin",
        "lift-rise",
        "front-mark",
        "rear-mark",
        "chains-crossed",
        "chain-length/left",
        "lanyard-anchor",
        "lanyard-length",
        "battery-rest",
        "battery-load",
        "jack-clear",
        "chocks-out",
        "trailer-drags",
        "cord-plug",
        "cord-length",
        "lever-volts",
        "magnet-current",
        "brake-lamps",
        "pull-time",
        "pedal-stop",
        "last-hand",
        "load-gain",
    ];
    let at = |name: &str| plan.index(&StepKey::named(name)).unwrap();
    let found = order.map(at);
    assert!(found.is_sorted(), "{found:?}");
    for before_the_first_move in ["floor", "escape-door", "stalls", "wheels-clear", "jack-pin"] {
        assert!(at(before_the_first_move) < at("trailer-drags"));
    }
}

#[test]
fn chocks_and_horses_are_looked_at_again_while_the_trailer_hangs_on_nothing_else() {
    assert_eq!(
        after_an_absence_at("ball-under"),
        ["horses-off", "trailer-held", "receiver-pin", "socket"]
    );
}

#[test]
fn all_that_can_change_unseen_is_looked_at_again_and_stowed_chocks_are_not_counted_in() {
    let again = after_an_absence_at("gear-away");
    assert_eq!(
        again,
        [
            "horses-off",
            "trailer-held",
            "receiver-pin",
            "truck-held",
            "seat",
            "latch",
            "latch-pin",
            "chain-hook/left",
            "chain-hook/right",
            "lanyard-anchor",
            "pin-in",
            "jack-pin",
            "wheels-clear",
            "cord-plug",
            "doors-shut",
        ]
    );
}

#[test]
fn a_driver_alone_says_so_and_walks_to_the_end_with_the_second_look_left_out() {
    let mut walk = walk();
    go_to(&mut walk, "company");
    let state = "alone".to_owned();
    act(&mut walk, &Act::See { state });
    let words = "nobody at the barn before seven; coupler looked at twice".to_owned();
    act(&mut walk, &Act::Remark { words });
    go_to(&mut walk, "second-look");
    let index = walk.plan().index(&StepKey::named("second-look")).unwrap();
    assert_eq!(
        walk.left_out(index).unwrap(),
        "company was answered “alone”; nobody else is here to look"
    );
    let words = String::new();
    let outcome = Ended::Complete;
    act(&mut walk, &Act::End { outcome, words });
    assert_eq!(walk.tally().note, 1);
}

#[test]
fn a_rig_without_a_spare_is_not_asked_for_one() {
    let mut rig = Rig::read(JUNIPER).unwrap();
    rig.trailer.spare = None;
    let plan = plan_on(rig);
    let left: Vec<&str> = plan.left().iter().map(|left| left.step.as_str()).collect();
    assert_eq!(left, ["spare-tire"]);
    assert_eq!(
        plan.left()[0].because,
        "number of spare tires is 0; there is no spare to read"
    );
}

/// Juniper as it was described before anyone measured springs, wire or stalls.
const PLAIN: &str = include_str!("../vectors/record/hitch-bumper-2/rig.yaml");

/// Each limit the whole walk was held to, by step, with how its bound came about.
fn held(walk: &Walk) -> Vec<(String, Limit)> {
    let steps = walk.plan().steps().iter().zip(walk.steps());
    let answers = steps.flat_map(|(planned, state)| {
        let answers = state.answers.iter();
        answers.map(|answer| (planned.key.to_string(), answer.given.clone()))
    });
    let limits = answers.flat_map(|(step, given)| match given {
        Given::Read { judgement, .. } => {
            let held = judgement.held.into_iter();
            held.map(|held| (step.clone(), held.limit)).collect()
        }
        Given::Seen { .. } => vec![],
    });
    limits.collect()
}

fn walked(rig: Rig) -> Walk {
    let words = |text| Words::read(text).unwrap();
    let (reader, doer) = (words("Wren Ashdown"), words("Tobias Fenn"));
    let mut walk = Walk::begin(plan_on(rig), reader, doer, moment());
    while let Some((act, _)) = good::next(&walk, "Odile Marsh") {
        good::step(&mut walk, &act, &moment()).unwrap();
    }
    assert_eq!(walk.ended(), Some(Ended::Complete));
    walk
}

fn by_rule_of_thumb(limits: &[(String, Limit)]) -> BTreeSet<&str> {
    let thumbs = limits.iter().filter(|(_, limit)| {
        let how = limit.derivation.as_deref();
        how.is_some_and(|how| how.starts_with("rule of thumb, since "))
    });
    thumbs.map(|(step, _)| step.as_str()).collect()
}

#[test]
fn a_rig_described_whole_is_held_to_its_own_numbers_and_to_no_rule_of_thumb() {
    let walk = walked(Rig::read(JUNIPER).unwrap());
    assert_eq!(by_rule_of_thumb(&held(&walk)), BTreeSet::new());
}

#[test]
fn a_rig_without_the_numbers_for_physics_is_walked_by_rules_of_thumb_that_say_so() {
    let walk = walked(Rig::read(PLAIN).unwrap());
    let limits = held(&walk);
    let steps = by_rule_of_thumb(&limits);
    for step in ["rear-mark", "cord-length", "tire-cold/left-front"] {
        assert!(steps.contains(step), "{step}: {steps:?}");
    }
    for (step, limit) in &limits {
        let Some(how) = &limit.derivation else {
            continue;
        };
        if how.starts_with("rule of thumb") {
            assert_eq!(limit.basis.authority, Authority::Default, "{step}: {how}");
        }
    }
    let (_, rear) = limits.iter().find(|(step, _)| step == "rear-mark").unwrap();
    let how = rear.derivation.as_ref().unwrap();
    assert!(
        how.contains("the rig file does not say ") && how.contains("trailer.axles.spring"),
        "{how}"
    );
    assert_eq!(
        rear.basis.source,
        "half a degree nose low, common practice, no source"
    );
}

#[test]
fn a_rig_without_thermometer_and_clamp_meter_leaves_their_steps_out_and_walks() {
    let mut rig = Rig::read(PLAIN).unwrap();
    let rare = [InstrumentKind::Thermometer, InstrumentKind::ClampMeter];
    rig.instruments.retain(|one| !rare.contains(&one.kind));
    let walk = walked(rig);
    let left: Vec<&str> = walk
        .plan()
        .left()
        .iter()
        .map(|left| left.step.as_str())
        .collect();
    assert_eq!(left, ["air", "magnet-current"]);
}

/// 41 F takes 65 psi, set at 70 F, down to 61 psi: three psi under that is a leak.
#[test]
fn the_air_of_the_day_and_the_ticket_of_the_day_draw_the_limits_behind_them() {
    let mut walk = walk();
    let read = |typed: &str, instrument: &str| Act::Read {
        typed: typed.to_owned(),
        instrument: instrument.to_owned(),
    };
    go_to(&mut walk, "trailer-weight");
    act(&mut walk, &read("5700 lb", "ticket"));
    go_to(&mut walk, "air");
    act(&mut walk, &read("41 F", "thermometer"));
    let bounds = |step: &str| -> Vec<String> {
        let index = walk.plan().index(&StepKey::named(step)).unwrap();
        let asked = walk.asked(index).unwrap();
        let PlannedAsk::Reading { limits, open, .. } = &asked.ask else {
            panic!("{step} is no reading")
        };
        assert_eq!(open.len(), 0, "{step}");
        let told = |limit: &Limit| {
            format!(
                "{} {} {}",
                limit.verdict.word(),
                limit.side.word(),
                limit.bound
            )
        };
        limits.iter().map(told).collect()
    };
    assert_eq!(
        bounds("tongue-weight")[1..],
        ["stop below 574 lb", "fix above 849 lb"]
    );
    assert!(
        bounds("tire-cold/left-front").contains(&"note below 58 psi".to_owned()),
        "{:?}",
        bounds("tire-cold/left-front")
    );
    assert!(
        bounds("battery-rest").contains(&"stop below 12.4 V".to_owned()),
        "{:?}",
        bounds("battery-rest")
    );
}

#[test]
fn a_lanyard_that_no_length_can_be_right_for_is_noted_whatever_it_measures() {
    let short = JUNIPER.replace("length: { is: 30 in", "length: { is: 27-1/2 in");
    assert_ne!(short, JUNIPER);
    let words = |text| Words::read(text).unwrap();
    let plan = plan_on(Rig::read(&short).unwrap());
    let mut walk = Walk::begin(plan, words("Wren Ashdown"), words("Tobias Fenn"), moment());
    go_to(&mut walk, "lanyard-length");
    let (typed, instrument) = ("27 1/4 in".to_owned(), "tape".to_owned());
    act(&mut walk, &Act::Read { typed, instrument });
    let Now::Remark(_) = walk.now() else {
        panic!("{:?}", walk.now())
    };
    let limits = held(&walk);
    let (_, last) = limits.last().unwrap();
    assert!(
        last.derivation
            .as_ref()
            .unwrap()
            .contains("no length works"),
        "{last:?}"
    );
}
