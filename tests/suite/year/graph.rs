//! The lists as graphs: every step is reached on some walk, every branch is opened by some step,
//! and everything that is opened ends.

use crate::harness::good;
use crate::year::bench::{Laid, begin_with, everything_carried, laid, moment};
use hames::barn::{Policies, Policy};
use hames::checklist::{Ask, Checklist, PlannedAsk, SHARED, SHIPPED, Shared, Test, put_together};
use hames::document::{Document, Tree};
use hames::rig::Rig;
use hames::rules::{Carried, Verdict};
use hames::walk::{Act, Now, Walk};
use std::collections::{BTreeMap, BTreeSet};

/// The steps asked on a walk on which all is well, but for one step answered with this state.
fn asked(mut walk: Walk, other: Option<(&str, &str)>) -> BTreeSet<String> {
    let mut asked = BTreeSet::new();
    loop {
        if let Now::Open(index) = walk.now() {
            let planned = walk.asked(index).unwrap();
            asked.insert(planned.step.id.clone());
            if let Some((step, state)) = other
                && planned.step.id == step
                && walk.steps()[index].answers.is_empty()
            {
                let state = state.to_owned();
                good::step(&mut walk, &Act::See { state }, &moment()).unwrap();
                match walk.now() {
                    Now::Remark(_) => {
                        let words = "until Friday, by the manager's word".to_owned();
                        good::step(&mut walk, &Act::Remark { words }, &moment()).unwrap();
                    }
                    Now::Branch(_) => return asked,
                    _ => {}
                }
                continue;
            }
        }
        match good::next(&walk, "Odile Marsh") {
            Some((act, _)) => drop(good::step(&mut walk, &act, &moment()).unwrap()),
            None => return asked,
        }
    }
}

/// The same rig with nothing but the instruments every rig has.
fn bare(rig: &Rig) -> Rig {
    let mut bare = rig.clone();
    let words = [
        "thermometer",
        "clamp-meter",
        "dial-indicator",
        "tread-gauge",
        "hygrometer",
    ];
    bare.instruments
        .retain(|one| !words.contains(&one.kind.word()));
    bare
}

fn reached(laid: &Laid) -> BTreeSet<String> {
    let all = everything_carried(&laid.rig);
    let only = |carried: &Carried| vec![carried.clone()];
    let mut sets: Vec<Vec<Carried>> = vec![vec![], all.clone()];
    sets.extend(all.iter().map(only));
    let mut reached = BTreeSet::new();
    let mut walk_all = |list: &Checklist, rig: &Rig, carried: &[Carried]| {
        // A list no gauge of a bare rig can answer is not walked with it.
        let Ok(walk) = begin_with(list.clone(), rig.clone(), carried.to_vec()) else {
            return;
        };
        reached.extend(asked(walk.clone(), None));
        for step in list.steps() {
            let Some(Test::Answered { step, state }) = step.when.as_ref().map(|when| &when.test)
            else {
                continue;
            };
            reached.extend(asked(walk.clone(), Some((step, state))));
        }
    };
    for carried in &sets {
        walk_all(&laid.list, &laid.rig, carried);
    }
    walk_all(&laid.list, &bare(&laid.rig), &[]);
    let mut unbraked = laid.rig.clone();
    for axle in &mut unbraked.trailer.axles {
        axle.brake = None;
    }
    walk_all(&laid.list, &unbraked, &[]);
    let mut no_spare = laid.rig.clone();
    no_spare.trailer.spare = None;
    walk_all(&laid.list, &no_spare, &[]);
    reached
}

#[test]
fn every_step_of_every_list_is_asked_on_some_walk() {
    let everything = laid();
    for shipped in SHIPPED {
        let mut reached_by_any = BTreeSet::new();
        let mut list = None;
        for laid in everything.iter().filter(|laid| laid.list.id == shipped.id) {
            reached_by_any.extend(reached(laid));
            list = Some(&laid.list);
        }
        let list = list.unwrap();
        let all: BTreeSet<String> = list.steps().map(|step| step.id.clone()).collect();
        let never: Vec<&String> = all.difference(&reached_by_any).collect();
        assert!(never.is_empty(), "{}: never asked: {never:?}", shipped.id);
    }
}

