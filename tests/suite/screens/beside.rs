//! What stays in sight beside what is asked: the steps of a section, and the step a hold keeps.

use crate::screens::bench::{Bench, LOOK, text};
use crate::screens::stations::station;
use hames::checklist::{Checklist, Plan};
use hames::rig::{Rig, demo::JUNIPER};
use hames::tui::{Look, Theme};
use ratatui::buffer::Buffer;
use ratatui::style::Modifier;

const LATER: [&str; 2] = ["Coupler seat", "Coupler latch"];

const STEP: [&str; 4] = [
    "Coupler latch",
    "Press the latch lever down by hand.",
    "1 Lever stands up, even a little",
    "4 The lever cannot be seen or reached",
];

/// The second of the four steps of joining is at hand.
fn joining(style: &str) -> Bench {
    let list = include_str!("../../vectors/screens.yaml").replace("style: read-do", style);
    let plan = Plan::lay(Checklist::read(&list).unwrap(), Rig::read(JUNIPER).unwrap());
    Bench::with(plan.unwrap()).play("1").at_step("truck-held")
}

#[test]
fn a_section_read_and_done_shows_the_step_that_follows_and_no_other() {
    let shown = joining("style: read-do").text(80, 40);
    let follows: Vec<bool> = LATER.map(|name| shown.contains(name)).to_vec();
    assert_eq!(follows, [true, false], "{shown}");
}

#[test]
fn a_section_done_and_confirmed_shows_all_its_steps_with_their_marks() {
    for (columns, rows) in [(80, 24), (120, 40)] {
        let shown = joining("style: do-confirm").text(columns, rows);
        for line in [
            "(/) Ball under socket",
            "(o) Truck held",
            "( ) Coupler seat",
            "( ) Coupler latch",
        ] {
            assert!(shown.contains(line), "{line}:\n{shown}");
        }
    }
}

#[test]
fn the_step_that_follows_is_dimmer_than_the_one_at_hand() {
    let look = Look {
        theme: Theme::Night,
        ..LOOK
    };
    let frame = joining("style: read-do").clone_with(look).frame(80, 40);
    let ink = |line: &str| last_cell(&frame, line).fg;
    assert_ne!(ink("( ) Coupler seat"), ink("Truck held"));
}

/// A cue that moves or changes while one is away is not found again.
#[test]
fn a_hold_keeps_the_open_step_where_it_was_and_takes_its_emphasis_away() {
    let open = Bench::walking().at_step("latch");
    let held = open.clone().play("⇥⌛");
    let (before, after) = (open.frame(80, 24), held.frame(80, 24));
    for row in STEP {
        let (was, is) = (row_of(&before, row), row_of(&after, row));
        assert!(is.is_some() && was == is, "{row}:\n{}", text(&after));
        assert_eq!(last_cell(&after, row).modifier, Modifier::empty(), "{row}");
    }
    let title = last_cell(&before, STEP[0]).modifier;
    assert!(title.contains(Modifier::BOLD), "{title:?}");
    let back = open.clone().play("⇥⏎");
    assert_eq!(without_sentence(&open), without_sentence(&back));
}

/// Who calls somebody has to be able to read out what is not clear.
#[test]
fn a_stop_keeps_the_open_step_to_be_read() {
    let stopped = station("unsure").bench.frame(80, 24);
    for row in STEP {
        assert!(
            row_of(&stopped, row).is_some(),
            "{row}:\n{}",
            text(&stopped)
        );
    }
}

#[test]
fn where_there_is_little_room_a_hold_tells_the_way_back_first() {
    let shown = station("held").bench.text(40, 12);
    for part in ["On hold since", "Last done:", "Next: Coupler latch"] {
        assert!(shown.contains(part), "{part}:\n{shown}");
    }
}

/// The frame down to the sentence above the bottom line.
fn without_sentence(bench: &Bench) -> String {
    let shown = bench.text(80, 24);
    shown.lines().take(22).collect::<Vec<_>>().join("\n")
}

fn row_of(frame: &Buffer, line: &str) -> Option<usize> {
    text(frame).lines().position(|row| row.trim() == line)
}

fn last_cell<'a>(frame: &'a Buffer, line: &str) -> &'a ratatui::buffer::Cell {
    let row = row_of(frame, line).unwrap_or_else(|| panic!("{line}:\n{}", text(frame)));
    let column = u16::try_from(line.chars().count()).unwrap() - 1;
    frame.cell((column, u16::try_from(row).unwrap())).unwrap()
}
