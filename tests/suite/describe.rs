//! Describing a rig question by question: a whole interview gives a rig that is walked, leaving
//! out what may be left out does too, and whatever happens in between, the file can be taken up.

mod document;
mod keys;
mod lines;
mod person;

use crate::harness::good;
use chrono::DateTime;
use hames::checklist::{Checklist, Plan};
use hames::document::{Document, Fault};
use hames::rig::demo::{JUNIPER, MESQUITE};
use hames::rig::describe::{Ask, CHAPTERS, Interview, Question, Refused};
use hames::rig::{HitchKind, Rig, Spring};
use hames::walk::{Act, Moment, Now, Walk, Words};
use person::Person;

/// Walks the shipped hitch-up with this rig, every answer good, to its end.
fn walk_to_the_end(rig: Rig) {
    let plan = Plan::lay(
        Checklist::read(&crate::harness::hitch_up_text()).unwrap(),
        rig,
    )
    .unwrap_or_else(|gaps| panic!("{gaps:?}"));
    let moment = Moment {
        wall: DateTime::parse_from_rfc3339("2026-11-25T07:30:00-05:00").unwrap(),
        boot: "boot-1".to_owned(),
        mono_ms: 1_000_000,
    };
    let words = |text| Words::read(text).unwrap();
    let mut walk = Walk::begin(plan, words("Wren"), words("Tobias"), moment.clone());
    loop {
        let key = |index| walk.asked(index).unwrap().key.to_string();
        let act = match walk.now() {
            // Of a trailer whose magnets nobody described no battery is known to be enough: that
            // is noted, and the walk goes on.
            Now::Open(index) if key(index) == "battery-rest" => Act::Read {
                typed: "13.1 V".to_owned(),
                instrument: "multimeter".to_owned(),
            },
            Now::Remark(_) => Act::Remark {
                words: "magnets not described".to_owned(),
            },
            _ => match good::next(&walk, "Odile") {
                Some((act, _)) => act,
                None => return,
            },
        };
        good::step(&mut walk, &act, &moment).unwrap_or_else(|no| panic!("{act:?}: {no}"));
    }
}

fn lines(faults: &[Fault]) -> String {
    let lines: Vec<String> = faults.iter().map(ToString::to_string).collect();
    lines.join("\n")
}

fn described(person: &Person) -> (String, Rig) {
    let text = person.describes(Interview::default());
    let rig = Rig::read(&text).unwrap_or_else(|faults| panic!("{}\n{text}", lines(&faults)));
    (text, rig)
}

#[test]
fn a_bumper_pull_described_from_first_question_to_last_is_walked() {
    let (_, rig) = described(&Person::with_a_bumper_pull());
    assert_eq!(
        (rig.kind(), rig.trailer.axles.len()),
        (HitchKind::BumperPull, 2)
    );
    assert!(rig.trailer.spare.is_some() && rig.truck.springs.is_some());
    assert!(matches!(
        rig.trailer.axles[1].spring,
        Some(Spring::Arm { .. })
    ));
    assert_eq!(rig.load[0].stall.as_deref(), Some("left"));
    walk_to_the_end(rig);
}

#[test]
fn a_gooseneck_on_leaf_springs_is_described_from_first_question_to_last() {
    let (_, rig) = described(&Person::with_a_gooseneck());
    assert_eq!(rig.kind(), HitchKind::Gooseneck);
    assert!(rig.trailer.equalizer.is_some());
    assert!(rig.load[0].horse.is_some() && rig.load[0].weight.is_none());
}

#[test]
fn a_rig_of_which_all_is_left_out_that_may_be_is_walked() {
    let (text, rig) = described(&Person::in_a_hurry());
    assert!(
        !text.contains("springs") && !text.contains("spare"),
        "{text}"
    );
    assert!(rig.load.is_empty());
    walk_to_the_end(rig);
}

#[test]
fn a_power_cut_after_any_answer_loses_nothing() {
    let person = Person::with_a_bumper_pull();
    let whole = person.describes(Interview::default());
    assert_eq!(
        whole,
        person.describes_with_a_power_cut_after_every_answer()
    );
}