#[test]
fn every_step_a_policy_chooses_stands_under_one_choice_or_the_other() {
    let other = Policy::WORDS
        .into_iter()
        .map(|(_, policy)| policy.default_choice().other())
        .fold(Policies::default(), Policies::choosing);
    let laid = laid();
    for shipped in SHIPPED {
        let put = put_together(shipped.text, Shared::shipped(), &other);
        let faults = put.as_ref().err().into_iter().flatten();
        let told: Vec<String> = faults.map(ToString::to_string).collect();
        assert!(told.is_empty(), "{}:\n{}", shipped.id, told.join("\n"));
        let rigs = laid.iter().filter(|laid| laid.list.id == shipped.id);
        for Laid { rig, .. } in rigs {
            let list = put.as_ref().unwrap().checklist.clone();
            let walk = begin_with(list, rig.clone(), vec![])
                .unwrap_or_else(|gaps| panic!("{}: {gaps:?}", shipped.id));
            asked(walk, None);
        }
    }
}

#[test]
fn every_answer_goes_on_or_opens_a_branch_that_ends() {
    for laid in laid() {
        for step in laid.list.steps() {
            let (Ask::Sighting(ask) | Ask::Independent(ask)) = &step.ask else {
                continue;
            };
            for state in &ask.states {
                let bad = matches!(state.verdict, Verdict::Fix | Verdict::Stop);
                let branch = state.branch.as_deref().and_then(|id| laid.list.branch(id));
                assert_eq!(branch.is_some(), bad, "{laid}: {} {}", step.id, state.id);
            }
        }
        for branch in &laid.list.branches {
            assert!(!branch.now.is_empty(), "{laid}: {}", branch.id);
        }
    }
}

#[test]
fn no_shared_step_stands_unused_and_none_stands_twice() {
    let lists: String = SHIPPED.iter().map(|shipped| shipped.text).collect();
    let mut unused = Vec::new();
    for name in Shared::shipped().names() {
        let taken = |line: &str| {
            let include = line.split("include: ").nth(1);
            include.is_some_and(|rest| rest.split([',', ' ', '}']).next() == Some(name))
        };
        if !lists.lines().any(taken) {
            unused.push(name);
        }
    }
    assert_eq!(unused, Vec::<&str>::new());
    // A step written out in two places would be mended in one of them only.
    let mut written: BTreeMap<String, String> = BTreeMap::new();
    let mut twice = Vec::new();
    let lists = SHIPPED.iter().map(|shipped| (shipped.id, shipped.text));
    for (file, text) in lists.chain(SHARED.map(|text| ("shared", text))) {
        let tree = Document::parse(text).unwrap().tree();
        for (id, step) in own_steps(&tree) {
            if let Some(other) = written.insert(step, format!("{file}: {id}")) {
                twice.push(format!("{file}: {id} is {other}"));
            }
        }
    }
    assert_eq!(twice, Vec::<String>::new());
}

/// The steps a file writes out, each with what it does and asks.
fn own_steps(tree: &Tree) -> Vec<(String, String)> {
    let sections = tree.at("sections").and_then(Tree::count).unwrap_or(0);
    let lists = (0..sections).map(|at| format!("sections[{at}].steps"));
    let lists = lists.chain([String::from("steps")]);
    let mut steps = Vec::new();
    for list in lists {
        let count = tree.at(&list).and_then(Tree::count).unwrap_or(0);
        for at in 0..count {
            let key = |key: &str| tree.at(&format!("{list}[{at}].{key}"));
            let asks = [
                "act",
                "reading",
                "sighting",
                "independent",
                "second-reading",
            ];
            if key("include").is_none() {
                let id = key("id").and_then(Tree::scalar).unwrap_or_default();
                steps.push((id.to_owned(), format!("{:?}", asks.map(key))));
            }
        }
    }
    steps
}

/// What is read on a step stands under a limit or is told on.
#[test]
fn every_reading_is_held_to_something_or_told_to_a_later_step() {
    for laid in laid() {
        let plan = begin_with(laid.list.clone(), laid.rig.clone(), vec![]).unwrap();
        for planned in plan.plan().steps() {
            if let PlannedAsk::Reading { ask, .. } = &planned.ask {
                let compared = laid.list.steps().any(|step| {
                    format!("{:?}", step.ask).contains(&format!("Step(\"{}\")", planned.step.id))
                });
                assert!(
                    !ask.limits.is_empty() || ask.tells.is_some() || compared,
                    "{laid}: {}",
                    planned.key
                );
            }
        }
    }
}
