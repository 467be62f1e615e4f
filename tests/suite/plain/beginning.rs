//! Beginning a walk line by line: what keeps it from beginning is said before anything is asked.

use crate::plain::bench::{BEGIN, Bench, Told};
use hames::desk::PutQuestion;
use hames::plain::{Left, Options};
use hames::record::Digest;

const FORK: &str = "No trip is begun on laptop-7f3a: it has two different trips 2.";

fn at_once(bench: &mut Bench, script: &str) -> Told {
    let begin = true;
    bench.type_with(
        script,
        Options {
            begin,
            ..Options::default()
        },
    )
}

#[test]
fn where_no_walk_can_begin_it_is_said_before_anything_is_asked_and_the_walk_was_refused() {
    let mut bench = Bench::new();
    bench.no_walk = Some(FORK.to_owned());
    let told = at_once(&mut bench, BEGIN);
    assert_eq!(told.left, Left::Refused);
    assert!(told.text.ends_with(&format!("{FORK}\n")), "{}", told.text);
    assert!(!told.text.contains('>'), "{}", told.text);

    let menu = bench.type_in("1\nquit\n");
    let (before, _) = menu.text.split_once("What next?").unwrap();
    assert!(before.contains(FORK), "{}", menu.text);
    assert!(!menu.text.contains("Rig:"), "{}", menu.text);
}

#[test]
fn a_list_that_may_not_be_begun_is_refused_before_anybody_is_named() {
    let mut bench = Bench::new();
    let why = "“Hitch up a bumper pull” is not begun: the rig stays off the road.";
    bench.refuses = Some(why.to_owned());
    let told = at_once(&mut bench, BEGIN);
    assert_eq!(told.left, Left::Refused);
    assert!(told.text.ends_with(&format!("{why}\n")), "{}", told.text);
    assert!(!told.text.contains("Who reads"), "{}", told.text);
}

#[test]
fn what_is_to_be_known_of_a_person_is_said_once_as_soon_as_they_are_named() {
    let mut bench = Bench::new();
    let left = "Trip 000001-9f3c01ab was not ended.".to_owned();
    let wren = "Wren Ashdown is not signed off for Juniper.".to_owned();
    bench.foretold = [
        vec![left.clone()],
        vec![left.clone(), wren.clone()],
        vec![left.clone(), wren.clone()],
    ];
    let told = at_once(&mut bench, "1\n2\n\n");
    let place = |what: &str| {
        told.text
            .find(what)
            .unwrap_or_else(|| panic!("{}", told.text))
    };
    let order = [&left, "Who reads", &wren, "Who does", "Odometer"].map(place);
    assert!(order.is_sorted(), "{}", told.text);
    assert_eq!(told.text.matches(wren.as_str()).count(), 1);
    assert_eq!(told.text.matches(left.as_str()).count(), 1);
}

#[test]
fn a_walk_that_is_not_finished_is_offered_before_another_is_begun() {
    let mut bench = Bench::new();
    at_once(&mut bench, "1\n2\n\n2\n");
    let told = at_once(&mut bench, "1\n");
    assert!(
        told.text
            .contains("1. Go on with Juniper, two-horse bumper pull, Hitch up a bumper pull"),
        "{}",
        told.text
    );
    assert_eq!(bench.happened(), ["answered", "resumed"]);
    let other = at_once(&mut bench, "2\nback\n");
    assert!(other.text.contains("Who reads"), "{}", other.text);
    assert_eq!(other.left, Left::ByChoice);
}

#[test]
fn what_is_to_be_known_stands_below_the_name_of_the_barn() {
    let mut bench = Bench::new();
    bench.notices = vec!["The clock was set back.".to_owned()];
    let told = bench.type_in("quit\n").text;
    let place = |what: &str| told.find(what).unwrap();
    assert!(
        place("Quillwater Stables") < place("The clock was set back."),
        "{told}"
    );
}

