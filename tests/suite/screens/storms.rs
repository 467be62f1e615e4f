//! Keys nobody meant: held down, hit at random, pasted.

use crate::screens::bench::{Bench, LOOK, key};
use crate::screens::stations::{Station, finished, stations};
use hames::tui::{Context, Key, Msg, Press, live};
use hames::walk::{Event, Status};

/// The keys that mean something on this screen; of text only an x.
fn bound(bench: &Bench) -> Vec<Key> {
    let live = live(&bench.model);
    let keys = live.iter().flat_map(|row| match row.press {
        Press::One(key) => vec![key],
        Press::Digits => ('1'..='4').map(Key::Char).collect(),
        Press::Letters => ('a'..='c').map(Key::Char).collect(),
        Press::Text => vec![Key::Char('x')],
        Press::Listed => vec![],
    });
    keys.collect()
}

/// Every key a row of any context answers to, and some that none does.
fn keyboard() -> Vec<Key> {
    let mut keys: Vec<Key> = (' '..='~').map(Key::Char).collect();
    keys.extend("⏎⇥⎋⌫↑↓⇞⇟⇱⇲".chars().map(key));
    keys.extend([Key::F(1), Key::F(9), Key::F(5), Key::Other]);
    keys
}

#[test]
fn one_key_pressed_over_and_over_completes_no_section() {
    for key in keyboard() {
        let mut bench = Bench::walking();
        for _ in 0..60 {
            bench.press(key);
        }
        let closed = bench.count(|event| matches!(event, Event::SectionClosed { .. }));
        assert_eq!(closed, 0, "{key:?}");
    }
}

#[test]
fn enter_alone_passes_no_step() {
    for station in stations() {
        // Where words are typed Enter hands them in, and a chosen line is done by it.
        let typing = matches!(station.context, Context::Words | Context::Remark);
        if typing || station.bench.model.walk().is_none() {
            continue;
        }
        let mut bench = station.bench.clone_with(LOOK);
        let before = bench.count(answered);
        for _ in 0..30 {
            bench.press(Key::Enter);
        }
        let reading = usize::from(matches!(station.name, "reading" | "drill_reading"));
        assert!(
            bench.count(answered) <= before + reading,
            "{}",
            station.name
        );
        assert_eq!(
            bench.count(|event| matches!(event, Event::Ended { .. })),
            ended(station.name),
            "{}",
            station.name
        );
    }
}

/// So often a key is pressed or repeated: more than any step has pages or questions.
const PRESSES: usize = 8;

#[test]
fn a_key_held_down_answers_at_most_one_step() {
    for station in stations() {
        for key in bound(&station.bench) {
            let mut bench = station.bench.clone_with(LOOK);
            let before = bench.count(answered);
            bench.tell(Msg::Press { key, repeat: false });
            for _ in 0..PRESSES {
                bench.tell(Msg::Press { key, repeat: true });
            }
            assert!(
                bench.count(answered) <= before + 1,
                "{}: {key:?}",
                station.name
            );
        }
    }
}

#[test]
fn many_of_one_key_answer_at_most_one_step_even_when_none_is_marked_as_held() {
    // A run that is watched is answered by the program, and counts as nobody's.
    let answered_by_people = |one: &&Station| one.context != Context::Watching;
    for station in stations().iter().filter(answered_by_people) {
        for key in bound(&station.bench) {
            let mut bench = station.bench.clone_with(LOOK);
            let before = bench.count(answered);
            for _ in 0..PRESSES {
                bench.press(key);
            }
            assert!(
                bench.count(answered) <= before + 1,
                "{}: {key:?}",
                station.name
            );
        }
    }
}

#[test]
fn ten_thousand_keys_at_random_end_no_trip_and_complete_nothing_open() {
    let keys = keyboard();
    // A linear congruential generator (Knuth, MMIX) is random enough and the same on every run.
    let mut seed: u64 = 20_261_125;
    let mut bench = Bench::walking();
    for _ in 0..10_000 {
        seed = seed
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        let dice = usize::try_from(seed >> 33).unwrap();
        // Every other key is one that means something where it falls.
        let bound = bound(&bench);
        let keys = if dice % 2 == 0 { &keys } else { &bound };
        bench.press(keys[dice / 2 % keys.len()]);
        assert_eq!(bench.count(|event| matches!(event, Event::Ended { .. })), 0);
        if let Some(walk) = bench.model.walk() {
            for (at, section) in walk.plan().sections().iter().enumerate() {
                let mut steps = section.first..section.first + section.count;
                let never = |step: usize| {
                    let state = &walk.steps()[step];
                    state.answers.is_empty()
                        && !matches!(state.status, Status::Deferred { .. })
                        && walk.left_out(step).is_none()
                };
                assert!(!walk.is_closed(at) || !steps.any(never), "{}", section.id);
            }
        }
    }
    assert!(bench.desk.journal.len() > 50, "{}", bench.text(80, 24));
}

#[test]
fn pasted_lines_answer_nothing() {
    for station in stations() {
        let mut bench = station.bench.clone_with(LOOK);
        let before = bench.desk.journal.len();
        bench.tell(Msg::Paste("1\n1\n1\n".to_owned()));
        assert_eq!(bench.desk.journal.len(), before, "{}", station.name);
    }
}

#[test]
fn a_paste_goes_into_a_text_field_without_its_line_ends() {
    let mut bench = Bench::walking().at_step("ball-size");
    bench.tell(Msg::Paste("2 5/16\r\n in".to_owned()));
    assert_eq!(bench.model.typed(), "2 5/16 in");
}

#[test]
fn an_end_needs_its_whole_word() {
    let mut bench = Bench::walking().play("e");
    for slip in ["", "y", "yes", "not", "q"] {
        bench = bench.play(slip).play("⏎");
        assert_eq!(bench.count(|event| matches!(event, Event::Ended { .. })), 0);
        bench = bench.play(&"⌫".repeat(slip.len()));
        assert_eq!(bench.model.context(), Context::Words);
    }
    let bench = bench.play("not fit⏎the frame is cracked⏎");
    assert_eq!(bench.count(|event| matches!(event, Event::Ended { .. })), 1);
}

#[test]
fn a_finished_walk_ends_by_its_own_key_and_no_other() {
    let finished = finished();
    for key in keyboard().into_iter().filter(|key| *key != Key::Char('f')) {
        let mut bench = finished.clone_with(LOOK);
        bench.press(key);
        assert_eq!(
            bench.count(|event| matches!(event, Event::Ended { .. })),
            0,
            "{key:?}"
        );
    }
}

fn answered(event: &Event) -> bool {
    matches!(event, Event::Answered { .. })
}

/// Stations of an ended walk have their one end already.
fn ended(name: &str) -> usize {
    usize::from(matches!(
        name,
        "signer"
            | "signer_from_paper"
            | "passphrase"
            | "consent_hardware"
            | "sealed"
            | "ended_not_fit"
            | "sealed_not_fit"
            | "drill_over"
            | "drill_over_kept"
            | "drill_signer"
            | "drill_sealed"
    ))
}