#[test]
fn a_file_taken_up_keeps_every_value_and_every_remark() {
    for text in [JUNIPER, MESQUITE] {
        let taken_up = Interview::take_up(text).unwrap();
        let written = taken_up.text();
        assert_eq!(Rig::read(&written), Rig::read(text));
        let remarks = |text: &str| Document::parse(text).unwrap().remarks();
        assert_eq!(remarks(&written), remarks(text));
        for line in text.lines().filter(|line| line.trim().starts_with('#')) {
            assert!(written.contains(line.trim()), "{line}");
        }
        // Written again it stays as it is.
        assert_eq!(Interview::take_up(&written).unwrap().text(), written);
    }
}

#[test]
fn of_a_file_with_a_gap_only_the_gap_is_asked() {
    let gap = JUNIPER.replace(
        "  payload: { is: 1450 lb, by: plate, at: tire label on the driver's door post }\n",
        "",
    );
    let interview = Interview::take_up(&gap).unwrap();
    assert_eq!(interview.lacking().len(), 1);
    assert_eq!(interview.question().unwrap().path, "truck.payload");
}

#[test]
fn a_file_in_which_something_is_wrong_is_not_taken_up() {
    let wrong = JUNIPER.replace("gvwr: { is: 7150 lb", "gvwr: { is: 7150 in");
    let faults = Interview::take_up(&wrong).unwrap_err();
    assert!(
        lines(&faults).contains("truck.gvwr.is: “in” is not a unit of weight"),
        "{faults:?}"
    );
    let misspelled = JUNIPER.replace("payload:", "paylaod:");
    assert_eq!(Interview::take_up(&misspelled).unwrap_err().len(), 1);
}

/// Goes on with good answers until a question with this path is asked.
fn go_to(path: &str) -> (Interview, Question) {
    let person = Person::with_a_bumper_pull();
    let mut interview = Interview::default();
    loop {
        let question = interview.question().unwrap();
        if question.path == path {
            return (interview, question);
        }
        person.answers(&mut interview, &question);
    }
}

fn typed(interview: &mut Interview, question: &Question, typed: &[&str]) -> Result<(), Refused> {
    let typed: Vec<String> = typed.iter().map(|typed| (*typed).to_owned()).collect();
    let evidence = question.field.ask.has_evidence();
    interview.answer(question, &typed, evidence.then_some(("plate", "door")))
}

fn wrong(refused: Result<(), Refused>) -> (String, Option<String>) {
    match refused {
        Err(Refused::Wrong { what, amends, .. }) => (what, amends.map(|amends| amends.question)),
        other => panic!("{other:?}"),
    }
}

#[test]
fn an_answer_is_judged_in_the_words_of_the_files_reader() {
    let (mut interview, question) = go_to("truck.payload");
    let before = interview.text();
    for (answer, told) in [
        ("1450", "the unit is missing"),
        ("1450 in", "“in” is not a unit of weight"),
        ("-1450 lb", "-1450 lb is not more than nothing"),
        ("8000 lb", "the truck may carry more than it may weigh"),
    ] {
        assert_eq!(
            wrong(typed(&mut interview, &question, &[answer])),
            (told.to_owned(), None)
        );
    }
    assert_eq!(interview.text(), before);
}

#[test]
fn an_answer_that_contradicts_an_earlier_one_names_it_and_either_may_be_changed() {
    let (mut interview, question) = go_to("truck.gawr-rear");
    let (what, earlier) = wrong(typed(&mut interview, &question, &["3000 lb"]));
    assert!(
        what.starts_with("the truck may weigh more than its two axles"),
        "{what}"
    );
    assert_eq!(
        earlier.as_deref(),
        Some("What is the most the truck may weigh, loaded?")
    );
    let Err(Refused::Wrong {
        amends: Some(amends),
        ..
    }) = typed(&mut interview, &question, &["3000 lb"])
    else {
        panic!("it is refused");
    };
    interview.amend(&amends);
    let again = interview.question().unwrap();
    assert_eq!(
        (again.path.as_str(), again.now.as_deref()),
        ("truck.gvwr", Some("7150 lb, plate, where it stands"))
    );
    typed(&mut interview, &again, &["6500 lb"]).unwrap();
    let question = interview.question().unwrap();
    assert_eq!(question.path, "truck.gawr-rear");
    typed(&mut interview, &question, &["3000 lb"]).unwrap();
}

