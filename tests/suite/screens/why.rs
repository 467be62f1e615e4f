//! What stands behind the limits, opened over a step.

use crate::screens::bench::{Bench, LOOK};
use hames::tui::{Context, Key, Msg};

#[test]
fn what_stands_behind_a_limit_opens_over_the_step_and_keeps_what_was_typed() {
    let bench = Bench::walking().at_step("tongue-weight").play("b700 =");
    assert_eq!(bench.model.context(), Context::Why);
    let shown = bench.text(80, 48);
    assert!(
        shown.contains("Whose word: plate: lowest downward rating")
            && shown.contains("Comes from: 10 % of trailer weight as loaded 5667 lb"),
        "{shown}"
    );
    for back in ["⎋", "=", "q", "⌫"] {
        let bench = bench.clone_with(LOOK).play(back);
        assert_eq!(
            (bench.model.context(), bench.model.typed()),
            (Context::Reading, "700 ")
        );
    }
}

#[test]
fn what_stands_behind_a_limit_scrolls_by_line_and_page_in_the_smallest_window() {
    let mut bench = Bench::walking().at_step("tongue-weight").play("b=");
    bench.tell(Msg::Resized(40, 12));
    let first = bench.text(40, 12);
    assert!(first.contains("-- Down: more --"), "{first}");
    let mut seen = first.clone();
    for _ in 0..60 {
        bench.press(Key::PageDown);
        seen.push_str(&bench.text(40, 12));
    }
    assert!(bench.text(40, 12).contains("-- Up: more --"));
    for told in [
        "stop above 800 lb",
        "stop below 566.7 lb",
        "fix above 850.05 lb",
        "If skipped:",
    ] {
        assert!(seen.contains(told), "{told}\n{seen}");
    }
    bench.press(Key::Home);
    assert_eq!(bench.text(40, 12), first);
}

#[test]
fn the_limits_of_a_blind_step_open_with_its_answer_and_not_before() {
    let bench = Bench::walking().at_step("ball-size").play("2 5=");
    assert_eq!(
        (bench.model.context(), bench.model.typed()),
        (Context::Reading, "2 5")
    );
    assert_eq!(
        bench.model.said(),
        Some("The limits are shown after the reading.")
    );
    let bench = bench.play("/16 in⏎=");
    assert_eq!(bench.model.context(), Context::Why);
    assert!(
        bench.text(80, 24).contains("stop below 2.297 in"),
        "{}",
        bench.text(80, 24)
    );
}

#[test]
fn a_walk_held_while_the_reasons_are_read_comes_back_to_them() {
    let bench = Bench::walking().at_step("tongue-weight").play("b=⇥");
    assert_eq!(bench.model.context(), Context::Held);
    assert_eq!(bench.play("⏎").model.context(), Context::Why);
}

#[test]
fn a_sighting_tells_whose_word_its_verdicts_are() {
    let bench = Bench::walking().at_step("socket").play("=");
    let shown = bench.text(80, 24);
    assert!(
        shown.contains("Whose word: default: common practice, no source"),
        "{shown}"
    );
}
