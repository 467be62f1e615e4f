//! One trip opened: what it is, what was found, what is not as expected or is asked, how it
//! went, what was read, who signed.

use super::countersign::{countersign, laptop, says, short_trips};
use super::forks::forked;
use crate::cli::demo::{BEGIN, sealed};
use crate::harness::home::trip;

/// The parts of a trip, in their order.
const PARTS: [&str; 5] = [
    "\nWhat verification found\n",
    "\nWhat is not as expected\n",
    "\nHow it went\n",
    "\nWhat was read\n",
    "\nWho signed\n",
];

#[test]
fn a_trip_is_told_part_by_part_and_no_line_is_longer_than_a_screen() {
    let home = sealed();
    let shown = home
        .hames("logbook show --logbook share/hames/demo 1")
        .run();
    assert_eq!(shown.status, 2, "{}{}", shown.out, shown.err);
    let device = laptop(&home);
    let shown = home
        .hames(&format!(
            "logbook show --logbook share/hames/demo {device}/1"
        ))
        .run();
    assert_eq!((shown.status, shown.err.as_str()), (0, ""), "{}", shown.out);
    let mut rest = shown.out.as_str();
    for part in PARTS {
        let (_, behind) = rest
            .split_once(part)
            .unwrap_or_else(|| panic!("{part}: {}", shown.out));
        rest = behind;
    }
    says(
        &shown.out,
        &[
            "  not-countersigned: every byte is as signed, and no manager has countersigned",
            "2. question: hurried\n     94 answers from “Rating marks” to",
            "Trailer tire, right rear: ",
            "Limit: ",
            "Wren Ashdown, ",
        ],
    );
    for line in shown.out.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
}

#[test]
fn a_walk_that_was_left_tells_how_many_steps_have_no_answer_whether_it_was_ended_or_not() {
    let home = short_trips(1);
    let device = laptop(&home);
    let shown = home
        .hames(&format!(
            "logbook show --logbook share/hames/demo {device}/1"
        ))
        .run();
    says(&shown.out, &["steps without an answer: the first “"]);
    // Begun, and the laptop closed on it.
    let begun = home.hames("--plain").typed(BEGIN).run();
    assert!(begun.out.contains("Rating marks"), "{}", begun.out);
    let shown = home
        .hames(&format!(
            "logbook show --logbook share/hames/demo {device}/2"
        ))
        .run();
    says(
        &shown.out.replace("\n    ", " "),
        &["94 of 94 steps without an answer: the first “Rating marks”"],
    );
}

#[test]
fn readings_stand_beside_those_of_earlier_trips_and_words_of_managers_are_told() {
    let home = short_trips(1);
    let asked = countersign(&home, 1, "seen\nasked\n\nWhose rain?\ndemo\n");
    assert_eq!(asked.status, 0, "{}{}", asked.out, asked.err);
    let device = laptop(&home);
    let shown = home
        .hames(&format!(
            "logbook show --logbook share/hames/demo {device}/1"
        ))
        .run();
    says(
        &shown.out,
        &[
            "Odile Marsh asked on ",
            " s of looking, in statement 2:\n  “Whose rain?”\n",
        ],
    );
    let json = home
        .hames(&format!(
            "logbook show --logbook share/hames/demo --json {device}/1"
        ))
        .run();
    assert_eq!((json.status, json.err.as_str()), (0, ""), "{}", json.out);
    let told: serde_json::Value = serde_json::from_str(&json.out).unwrap();
    assert_eq!(told["schema"], "hames-trip/1");
    assert_eq!(told["number"], 1);
    assert!(
        told["exceptions"]
            .as_array()
            .is_some_and(|all| !all.is_empty()),
        "{}",
        json.out
    );
}

#[test]
fn a_trip_on_a_history_that_ended_says_so_wherever_a_manager_looks_at_it() {
    let (home, [goes_on, ends]) = forked();
    let device = laptop(&home);
    let close = format!(
        "logbook close-fork --logbook share/hames/demo {device} 2 --goes-on {goes_on} --why"
    );
    let close = home.hames(&close).argument("The disk was changed.");
    let closed = close.typed("demo\n").run();
    assert_eq!(closed.status, 0, "{}{}", closed.out, closed.err);
    let told = |trip: &str| {
        let shown = home.hames(&format!(
            "logbook show --logbook share/hames/demo --json {trip}"
        ));
        let told: serde_json::Value = serde_json::from_str(&shown.run().out).unwrap();
        told["findings"].to_string()
    };
    let ended = "it is on a history that ended: ";
    says(&told(&ends), &[ended, "closed the fork at trip 2"]);
    assert!(!told(&goes_on).contains(ended));

    let look = |trip: &str| {
        home.hames(&format!(
            "logbook countersign --logbook share/hames/demo {trip}"
        ))
    };
    let looked = look(&ends).typed("later\n").run().out;
    let (_, first) = looked.split_once("To look at, 1 of ").unwrap();
    let (first, _) = first.split_once("Type seen").unwrap();
    says(first, &[": a history that ended\n", ended]);
    let looked = look(&goes_on).typed("later\n").run().out;
    assert!(!looked.contains("a history that ended"), "{looked}");

    let asked = home
        .hames("logbook questions --logbook share/hames/demo")
        .run();
    says(
        &asked.out,
        &["not counted: 000002-TRIP, it is on a history that ended: "],
    );
    assert_eq!(asked.out.matches("not counted").count(), 1);
}

#[test]
fn a_damaged_trip_is_told_as_damaged_and_nothing_of_it_is_believed() {
    let home = sealed();
    let device = laptop(&home);
    let journal = trip(&home.demo(), 1).join("trip.jsonl");
    let text = std::fs::read_to_string(&journal).unwrap();
    std::fs::write(&journal, text.replacen("Wren", "Wrex", 1)).unwrap();
    let shown = home
        .hames(&format!(
            "logbook show --logbook share/hames/demo {device}/1"
        ))
        .run();
    assert_eq!(shown.status, 16, "{}{}", shown.out, shown.err);
    assert!(!shown.out.contains("Wrex"), "{}", shown.out);
    let json = home
        .hames(&format!(
            "logbook show --logbook share/hames/demo --json {device}/1"
        ))
        .run();
    assert_eq!(json.status, 16, "{}{}", json.out, json.err);
    let told: serde_json::Value = serde_json::from_str(&json.out).unwrap();
    assert_eq!(told["finding"], "altered");
}
