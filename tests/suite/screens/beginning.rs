//! Beginning a walk on the screens: what keeps it from beginning is told before anything is asked.

use crate::plain::beginning::put_questions;
use crate::screens::bench::{Bench, LOOK, text};
use crate::screens::stations::station;
use hames::desk::Reply;
use hames::tui::{Context, Msg, first, update, view};
use ratatui::Terminal;
use ratatui::backend::TestBackend;

const FORK: &str = "No trip is begun on laptop-7f3a: it has two different trips 2, so a backup \
                    was put back or its folder was copied.";

#[test]
fn where_no_walk_can_begin_the_start_screen_says_so_and_asks_nothing() {
    let bench = Bench::arranged(|desk| desk.no_walk = Some(FORK.to_owned()));
    let start = bench.text(80, 24);
    assert!(start.contains("it has two different trips 2"), "{start}");
    for keys in ["1", "w"] {
        let bench = bench.clone().play(keys);
        assert_eq!(bench.model.context(), Context::RigPage);
        assert_eq!(bench.model.said(), Some(FORK));
    }
}

#[test]
fn a_list_that_may_not_be_begun_is_refused_before_anybody_is_named() {
    let why = "“Hitch up” is not begun: the rig stays off the road.";
    let bench = Bench::arranged(|desk| desk.refuses = Some(why.to_owned())).play("w");
    assert_eq!(bench.model.context(), Context::RigPage);
    assert_eq!(bench.model.said(), Some(why));
}

#[test]
fn what_is_to_be_known_of_a_person_stands_above_the_next_question() {
    let wren = "Wren Ashdown is not signed off for Juniper.";
    let bench = Bench::arranged(|desk| desk.foretold[1] = vec![wren.to_owned()]).play("w");
    assert!(!bench.text(80, 24).contains(wren));
    let shown = bench.play("1").text(80, 24);
    let (above, _) = shown.split_once("Who does the work?").unwrap();
    assert!(above.contains(wren), "{shown}");
}

#[test]
fn a_logbook_that_cannot_be_opened_is_told_and_offers_nothing_to_choose() {
    let (mut model, _) = first(LOOK, crate::plain::bench::Bench::new().now);
    let why = "The logbook in /barn has trips and no crew/allowed_signers.";
    update(&mut model, Msg::Reply(Reply::Cannot(why.to_owned())));
    let mut terminal = Terminal::new(TestBackend::new(80, 24)).unwrap();
    terminal.draw(|frame| view(&model, frame)).unwrap();
    let shown = text(terminal.backend().buffer());
    assert!(
        shown.contains("The logbook could not be opened."),
        "{shown}"
    );
    assert!(shown.contains(why), "{shown}");
    assert!(!shown.contains("Looking at"), "{shown}");
    assert!(!shown.contains("Enter do it"), "{shown}");
}

#[test]
fn who_had_no_part_in_a_walk_is_marked_where_it_is_signed() {
    let shown = station("signer").bench.text(80, 24);
    assert!(
        shown.contains("3 Odile Marsh (manager): neither read nor did it"),
        "{shown}"
    );
    assert!(shown.contains("2 Tobias Fenn (groom)\n"), "{shown}");
}

#[test]
fn an_answer_typed_stands_in_its_field_again_where_the_person_goes_back_from_the_odometer() {
    let asked = Bench::arranged(|desk| desk.questions = put_questions());
    let odometer = asked.play("w12It rained.⏎My own.⏎");
    assert_eq!(odometer.model.context(), Context::Odometer);
    let second = odometer.clone().play("⎋");
    assert_eq!(second.model.context(), Context::Question);
    assert!(
        second.text(80, 24).contains("My own."),
        "{}",
        second.text(80, 24)
    );
    let first = second.clone().play("⎋");
    assert!(
        first.text(80, 24).contains("It rained."),
        "{}",
        first.text(80, 24)
    );
    // Behind the first question somebody else can be named; what was typed waits all the same.
    let again = first.play("⎋2");
    assert!(
        again.text(80, 24).contains("It rained."),
        "{}",
        again.text(80, 24)
    );
    let begun = again.play("⏎⏎⏎");
    let given = begun.desk.answers.iter();
    let given: Vec<_> = given.map(|one| one.words.as_str()).collect();
    assert_eq!(given, ["It rained.", "My own."]);
}
