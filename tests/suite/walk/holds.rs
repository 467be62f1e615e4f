//! Interruptions: what is looked at again, and what is remembered.

use super::bench::Bench;

/// Latch and gap done; the cord is next.
const HALF: &str = "open\n see down\n open\n see none\n";

fn check(script: &str, stands: &str) {
    assert_eq!(
        Bench::new().play(&format!("{HALF}{script}")),
        stands,
        "after\n{script}"
    );
}

fn to_look_at_again(script: &str) -> Vec<String> {
    let mut bench = Bench::new();
    bench.play(&format!("{HALF}{script}"));
    let steps = bench.walk.plan().steps();
    bench
        .walk
        .to_look_at_again()
        .map(|index| steps[index].key.to_string())
        .collect()
}

#[test]
fn a_short_hold_goes_on_where_it_was() {
    check("hold phone | the cord\n wait 120\n resume", "next cord");
    assert!(to_look_at_again("hold\n wait 120\n resume").is_empty());
}

#[test]
fn a_hold_over_two_minutes_reopens_the_last_step_and_what_can_change_unseen() {
    assert_eq!(
        to_look_at_again("hold\n wait 121\n resume"),
        ["latch", "gap"]
    );
    assert_eq!(
        to_look_at_again("open\n see in\n hold\n wait 121\n resume"),
        ["latch", "cord"]
    );
}

#[test]
fn a_crash_reopens_them_however_short_it_was() {
    assert_eq!(to_look_at_again("restart\n take-up"), ["latch", "gap"]);
    assert_eq!(to_look_at_again("wait 1\n take-up"), ["latch", "gap"]);
}

#[test]
fn other_people_look_again_themselves() {
    assert_eq!(
        to_look_at_again("hand-over Odile Marsh | Odile Marsh"),
        ["latch", "gap"]
    );
    check(
        "hand-over Wren Ashdown | Tobias Fenn",
        "refused: These people already have the walk. Name someone else.",
    );
}

#[test]
fn nothing_is_answered_while_the_walk_is_held() {
    check(
        "hold\n open",
        "refused: The walk is on hold. Resume it first.",
    );
    check("hold", "held");
    check(
        "resume",
        "refused: The walk is not on hold. Go on with the step shown.",
    );
}

#[test]
fn a_hold_remembers_why_and_what_was_next() {
    let mut bench = Bench::new();
    bench.play(&format!("{HALF}hold the vet called | plug in the cord"));
    let (since, why, next) = bench.walk.held().unwrap();
    assert_eq!(why.unwrap().as_str(), "the vet called");
    assert_eq!(next.unwrap().as_str(), "plug in the cord");
    assert_eq!(
        super::bench::clock(since),
        super::bench::clock(bench.walk.last())
    );
}

#[test]
fn an_open_step_begins_again_after_a_long_absence() {
    check(
        "open\n hold\n wait 300\n resume\n open\n see down\n open\n see none",
        "next cord",
    );
}

#[test]
fn the_first_step_begins_again_too_though_nothing_before_it_can_be_looked_at() {
    for absence in [
        "hold\n wait 121\n resume",
        "wait 1\n take-up",
        "hand-over Odile Marsh | Odile Marsh",
        "unsure\n wait 121\n settle asked",
    ] {
        let mut bench = Bench::new();
        assert_eq!(
            bench.play(&format!("open\n {absence}")),
            "next latch",
            "{absence}"
        );
    }
    assert_eq!(
        Bench::new().play("open\n hold\n wait 120\n resume"),
        "open latch"
    );
}

#[test]
fn a_bad_answer_is_not_forgotten_by_leaving() {
    check(
        "open\n see loose\n hold\n wait 300\n resume",
        "fix cord by close-it",
    );
    check(
        "open\n see loose\n restart\n take-up",
        "fix cord by close-it",
    );
}

#[test]
fn what_is_not_clear_stays_so_until_someone_says_how_it_was_settled() {
    check(
        "unsure is that the right pin\n open",
        "refused: The walk is stopped because something is not clear. Say how it was settled first.",
    );
    check(
        "unsure\n settle",
        "refused: Type how it was settled, and with whom: nothing was typed.",
    );
    check("unsure\n restart\n take-up", "unsure");
    check("unsure\n settle Odile came and looked", "next cord");
    check(
        "unsure\n end not-fit-to-go: pin does not fit",
        "ended not-fit-to-go",
    );
}

#[test]
fn time_spent_unsure_counts_like_a_hold_and_so_does_the_hold_before_it() {
    assert_eq!(
        to_look_at_again("unsure\n wait 121\n settle asked"),
        ["latch", "gap"]
    );
    assert_eq!(
        to_look_at_again("hold\n wait 121\n unsure\n settle asked"),
        ["latch", "gap"]
    );
}

#[test]
fn a_wall_clock_set_back_does_not_shorten_a_hold() {
    let mut bench = Bench::new();
    bench.play(&format!("{HALF}hold"));
    bench.wait(600);
    bench.play("restart\n resume");
    assert_eq!(bench.stands(), "next latch");
}
