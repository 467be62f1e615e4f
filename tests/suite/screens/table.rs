//! The table of keys: what is listed is what is done.

use crate::screens::bench::{Bench, LOOK};
use crate::screens::stations::stations;
use hames::tui::{Action, Context, Key, Look, Press, TABLE, live};
use std::collections::BTreeSet;

#[test]
fn every_context_is_on_some_screen_of_these_tests() {
    let seen: BTreeSet<&str> = stations().iter().map(|one| one.context.title()).collect();
    let all: BTreeSet<&str> = Context::ALL.iter().map(|context| context.title()).collect();
    assert_eq!(seen, all);
}

#[test]
fn no_key_has_two_meanings_in_one_place() {
    for context in Context::ALL {
        let rows = TABLE.iter().filter(|row| row.contexts.contains(&context));
        let mut seen = BTreeSet::new();
        for row in rows {
            let keys = match row.press {
                Press::One(key) => vec![key],
                Press::Digits => ('1'..='9').map(Key::Char).collect(),
                Press::Letters => ('a'..='m').map(Key::Char).collect(),
                // Text is whatever no row above has taken; a listed row has no key.
                Press::Text | Press::Listed => vec![],
            };
            for key in keys.into_iter().chain(row.also) {
                assert!(seen.insert(format!("{key:?}")), "{context:?}: {key:?}");
            }
        }
    }
}

#[test]
fn every_key_the_bottom_line_shows_does_something() {
    for station in stations() {
        for row in live(&station.bench.model)
            .into_iter()
            .filter(|row| row.footer)
        {
            let mut bench = station.bench.clone_with(LOOK);
            let before = format!("{:?}{:?}", bench.model, bench.desk.journal.len());
            let key = match row.press {
                Press::One(key) => key,
                Press::Digits => Key::Char('1'),
                Press::Letters => Key::Char('a'),
                Press::Text | Press::Listed => continue,
            };
            bench.press(key);
            let after = format!("{:?}{:?}", bench.model, bench.desk.journal.len());
            assert_ne!(before, after, "{}: {}", station.name, row.label);
        }
    }
}

/// What the list of keys shows is what the keys do, row for row.
#[test]
fn the_list_of_keys_is_what_is_valid() {
    for station in stations().iter().filter(|one| one.context != Context::Help) {
        let valid: Vec<&str> = live(&station.bench.model)
            .iter()
            .map(|row| row.what)
            .collect();
        // The big view has no list of steps beside the page.
        let mut bench = station.bench.clone_with(Look { big: true, ..LOOK });
        bench.press(Key::F(1));
        let shown = bench
            .text(200, 200)
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ");
        for what in &valid {
            let what = what.split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(shown.contains(&what), "{}: {what}\n{shown}", station.name);
        }
        let listed = TABLE.iter().filter(|row| shown.contains(row.what));
        for row in listed {
            assert!(valid.contains(&row.what), "{}: {}", station.name, row.what);
        }
    }
}

#[test]
fn no_key_of_a_walk_needs_a_modifier_held() {
    let chords = TABLE
        .iter()
        .filter(|row| row.press == Press::One(Key::Other));
    assert_eq!(chords.count(), 0);
    let shifted = |row: &&hames::tui::Row| match row.press {
        Press::One(Key::Char(letter)) => {
            "~!@#$%^&*()_+{}|:\"<>".contains(letter) || letter.is_uppercase()
        }
        _ => false,
    };
    assert!(!TABLE.iter().any(|row| shifted(&row)));
}

/// A reading of a drill is called by one as well.
#[test]
fn digits_choose_states_and_nothing_else_on_a_walk() {
    for station in stations()
        .iter()
        .filter(|one| one.bench.model.walk().is_some())
    {
        let digits = live(&station.bench.model)
            .into_iter()
            .any(|row| row.press == Press::Digits);
        let choosing = matches!(
            station.context,
            Context::Sighting | Context::Signer | Context::Looking | Context::Measuring
        );
        assert_eq!(digits, choosing, "{}", station.name);
    }
}

#[test]
fn hold_and_doubt_have_one_key_each_wherever_a_walk_goes_on() {
    for station in stations() {
        let Some(walk) = station.bench.model.walk() else {
            continue;
        };
        if walk.ended().is_some() || station.context == Context::Help {
            continue;
        }
        let rows = live(&station.bench.model);
        let key = |action| {
            rows.iter()
                .find(|row| row.action == action)
                .map(|row| row.press)
        };
        if walk.unsure().is_none() {
            assert_eq!(
                key(Action::Unsure),
                Some(Press::One(Key::Char(']'))),
                "{}",
                station.name
            );
        }
        if walk.unsure().is_none() && station.context != Context::Held {
            assert_eq!(
                key(Action::Hold),
                Some(Press::One(Key::Tab)),
                "{}",
                station.name
            );
        }
    }
}

#[test]
fn a_key_without_a_meaning_says_what_to_do() {
    let mut bench = Bench::walking().at_step("socket");
    bench.press(Key::Enter);
    assert_eq!(
        bench.model.said(),
        Some("Press the number of what is seen. ? lists every key.")
    );
}

#[test]
fn the_list_of_keys_finds_does_and_keeps_what_was_typed() {
    let bench = Bench::walking().at_step("ball-size").play("2 5?");
    assert_eq!(bench.model.context(), Context::Help);
    // Nothing is marked, so Enter alone does nothing.
    let bench = bench.play("⏎");
    assert_eq!(bench.model.context(), Context::Help);
    let bench = bench.play("⎋");
    assert_eq!(bench.model.typed(), "2 5");
    for back in ["q", "⌫", "?"] {
        let bench = Bench::walking().at_step("ball-size").play("2?").play(back);
        assert_eq!(
            (bench.model.context(), bench.model.typed()),
            (Context::Reading, "2")
        );
    }
    let bench = bench.play("?write someth⏎");
    assert_eq!(bench.model.context(), Context::Words);
    let bench = bench.play("cold today⏎");
    assert_eq!(
        (bench.model.context(), bench.model.typed()),
        (Context::Reading, "2 5")
    );
}