#[test]
fn a_ball_on_the_wrong_side_of_the_axle_is_told_when_the_joint_is_named() {
    let (mut interview, question) = go_to("truck.ball-behind-rear-axle");
    typed(&mut interview, &question, &["-4 in"]).unwrap();
    let person = Person::with_a_bumper_pull();
    let question = loop {
        let question = interview.question().unwrap();
        if matches!(question.field.ask, Ask::Joint) {
            break question;
        }
        person.answers(&mut interview, &question);
    };
    let (what, earlier) = wrong(typed(&mut interview, &question, &["1"]));
    assert_eq!(
        what,
        "a bumper pull's ball lies behind the rear axle, and this one at -4 in"
    );
    assert_eq!(
        earlier.as_deref(),
        Some("How far does the ball stand behind the rear axle?")
    );
}

#[test]
fn back_asks_the_question_before_again_and_keep_leaves_it() {
    let (mut interview, question) = go_to("truck.gcwr");
    let before = interview.text();
    assert!(interview.back());
    let back = interview.question().unwrap();
    assert_eq!(
        (back.path.as_str(), back.now.as_deref()),
        ("truck.gawr-rear", Some("4100 lb, plate, where it stands"))
    );
    assert!(interview.back());
    let back = interview.question().unwrap();
    assert_eq!(back.path, "truck.gawr-front");
    interview.keep(&back);
    assert_eq!(
        (interview.question().unwrap().path, interview.text()),
        (question.path, before)
    );
    let mut new = Interview::default();
    assert!(!new.back());
}

#[test]
fn leaving_out_the_first_value_of_a_part_leaves_out_the_part_and_says_what_follows() {
    let (mut interview, question) = go_to("truck.weighed.front");
    assert!(
        interview
            .skip(&question)
            .starts_with("The load on the steering axle")
    );
    assert_eq!(interview.question().unwrap().path, "truck.springs.front");
    let (mut interview, question) = go_to("truck.weighed.rear");
    assert!(interview.text().contains("weighed"));
    interview.skip(&question);
    assert!(!interview.text().contains("weighed"));
    assert_eq!(interview.question().unwrap().path, "truck.springs.front");
}

#[test]
fn what_the_hitch_up_cannot_do_without_may_be_left_for_later_and_is_said_so() {
    let (mut interview, question) = go_to("truck.gcwr");
    assert!(
        interview
            .skip(&question)
            .starts_with("The file cannot be walked until it is there")
    );
    assert_eq!(interview.question().unwrap().path, "truck.payload");
    let later = Interview::take_up(&interview.text()).unwrap();
    assert_eq!(later.question().unwrap().path, "truck.gcwr");
}

#[test]
fn a_thing_named_in_error_is_taken_out_of_its_list_by_going_back_to_its_name() {
    let (mut interview, _) = go_to("load[0].weight");
    assert!(interview.text().contains("Bramble"));
    assert!(interview.back());
    let name = interview.question().unwrap();
    assert_eq!(name.path, "load[0].name");
    assert_eq!(interview.skip(&name), "It is taken out of the load.");
    assert!(!interview.text().contains("Bramble"));
    assert_eq!(interview.question().unwrap().path, "load");
}

/// Every question says where to look, shows an answer, and says what it is for.
#[test]
fn every_question_is_whole() {
    let mut asked = 0;
    for section in CHAPTERS.iter().flat_map(|chapter| chapter.sections) {
        for field in section.fields {
            asked += 1;
            let path = section.path(field);
            for text in [
                field.question,
                field.look,
                field.example,
                field.used,
                section.title,
            ] {
                assert!(!text.is_empty() && text.trim() == text, "{path}: “{text}”");
            }
            assert!(field.question.ends_with('?'), "{path}");
            assert!(field.look.ends_with('.'), "{path}: {}", field.look);
            assert!(!field.used.ends_with('.'), "{path}: {}", field.used);
        }
    }
    assert!(asked > 120, "{asked}");
}
