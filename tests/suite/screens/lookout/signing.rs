//! A trip countersigned from the screen, key by key.

use super::year::{opened, year};
use super::{barn, shown};
use crate::screens::bench::Bench;
use hames::desk::{CrewCard, Exception, OpenedTrip};
use hames::record::{Opinion, Role};
use hames::review::Filter;
use hames::tui::Context;
use hames::walk::Words;

/// Opens each of the four things of the trip.
const ALL: &str = "→→⏎⏎⏎q↓⏎q↓⏎q↓⏎q";

fn footer(bench: &Bench) -> String {
    shown(bench).trim_end().lines().last().unwrap().to_owned()
}

#[test]
fn it_can_be_agreed_to_only_once_everything_was_opened_and_asked_about_before() {
    let bench = barn().play("→→⏎⏎");
    assert!(footer(&bench).contains("  a ask  "), "{}", footer(&bench));
    assert!(!footer(&bench).contains("s agree"), "{}", footer(&bench));
    assert_eq!(bench.clone().play("s").model.context(), Context::Exceptions);
    let three = barn().play("→→⏎⏎⏎q↓⏎q↓⏎q");
    assert_eq!(three.clone().play("s").model.context(), Context::Exceptions);
    let all = barn().play(ALL);
    assert!(footer(&all).starts_with("s agree  "), "{}", footer(&all));
    assert_eq!(all.clone().play("s").model.context(), Context::Remarks);
    assert_eq!(barn().play("→→⏎⏎a").model.context(), Context::Remarks);
}

#[test]
fn what_was_opened_is_remembered_while_the_program_runs_and_what_is_new_is_not_opened() {
    let mut bench = barn().play("→→⏎⏎⏎q↓↓⏎qq");
    let again = bench.clone().play("⏎");
    assert!(shown(&again).contains("2 of 4 opened"), "{}", shown(&again));
    let other = again.clone().play("q↓⏎");
    assert!(shown(&other).contains("0 of 4 opened"), "{}", shown(&other));
    let (lookout, mut trip) = *bench.desk.over.clone().unwrap();
    let named =
        Words::read("answer in trip 9 of laptop-7f3a to statement 5 of odile.marsh").unwrap();
    let told = vec!["“I had the light on.”, answered by Tobias Fenn".to_owned()];
    trip.exceptions.insert(0, Exception { named, told });
    bench.desk.over = Some(Box::new((lookout, trip)));
    let newer = shown(&bench.clone().play("⏎"));
    assert!(newer.contains("2 of 5 opened"), "{newer}");
    assert!(newer.contains("1 to open"), "{newer}");
}

#[test]
fn what_a_manager_agrees_to_is_said_to_be_signed_only_when_it_is_and_the_list_shows_it() {
    let mut bench = barn();
    let why = "That passphrase does not open the key.";
    bench.desk.not_signed = Some(why.to_owned());
    let bench = bench.play(ALL).play("sA clean walk.⏎");
    assert!(
        shown(&bench).contains("Not signed yet"),
        "{}",
        shown(&bench)
    );
    let bench = bench.clone().play("1");
    let key = shown(&bench);
    for said in [
        "Odile Marsh signs and states:",
        "Passphrase:",
        "4 of 4 opened",
    ] {
        assert!(key.contains(said), "{said}: {key}");
    }
    let wrong = bench.clone().play("hay⏎");
    assert_eq!(wrong.desk.countersigned, []);
    assert_eq!(wrong.model.said(), Some(why));
    let signed = wrong.clone().play("demo⏎");
    let [said] = signed.desk.countersigned.as_slice() else {
        panic!("{:?}", signed.desk.countersigned);
    };
    assert_eq!(said.trip, "000004-9f0c11b2");
    assert_eq!(
        (said.manager.as_str(), said.opinion),
        ("odile.marsh", Opinion::Agreed)
    );
    assert_eq!(said.opened.len(), 4);
    assert_eq!(
        said.remarks.as_ref().map(Words::as_str),
        Some("A clean walk.")
    );
    let told = shown(&signed);
    for said in [
        "Countersigned: agreed",
        "Signed by: Odile Marsh, 20",
        "Stating: “I have looked at this trip as it was sealed",
        "Kept in: /barn/mgr/odile.marsh/000006-5b1c77aa",
    ] {
        assert!(told.contains(said), "{said}: {told}");
    }
    let list = signed.clone().play("⏎");
    assert_eq!(list.model.context(), Context::Trips);
    assert!(
        shown(&list).contains("agreed; complete"),
        "{}",
        shown(&list)
    );
}

#[test]
fn enter_alone_signs_nothing_and_a_question_wants_words() {
    let bench = barn().play("→→⏎⏎a⏎");
    assert_eq!(bench.model.context(), Context::Remarks);
    assert_eq!(bench.model.said(), Some("A question has words."));
    let bench = bench.clone().play("Why twice?⏎1⏎");
    assert_eq!(bench.model.context(), Context::Countersigning);
    assert_eq!(bench.desk.countersigned, []);
    let bench = bench.clone().play("demo⏎");
    assert_eq!(bench.desk.countersigned[0].opinion, Opinion::Asked);
    assert_eq!(bench.desk.countersigned[0].opened, []);
    let all = barn().play(ALL).play("s⏎⏎⏎⏎");
    assert_eq!(all.model.context(), Context::Countersigner);
    assert_eq!(all.desk.countersigned, []);
}

