//! What nearly happened on a walk as the sketch of a scenario: nothing of who was there, every
//! place to be written named, and played once they are.

use super::bench::{Learner, drill};
use crate::harness::good;
use hames::checklist::{Plan, PlannedAsk, Shipped, StepKey};
use hames::drill::{Finding, Known, Rule, Stage, check, sketch};
use hames::rig::Rig;
use hames::rig::demo::JUNIPER;
use hames::rules::Outcome;
use hames::walk::{Act, Entry, Moment, Now, Walk, Words};
use std::sync::Arc;

/// What is answered where a walk stands.
type Answer = Box<dyn Fn(&Walk, usize) -> Act>;

/// What is said and who is named on the walk; nothing of it may be in a sketch.
const NAMES: [&str; 9] = [
    "Wren", "Ashdown", "Tobias", "Fenn", "Odile", "Marsh", "Bramble", "Thistle", "Sorrel",
];

fn moment(ms: u64) -> Moment {
    Moment {
        wall: "2026-11-20T07:00:00-06:00".parse().unwrap(),
        boot: "first".to_owned(),
        mono_ms: ms,
    }
}

fn does(walk: &mut Walk, act: &Act) {
    let at = moment(walk.last().mono_ms + 20_000);
    let event = walk
        .decide(act, &at)
        .unwrap_or_else(|refusal| panic!("{act:?}: {refusal}"));
    let actor = walk.reader().clone();
    walk.apply(&Entry { at, actor, event });
}

/// A walk on which all is well up to this step, and there it is not.
fn walked(step: &str, answer: &dyn Fn(&Walk, usize) -> Act) -> Walk {
    let list = Shipped::named("hitch-bumper")
        .unwrap()
        .by_default()
        .unwrap();
    let rig = JUNIPER.replace("Juniper", "Sorrel");
    let plan = Plan::lay(list.checklist.clone(), Rig::read(&rig).unwrap()).unwrap();
    let name = |name: &str| Words::read(name).unwrap();
    let (reader, doer) = (name("Wren Ashdown"), name("Tobias Fenn"));
    let mut walk = Walk::begin(plan, reader, doer, moment(0));
    let note = "Odile Marsh called about Bramble".to_owned();
    does(&mut walk, &Act::Note { words: note });
    loop {
        if let Now::Open(index) = walk.now()
            && walk.plan().steps()[index].key.as_str() == step
        {
            let act = answer(&walk, index);
            does(&mut walk, &act);
            if matches!(walk.now(), Now::Branch(_)) {
                return walk;
            }
            continue;
        }
        let (act, _) = good::next(&walk, "Odile Marsh").unwrap();
        does(&mut walk, &act);
    }
}

fn saw(state: &str) -> impl Fn(&Walk, usize) -> Act {
    let state = state.to_owned();
    move |walk, index| match walk.plan().steps()[index].ask {
        PlannedAsk::Independent(_) => Act::SeeAs {
            who: "Odile Marsh".to_owned(),
            state: state.clone(),
        },
        _ => Act::See {
            state: state.clone(),
        },
    }
}

fn read(typed: &str) -> impl Fn(&Walk, usize) -> Act {
    let typed = typed.to_owned();
    move |walk, index| {
        let good = good::good(walk.plan(), &walk.asked(index).unwrap(), "Odile Marsh");
        match good.act().clone() {
            Act::Read { instrument, .. } => Act::Read {
                typed: typed.clone(),
                instrument,
            },
            Act::ReadAs {
                who, instrument, ..
            } => Act::ReadAs {
                who,
                typed: typed.clone(),
                instrument,
            },
            other => panic!("{other:?}"),
        }
    }
}

