//! The shipped hitch-up as it is walked: the order of the work, what is looked at again after an
//! absence, and a driver who is alone.

use crate::harness::good;
use chrono::{DateTime, TimeDelta};
use hames::checklist::{Checklist, Plan, SHIPPED, StepKey};
use hames::rig::Rig;
use hames::rig::demo::JUNIPER;
use hames::walk::{Act, Ended, Moment, Now, Walk, Words};

fn moment() -> Moment {
    Moment {
        wall: DateTime::parse_from_rfc3339("2026-11-25T07:30:00-05:00").unwrap(),
        boot: "boot-1".to_owned(),
        mono_ms: 1_000_000,
    }
}

fn plan_on(rig: Rig) -> Plan {
    Plan::lay(Checklist::read(SHIPPED[0].text).unwrap(), rig).unwrap()
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
        "frame-level",
        "chains-crossed",
        "lanyard-anchor",
        "lanyard-slack",
        "battery-rest",
        "battery-load",
        "jack-clear",
        "chocks-out",
        "trailer-drags",
        "cord-plug",
        "lever-volts",
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
