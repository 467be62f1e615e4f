//! What a person meets on the way: answers, branches, holds, doubt, other people.

use crate::plain::bench::words;
use crate::screens::bench::{Bench, text};
use crate::screens::stations::station;
use hames::checklist::StepKey;
use hames::desk::{Errand, Reply};
use hames::tui::{Action, Context, Key, Msg, live, update};
use hames::walk::{Event, Given, Now, Round, Status};

fn last(bench: &Bench) -> &Event {
    &bench.desk.journal.last().unwrap().event
}

fn status<'a>(bench: &'a Bench, step: &str) -> &'a Status {
    let walk = bench.walk();
    let index = walk.plan().index(&StepKey::named(step)).unwrap();
    &walk.steps()[index].status
}

#[test]
fn a_number_answers_at_once_and_a_slip_is_taken_back() {
    let bench = Bench::walking().at_step("socket").play("1");
    assert_eq!(bench.model.context(), Context::Branch);
    let bench = Bench::walking().at_step("ball-stamp").play("1");
    assert!(matches!(last(&bench), Event::Answered { .. }));
    assert_eq!(bench.model.said(), Some("Recorded 07:30."));
    // The answer just given is the one marked.
    let bench = bench.play("t⏎pressed too soon⏎");
    assert!(matches!(last(&bench), Event::Corrected { step, .. } if step.as_str() == "ball-stamp"));
    assert_eq!(
        status(&bench, "ball-stamp"),
        &Status::Waiting(Round::Correction)
    );
}

#[test]
fn a_stop_leads_to_repair_and_a_fresh_answer_or_to_the_end_of_the_trip() {
    let bench = station("branch_stop_reading").bench.clone();
    // Nothing else goes on: neither Enter nor a number nor the keys of other places.
    let stays = bench.clone().play("⏎14ctpg");
    assert_eq!(stays.model.context(), Context::Branch);
    assert_eq!(stays.desk.journal.len(), bench.desk.journal.len());
    let refused = bench.clone().play("r⏎");
    assert_eq!(refused.model.context(), Context::Words);
    assert!(
        refused
            .model
            .said()
            .unwrap()
            .starts_with("Type what was repaired")
    );
    let right = bench.clone().play("rmoved the feed back⏎");
    assert_eq!(
        status(&right, "tongue-weight"),
        &Status::Waiting(Round::PutRight)
    );
    let ended = bench.play("enot fit⏎no time to move it⏎");
    assert_eq!(ended.model.context(), Context::Signer);
}

#[test]
fn a_reading_that_looks_like_a_slip_has_to_be_typed_again() {
    let bench = station("reading_doubted").bench.clone();
    assert_eq!(bench.model.typed(), "");
    assert!(bench.model.said().unwrap().contains("6.5 bar"));
    let bench = bench.play("⏎");
    assert!(matches!(last(&bench), Event::Doubted { .. }));
    let bench = bench.play("65 psi⏎");
    assert!(matches!(last(&bench), Event::Answered { .. }));
}

#[test]
fn a_refused_reading_stays_in_its_field() {
    let bench = station("reading_refused").bench.clone();
    assert_eq!(bench.model.typed(), "2 horses");
    let bench = bench.play("⌫⌫⌫⌫⌫⌫5/16 in⏎");
    assert!(
        matches!(last(&bench), Event::Answered { .. }),
        "{}",
        bench.text(80, 24)
    );
}

#[test]
fn an_instrument_is_chosen_where_several_fit_and_can_be_chosen_again() {
    let bench = station("instrument").bench.clone();
    assert_eq!(
        bench.clone().play("x⏎").model.context(),
        Context::Instrument
    );
    let bench = bench.play("a⎋b700 lb⏎");
    let Event::Answered {
        given: Given::Read { instrument, .. },
        ..
    } = last(&bench)
    else {
        panic!("no reading: {:?}", last(&bench));
    };
    assert_eq!(instrument, "tongue-scale");
}