#[test]
fn each_step_goes_back_to_the_one_before_and_nothing_is_signed_by_it() {
    let key = barn().play(ALL).play("sFine.⏎1dem");
    let managers = key.clone().play("⎋");
    assert_eq!(managers.model.context(), Context::Countersigner);
    assert!(shown(&managers).contains("“Fine.”"), "{}", shown(&managers));
    let words = managers.clone().play("⎋");
    assert_eq!(words.model.context(), Context::Remarks);
    assert!(shown(&words).contains("Fine."), "{}", shown(&words));
    let list = words.clone().play("⎋");
    assert_eq!(list.model.context(), Context::Exceptions);
    assert_eq!(list.desk.countersigned, []);
}

#[test]
fn who_had_a_hand_in_it_is_not_listed_and_where_nobody_else_is_there_nobody_signs() {
    let mut bench = Bench::over(year(), opened(), Filter::default());
    bench.desk.managers.clear();
    let nobody = bench.clone().play(ALL);
    let keys = footer(&nobody);
    assert!(
        !keys.contains("s agree") && !keys.contains("a ask"),
        "{keys}"
    );
    assert_eq!(
        nobody.clone().play("sa").model.context(),
        Context::Exceptions
    );
    bench.desk.managers = ["Odile Marsh", "June Ashdown"]
        .map(|name| CrewCard {
            id: name.to_lowercase().replace(' ', "."),
            name: name.to_owned(),
            roles: vec![Role::Manager],
        })
        .to_vec();
    let two = bench.clone().play(ALL).play("s⏎");
    assert!(
        shown(&two).contains("2 June Ashdown (manager)"),
        "{}",
        shown(&two)
    );
    let key = shown(&two.clone().play("2"));
    assert!(key.contains("June Ashdown signs and states:"), "{key}");
    assert_eq!(
        two.clone().play("3").model.context(),
        Context::Countersigner
    );
}

#[test]
fn who_said_it_already_is_told_before_a_passphrase_is_typed() {
    let mut bench = barn();
    bench.desk.said_already = Some(Opinion::Agreed);
    let said = bench.clone().play(ALL).play("s⏎1");
    assert_eq!(said.model.context(), Context::Countersigner);
    assert_eq!(said.model.said(), Some("This manager has said so already."));
}

#[test]
fn who_said_it_already_is_told_before_the_first_thing_to_open() {
    let said = "Odile Marsh agreed to this trip on 2026-11-04 19:10, in statement 5.";
    let told = OpenedTrip {
        already: vec![said.to_owned()],
        ..opened()
    };
    let bench = Bench::over(year(), told, Filter::default()).play("→→⏎⏎");
    let list = shown(&bench);
    let place = |what: &str| list.find(what).unwrap_or_else(|| panic!("{what}: {list}"));
    assert!(
        place("Odile Marsh agreed to this trip") < place("to open"),
        "{list}"
    );
}

#[test]
fn a_word_that_every_manager_here_would_be_refused_for_has_no_key() {
    let refused = |word: Opinion| {
        let told = OpenedTrip {
            refused: vec![word],
            ..opened()
        };
        Bench::over(year(), told, Filter::default()).play(ALL)
    };
    let agreed = refused(Opinion::Agreed);
    let keys = footer(&agreed);
    assert!(
        keys.contains("a ask") && !keys.contains("s agree"),
        "{keys}"
    );
    assert_eq!(
        agreed.clone().play("s").model.context(),
        Context::Exceptions
    );
    let help = shown(&agreed.clone().play("?"));
    assert!(!help.contains("Agree to the trip"), "{help}");
    let asked = refused(Opinion::Asked);
    let keys = footer(&asked);
    assert!(
        keys.contains("s agree") && !keys.contains("a ask"),
        "{keys}"
    );
    assert_eq!(asked.clone().play("a").model.context(), Context::Exceptions);
}

#[test]
fn the_heading_says_that_words_are_not_signed_only_once_there_are_words() {
    let bench = barn().play("→→⏎⏎a");
    assert!(
        !shown(&bench).contains("Not signed yet"),
        "{}",
        shown(&bench)
    );
    let typed = bench.play("Why?⏎");
    let told = "Not signed yet: asked";
    assert!(shown(&typed).contains(told), "{}", shown(&typed));
}

#[test]
fn the_time_of_the_review_is_what_the_trip_was_open_for_until_the_opinion() {
    let mut bench = barn();
    bench.desk.seconds_a_turn = 60;
    let asked = bench.clone().play("→→⏎⏎aWhy?⏎1demo⏎");
    let short = asked.desk.countersigned[0].took_ms;
    let long = bench.clone().play("→→⏎⏎q⏎q⏎q⏎aWhy?⏎1demo⏎");
    let long = long.desk.countersigned[0].took_ms;
    assert!(short > 0 && long > short, "{short} {long}");
}