/// What a manager asked two people of an earlier trip.
pub(crate) fn put_questions() -> Vec<PutQuestion> {
    let put = |words: &str, to: &str| PutQuestion {
        question: Digest::of(words.as_bytes()),
        to: to.to_owned(),
        by: "Odile Marsh".to_owned(),
        at: "2026-11-25 18:00".to_owned(),
        about: "trip 3 of laptop-7f3a (“Hitch up” with Juniper, 2026-11-24 06:10)".to_owned(),
        words: words.to_owned(),
    };
    vec![
        put("Why so late?", "Tobias Fenn"),
        put("Whose gauge?", "Wren Ashdown"),
    ]
}

#[test]
fn a_manager_s_question_is_put_once_both_are_named_and_enter_alone_leaves_it_open() {
    let mut bench = Bench::new();
    bench.questions = put_questions();
    let told = at_once(&mut bench, "1\n2\n\n\u{202e}\nMy own.\n\n");
    let place = |what: &str| {
        told.text
            .find(what)
            .unwrap_or_else(|| panic!("{what}: {}", told.text))
    };
    let order = [
        "Who does",
        "Odile Marsh asked on 2026-11-25 18:00, about trip 3 of laptop-7f3a",
        "“Why so late?”",
        "Tobias Fenn, an answer for Odile Marsh?",
        "“Whose gauge?”",
        "Wren Ashdown, an answer for Odile Marsh?",
        "Not taken: \\u{202e} was typed",
        "Odometer",
    ];
    assert!(order.map(place).is_sorted(), "{}", told.text);
    let given = bench.answers.iter();
    let given: Vec<_> = given
        .map(|one| (one.by.as_str(), one.words.as_str()))
        .collect();
    assert_eq!(given, [("Wren Ashdown", "My own.")]);
    assert_eq!(bench.answers[0].question, Digest::of(b"Whose gauge?"));
}

#[test]
fn an_answer_is_kept_where_the_person_goes_back_from_the_odometer() {
    let mut bench = Bench::new();
    bench.questions = put_questions();
    let told = at_once(
        &mut bench,
        "1\n2\nIt rained.\nMy own.\nback\n\nback\nb\nIt snowed.\n\n\n",
    );
    for said in [
        "Wren Ashdown, you typed “My own.”. Enter alone keeps it;",
        "Tobias Fenn, you typed “It rained.”. Enter alone keeps it;",
    ] {
        assert!(told.text.contains(said), "{said}: {}", told.text);
    }
    let given = bench.answers.iter();
    let given: Vec<_> = given
        .map(|one| (one.by.as_str(), one.words.as_str()))
        .collect();
    let both = [("Tobias Fenn", "It snowed."), ("Wren Ashdown", "My own.")];
    assert_eq!(given, both);
}

#[test]
fn what_is_no_reading_of_an_odometer_is_refused_with_one_and_asked_for_again() {
    let mut bench = Bench::new();
    let told = at_once(&mut bench, "1\n2\n48210\n48210 mi\n");
    let refused = "This is no reading of an odometer. Type one such as 48210 mi or 77586 km";
    assert!(told.text.contains(refused), "{}", told.text);
    assert!(!told.text.contains("18 1/4 in"), "{}", told.text);
    assert_eq!(told.text.matches("Odometer").count(), 2, "{}", told.text);
}

#[test]
fn behind_the_first_of_the_last_questions_nothing_is_begun_and_an_answer_is_kept_for_the_next_begin()
 {
    let mut bench = Bench::new();
    bench.questions = put_questions();
    let begin = "1\n1\n2\n";
    let script = format!("{begin}It rained.\nback\nback\n{begin}\nlater\n\nquit\nquit\n");
    let told = bench.type_in(&script);
    assert_eq!(told.text.matches("Odometer").count(), 1, "{}", told.text);
    let given = bench.answers.iter();
    let given: Vec<_> = given.map(|one| one.words.as_str()).collect();
    assert_eq!(given, ["It rained."], "{}", told.text);
}