/// Who holds the wrong gauge must not have to call it by the name of the right one.
#[test]
fn an_instrument_that_does_not_suit_is_listed_with_why_and_refused_when_chosen() {
    let bench = station("instrument_unfit").bench.clone();
    assert_eq!(bench.model.context(), Context::Instrument);
    let said = bench.model.said().unwrap();
    assert!(
        said.contains("trusted from 15 psi to 45 psi") && said.ends_with("whose range holds it."),
        "{said}"
    );
    for (columns, rows) in [(80, 24), (120, 40)] {
        let shown = bench.text(columns, rows);
        assert!(shown.contains("b dial gauge to 60 psi"), "{shown}");
    }
    let shown = bench.text(80, 24);
    assert!(shown.contains("trusted from 15 psi to 45"), "{shown}");
    assert!(
        !shown.contains("65 psi"),
        "the value aimed at, on a blind step: {shown}"
    );
    assert!(matches!(last(&bench), Event::Opened { .. }));
    let bench = bench.play("a65 psi⏎");
    assert!(matches!(last(&bench), Event::Answered { .. }));
}

#[test]
fn a_trip_that_ended_unsigned_is_taken_up_to_be_signed() {
    let bench = station("start_unsigned").bench.clone();
    assert!(
        bench.text(80, 24).contains("To be ended or signed"),
        "{}",
        bench.text(80, 24)
    );
    let bench = bench.play("1");
    assert_eq!(bench.model.context(), Context::Signer);
    let bench = bench.play("1demo⏎");
    assert_eq!(bench.model.context(), Context::Sealed);
    assert_eq!(bench.desk.sealed_by.as_deref(), Some("wren.ashdown"));
}

#[test]
fn the_second_person_is_named_before_the_state_and_is_never_the_one_who_worked() {
    let bench = station("second").bench.clone();
    assert!(
        !bench.text(80, 24).contains("Tobias Fenn\n"),
        "{}",
        bench.text(80, 24)
    );
    assert_eq!(bench.clone().play("2").model.context(), Context::Second);
    let bench = bench.play("otobias fenn⏎2");
    assert!(
        bench.model.said().unwrap().contains("did the work"),
        "{:?}",
        bench.model.said()
    );
    assert_eq!(bench.model.context(), Context::Second);
    let bench = bench.play("b2");
    let Event::Answered {
        given: Given::Seen { by, .. },
        ..
    } = last(&bench)
    else {
        panic!("no sighting: {:?}", last(&bench));
    };
    assert_eq!(by.as_ref(), Some(&words("Odile Marsh")));
}

#[test]
fn a_note_goes_on_only_with_words() {
    let bench = Bench::walking().at_step("reverse-lamp").play("2");
    let bench = bench.play("⏎");
    assert_eq!(bench.model.context(), Context::Remark);
    let bench = bench.play("new bulb by friday⏎");
    assert!(matches!(last(&bench), Event::Remarked { .. }));
}

#[test]
fn a_step_put_off_is_counted_on_every_screen_until_it_is_done() {
    let bench = Bench::walking()
        .at_step("reverse-lamp")
        .play("pno helper here⏎");
    assert!(matches!(last(&bench), Event::Deferred { .. }));
    assert!(bench.text(80, 24).contains("put off 1"));
    let bench = bench.play("⏎c");
    assert_eq!(bench.model.context(), Context::Next);
    assert!(
        bench
            .text(80, 24)
            .contains("It was put off: no helper here")
    );
    let bench = bench.play("⏎1");
    assert!(!bench.text(80, 24).contains("put off 1"));
}

#[test]
fn the_side_doors_stand_open_while_an_instrument_or_a_person_is_chosen() {
    for name in ["instrument", "reading", "second"] {
        let bench = &station(name).bench;
        for action in [Action::Note, Action::HandOver, Action::End] {
            let listed = live(&bench.model).iter().any(|row| row.action == action);
            assert!(listed, "{name}: {action:?}");
        }
    }
    let bench = station("instrument").bench.clone();
    let ended = bench.play("?end the walk⏎not fit⏎the axle is cracked⏎");
    assert_eq!(
        ended.model.context(),
        Context::Signer,
        "{}",
        ended.text(80, 24)
    );
}

#[test]
fn a_critical_step_cannot_be_put_off() {
    let bench = Bench::walking().at_step("latch");
    assert!(
        !live(&bench.model)
            .iter()
            .any(|row| row.action == Action::PutOff)
    );
}

