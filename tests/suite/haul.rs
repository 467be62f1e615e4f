//! What walks leave to later ones: rows of events, and what stands after them.

mod carried;

use crate::architecture::root;
use carried::Row;
use hames::checklist::{Ask, shipped_by_default};
use hames::haul::TABLE;
use hames::mechanics::wheels::{WheelOff, retorque_due};
use hames::rig::HitchKind;
use hames::rules::Carry;
use std::collections::BTreeSet;

const ROWS: &str = include_str!("../vectors/carry.txt");

#[test]
fn every_row_comes_to_what_it_says() {
    let rows = ROWS.split("\n== ").skip(1);
    let differ: Vec<String> = rows.filter_map(|row| Row::play(row).err()).collect();
    assert!(differ.is_empty(), "\n{}\n", differ.join("\n\n"));
}

#[test]
fn every_word_is_left_and_closed_by_some_row() {
    for lasting in TABLE {
        let word = lasting.what.word();
        let left = ROWS.matches(&format!("open: {word} ")).count();
        let beside = ROWS.matches(&format!("; {word} ")).count();
        assert!(left + beside > 0, "{word}");
    }
    assert!(ROWS.matches("\n== ").count() >= 25);
}

#[test]
fn the_page_for_drivers_tells_the_table() {
    let page = std::fs::read_to_string(root().join("docs/hauls.md")).unwrap();
    for lasting in TABLE {
        let row = format!(
            "| {} | {} | {} | {} |",
            lasting.what.told(),
            lasting.owed,
            if lasting.ends_uncoupled { "yes" } else { "no" },
            lasting.source
        );
        assert!(page.contains(&row), "not in docs/hauls.md:\n{row}");
    }
}

#[test]
fn the_marks_of_a_wheel_are_those_of_the_formula() {
    let [wheel_off, ..] = TABLE;
    let mut last = 0.0;
    for mark in wheel_off.marks_mi {
        let due = retorque_due(&WheelOff {
            wheel_off_at_mi: 0.0,
            odometer_mi: last,
            last_recheck_at_mi: Some(last),
        });
        let due = due.unwrap().due_at_mi.unwrap();
        assert_eq!(format!("{due}"), mark.to_string());
        last = due;
    }
}

/// What is left and never closed would be asked for ever.
#[test]
fn every_word_a_shipped_list_leaves_is_closed_by_a_shipped_list_for_the_same_kind_of_rig() {
    for kind in [HitchKind::BumperPull, HitchKind::Gooseneck] {
        let lists = shipped_by_default().map(|put| &put.checklist);
        let lists: Vec<_> = lists.filter(|list| list.rigs.contains(&kind)).collect();
        let steps = || lists.iter().flat_map(|list| list.steps());
        let by_answer = steps().flat_map(|step| match &step.ask {
            Ask::Sighting(ask) | Ask::Independent(ask) => {
                ask.states.iter().filter_map(|state| state.leaves).collect()
            }
            Ask::Reading(ask) => {
                let limits = ask.limits.iter();
                limits.filter_map(|limit| limit.leaves).collect::<Vec<_>>()
            }
        });
        let branches = lists.iter().flat_map(|list| &list.branches);
        let by_branch = branches.filter_map(|branch| branch.leaves);
        let left: BTreeSet<Carry> = by_answer.chain(by_branch).collect();
        let closed: BTreeSet<Carry> = steps().flat_map(|step| step.closes.clone()).collect();
        let never: Vec<&str> = left.difference(&closed).map(|what| what.word()).collect();
        assert!(never.is_empty(), "{}: {never:?}", kind.word());
        assert!(left.len() >= 7, "{left:?}");
    }
}