/// Walks, each with the step at which something was found.
fn walks() -> Vec<(StepKey, Walk)> {
    let found: [(&str, Answer); 6] = [
        ("receiver-pin", Box::new(saw("no-clip"))),
        ("ball-size", Box::new(read("2 in"))),
        ("second-ball-size", Box::new(read("2.3255 in"))),
        ("socket", Box::new(saw("damaged"))),
        ("seat", Box::new(saw("daylight"))),
        ("tire-cold/left-rear", Box::new(read("57 psi"))),
    ];
    let walks = found.into_iter();
    walks
        .map(|(step, answer)| (StepKey::named(step), walked(step, &answer)))
        .collect()
}

fn sketched((step, walk): &(StepKey, Walk)) -> String {
    sketch(walk, step).unwrap_or_else(|| panic!("nothing of {step}"))
}

fn findings(text: &str) -> Vec<Finding> {
    check(text, &Known::default()).err().unwrap_or_default()
}

/// The same with every place written.
fn written(sketch: &str) -> String {
    let lines = sketch.lines().map(|line| {
        let Some((before, blank)) = line.split_once("\"____").filter(|_| !line.starts_with('#'))
        else {
            return line.to_owned();
        };
        let (_, after) = blank.split_once('"').unwrap();
        let words = if before.trim() == "family:" {
            "mount"
        } else {
            "It was a day like any other."
        };
        format!("{before}{words}{after}")
    });
    lines.collect::<Vec<_>>().join("\n") + "\n"
}

#[test]
fn a_sketch_says_what_was_found_and_leaves_every_sentence_to_be_written() {
    let all: Vec<String> = walks().iter().map(sketched).collect();
    insta::assert_snapshot!(all.join("\n"));
}

#[test]
fn no_name_no_word_that_was_said_and_no_day_is_in_a_sketch() {
    for walk in walks() {
        let sketch = sketched(&walk);
        for name in NAMES.into_iter().chain(["2026", "called about"]) {
            assert!(!sketch.contains(name), "{name}: {sketch}");
        }
    }
}

#[test]
fn the_linter_names_every_place_of_a_sketch_that_is_to_be_written_and_nothing_else() {
    for walk in walks() {
        let sketch = sketched(&walk);
        let found = findings(&sketch);
        assert!(
            found.iter().all(|one| one.rule == Rule::Unwritten),
            "{found:?}"
        );
        let paths: Vec<&str> = found.iter().map(|one| one.path.as_str()).collect();
        assert_eq!(
            paths,
            [
                "scenarios[0].title",
                "scenarios[0].family",
                "scenarios[0].tale",
                "scenarios[0].faults[0].why",
                "scenarios[0].faults[0].would",
                "scenarios[0].good.why",
                "scenarios[0].source",
            ]
        );
    }
}

#[test]
fn a_sketch_that_is_written_plays_to_what_was_found() {
    for walk in walks() {
        let text = written(&sketched(&walk));
        let read = check(&text, &Known::default());
        let mut read = read.unwrap_or_else(|found| panic!("{found:#?}\n{text}"));
        let scenario = Arc::new(read.remove(0));
        let call = scenario.faults[0].call.clone();
        assert_eq!(call.step, walk.0);
        let found = walk.1.steps()[walk.1.plan().index(&walk.0).unwrap()].answers[0]
            .given
            .outcome();
        assert_eq!(found, Outcome::Judged(call.verdict));
        let learner = Learner::new(drill(&scenario, Some(0), 7), Stage::Solo, None);
        let played = learner.plays();
        let caught = played.score().caught().any(|step| step.step == call.step);
        assert!(caught, "{text}");
    }
}

#[test]
fn of_a_step_that_was_well_or_could_not_be_seen_there_is_no_sketch() {
    let (_, walk) = &walks()[1];
    assert_eq!(sketch(walk, &StepKey::named("receiver-pin")), None);
    assert_eq!(sketch(walk, &StepKey::named("seat")), None);
    assert_eq!(sketch(walk, &StepKey::named("no-such-step")), None);
    let unseen = walked("receiver-pin", &saw("cannot-see"));
    assert_eq!(sketch(&unseen, &StepKey::named("receiver-pin")), None);
}