#[test]
fn a_pause_is_left_by_completion_hold_and_doubt_alone() {
    let pause = station("pause").bench.clone();
    let section = pause.walk().section();
    for row in live(&pause.model) {
        let Some(key) = first_key(row.press) else {
            continue;
        };
        let mut bench = pause.clone();
        bench.press(key);
        let stands = matches!(row.action, Action::Hold | Action::Unsure);
        assert_eq!(bench.walk().section(), section, "{}", row.label);
        assert_eq!(
            matches!(bench.walk().now(), Now::Held | Now::Unsure),
            stands,
            "{}",
            row.label
        );
        assert!(bench.model.walk().is_some());
    }
    let actions: Vec<Action> = live(&pause.model).iter().map(|row| row.action).collect();
    for leaving in [Action::End, Action::PutOff, Action::ToStart, Action::Quit] {
        assert!(!actions.contains(&leaving), "{leaving:?}");
    }
}

fn first_key(press: hames::tui::Press) -> Option<Key> {
    use hames::tui::Press;
    match press {
        Press::One(key) => Some(key),
        Press::Digits => Some(Key::Char('1')),
        Press::Letters => Some(Key::Char('a')),
        Press::Text => Some(Key::Char('x')),
        Press::Listed => None,
    }
}

#[test]
fn after_a_short_hold_the_screen_is_what_it_was() {
    for station in [
        "sighting",
        "reading_blind",
        "outcome_ok",
        "note",
        "take_back_why",
    ] {
        let before = crate::screens::stations::station(station).bench.clone();
        let after = before.clone().play("⇥⏎");
        assert_eq!(before.model.typed(), after.model.typed(), "{station}");
        let body = |bench: &Bench| {
            let shown = text(&bench.frame(80, 24));
            let lines: Vec<String> = shown.lines().take(22).map(str::to_owned).collect();
            lines
                .join("\n")
                .replace("Recorded 07:30.", "")
                .trim_end()
                .to_owned()
        };
        assert_eq!(body(&before), body(&after), "{station}");
    }
}

#[test]
fn a_half_typed_reading_outlives_a_short_hold() {
    let bench = Bench::walking().at_step("ball-size").play("2 5⇥");
    assert_eq!(bench.model.context(), Context::Held);
    let bench = bench.play("⏎/16 in⏎");
    assert!(
        matches!(last(&bench), Event::Answered { .. }),
        "{}",
        bench.text(80, 24)
    );
}

#[test]
fn a_hold_says_how_long_it_stood_and_what_it_reopens_before_it_does() {
    let held = station("held").bench.clone();
    let shown = held.text(80, 24);
    for part in [
        "for 15 min",
        "Last done: 07:30 Coupler seat",
        "Next: Coupler latch",
    ] {
        assert!(shown.contains(part), "{part}:\n{shown}");
    }
    let told = shown
        .split("To look at again: ")
        .nth(1)
        .unwrap()
        .split('.')
        .next()
        .unwrap();
    let resumed = held.clone().play("⏎");
    let Event::Resumed { look_again, .. } = last(&resumed) else {
        panic!("not resumed: {:?}", last(&resumed));
    };
    assert_eq!(told.split("; ").count(), look_again.len());
}

#[test]
fn why_a_walk_stands_is_written_without_taking_it_up() {
    let bench = station("held").bench.clone().play("nthe vet is here⏎");
    assert!(matches!(last(&bench), Event::Noted { .. }));
    assert_eq!(bench.model.context(), Context::Held);
    assert!(bench.text(80, 24).contains("the vet is here"));
}

#[test]
fn doubt_freezes_every_step_until_it_is_said_how_it_was_settled() {
    let bench = station("unsure").bench.clone();
    assert!(bench.text(80, 24).contains("Call Odile Marsh"));
    let events = bench.desk.journal.len();
    let stays = bench.clone().play("⏎1234crf");
    assert_eq!(stays.desk.journal.len(), events);
    let bench = bench.play("sasked Odile, the pin is right⏎");
    assert!(matches!(last(&bench), Event::Settled { .. }));
    assert_eq!(bench.model.context(), Context::Sighting);
}

#[test]
fn a_long_absence_by_the_shell_is_told_with_what_to_do() {
    let mut bench = Bench::walking().at_step("latch");
    bench.tell(Msg::Away(119_000));
    assert_eq!(bench.model.said(), None);
    bench.tell(Msg::Away(14 * 60_000));
    assert!(
        bench
            .model
            .said()
            .unwrap()
            .starts_with("Away for 14 min. Press Tab to hold")
    );
}

#[test]
fn a_walk_goes_to_other_people_by_two_letters() {
    let bench = Bench::walking().at_step("latch").play("gcb");
    assert!(matches!(last(&bench), Event::HandedOver { .. }));
    assert_eq!(bench.walk().reader(), &words("Odile Marsh"));
    let same = Bench::walking().at_step("latch").play("gab");
    assert!(same.model.said().unwrap().contains("already have the walk"));
}

#[test]
fn nothing_is_called_recorded_before_the_world_has_said_so() {
    let mut model = Bench::walking().at_step("ball-stamp").model;
    let errands = update(
        &mut model,
        Msg::Press {
            key: Key::Char('1'),
            repeat: false,
        },
    );
    assert!(matches!(errands.as_slice(), [Errand::Record(_)]));
    assert_eq!((model.said(), model.context()), (None, Context::Sighting));
    update(
        &mut model,
        Msg::Reply(Reply::Cannot("The line is busy.".to_owned())),
    );
    assert_eq!(
        (model.said(), model.context()),
        (Some("The line is busy."), Context::Sighting)
    );
}

#[test]
fn once_the_disk_has_failed_acts_are_refused_and_looking_and_leaving_work() {
    let bench = station("read_only").bench.clone();
    let events = bench.desk.journal.len();
    let bench = bench.play("1234]");
    assert_eq!(bench.desk.journal.len(), events);
    assert!(
        bench
            .model
            .said()
            .unwrap()
            .starts_with("Nothing can be recorded")
    );
    let shown = bench.text(80, 24);
    assert!(shown.contains("READ ONLY"), "{shown}");
    let bench = bench.play("?⎋⇥");
    assert_eq!(bench.model.context(), Context::RigPage);
    assert!(bench.text(80, 24).contains("READ ONLY"));
    assert!(bench.play("q").model.is_over());
}

#[test]
fn a_list_that_is_not_as_shipped_says_unapproved_on_every_screen_of_its_walk() {
    let mut bench = Bench::walking();
    bench.tell(Msg::Reply(Reply::Walking {
        walk: Box::new(bench.walk().clone()),
        trip: "9f3c01ab77de4410".to_owned(),
        mode: hames::record::Mode::Drill,
        standing: hames::desk::Approval::Unapproved,
        notices: Vec::new(),
        barn: hames::barn::ForWalk::default(),
        now: bench.desk.now.clone(),
    }));
    for keys in ["", "⏎", "?"] {
        bench = bench.play(keys);
        for (columns, rows) in [(40, 12), (80, 24), (120, 40)] {
            let shown = bench.text(columns, rows);
            assert!(shown.starts_with("DRILL UNAPPROVED"), "{shown}");
        }
    }
}

#[test]
fn a_passphrase_is_never_shown_nor_kept() {
    let bench = station("signer").bench.clone().play("1mulberry lane");
    assert!(bench.text(80, 24).contains("*************"));
    assert!(!bench.text(80, 24).contains("mulberry"));
    assert!(!format!("{:?}", bench.model).contains("mulberry"));
    let mut model = bench.model.clone();
    let errands = update(
        &mut model,
        Msg::Press {
            key: Key::Enter,
            repeat: false,
        },
    );
    assert!(matches!(errands.as_slice(), [Errand::Seal { .. }]));
    // What may take long is on the screen before it begins.
    assert_eq!(model.busy(), Some("checking the passphrase"));
    let wrong = Reply::Cannot("This passphrase does not open the key.".to_owned());
    update(&mut model, Msg::Reply(wrong));
    assert_eq!((model.busy(), model.context()), (None, Context::Passphrase));
}

#[test]
fn a_record_is_told_findings_and_exceptions_first_and_moves_no_cursor() {
    use hames::desk::{Tale, TaleLine, Weight};
    let line = |what: &str, weight| TaleLine {
        time: "08:14".to_owned(),
        what: what.to_owned(),
        weight,
    };
    let mut bench = Bench::new();
    bench.tell(Msg::Reply(Reply::Record(Box::new(Tale {
        heading: vec!["Juniper".to_owned()],
        findings: vec!["line 7 was changed".to_owned()],
        lines: vec![
            line("Ball size: begun", Weight::Plain),
            line("Ball size: put off\u{1b}[2J\u{202e}", Weight::Exception),
        ],
        signatures: vec![],
    }))));
    let shown = bench.text(80, 24);
    let at = |part: &str| {
        shown
            .find(part)
            .unwrap_or_else(|| panic!("{part}:\n{shown}"))
    };
    assert!(at("line 7 was changed") < at("Exceptions"));
    assert!(at("put off") < at("Every line"));
    assert!(shown.contains("\\u{1b}[2J\\u{202e}"));
}
