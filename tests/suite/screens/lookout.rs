//! A logbook looked over on the screen, played by keys.

mod long;
mod signing;
mod trends;
mod year;

pub(crate) use long::reading;
pub(crate) use year::{barn, followed};

use crate::screens::bench::{Bench, LOOK, key};
use crate::screens::stations::stations;
use hames::desk::{Errand, KeyLies, Reply};
use hames::record::Mode;
use hames::review::{Filter, Weight};
use hames::tui::{Context, Key, Look, Msg, Theme, first_lookout, update};
use proptest::prelude::*;
use year::{opened, year};

fn shown(bench: &Bench) -> String {
    bench.text(80, 24)
}

#[test]
fn arrows_go_by_day_and_week_and_pages_by_month_up_to_the_ends_of_what_there_is() {
    let at = |keys: &str| {
        let shown = shown(&barn().play(keys));
        let mut lines = shown.lines();
        let month = lines.next().unwrap().to_owned();
        let list = shown.lines().find(|line| line.starts_with(" Su Mo"));
        let list = list.unwrap_or_default();
        let list = list.get(28..).unwrap_or_default();
        (month, list.split(':').next().unwrap_or_default().to_owned())
    };
    let whole = "The whole month".to_owned();
    assert_eq!(at("").1, whole);
    // The first arrow chooses a day with trips, the first or the last of the month.
    assert_eq!(at("→").1, "Monday 2 November");
    assert_eq!(at("←").1, "Wednesday 25 November");
    assert_eq!(at("→→").1, "Tuesday 3 November");
    assert_eq!(at("→↓").1, "Monday 9 November");
    assert_eq!(at("→↑").1, "Monday 26 October");
    assert!(at("→↑").0.contains("October 2026: 2 trips, 2 open"));
    assert_eq!(at("→⎋").1, whole);
    assert!(at("⇞").0.contains("October 2026"));
    let end = barn().play("⇞⇞");
    assert_eq!(
        end.model.said(),
        Some("There is no trip further on this way.")
    );
    // What was said of one key is gone with the next.
    assert_eq!(end.play("→").model.said(), None);
    assert!(at("⇱⇲").0.contains("November 2026"));
}

#[test]
fn each_filter_is_told_in_words_and_turned_by_its_key_and_all_come_off_by_one() {
    let line = |keys: &str| {
        let shown = shown(&barn().play(keys));
        shown.lines().nth(1).unwrap().to_owned()
    };
    assert_eq!(line(""), "9 trips in all; 1 cannot be looked at: w");
    assert_eq!(line("r"), "5 of 9 trips: rig juniper");
    assert_eq!(line("rr"), "4 of 9 trips: rig mesquite");
    assert_eq!(line("rrr"), line(""));
    assert_eq!(line("p"), "9 of 9 trips: with Tobias Fenn");
    assert_eq!(line("ggg"), "3 of 9 trips: stopped or graver");
    assert_eq!(line("gggg"), "1 of 9 trips: doubtful");
    assert_eq!(line("o"), "7 of 9 trips: only open");
    assert_eq!(
        line("rrpggo"),
        "3 of 9 trips: rig mesquite, with Tobias Fenn, fixed or graver, only open"
    );
    assert_eq!(line("rrpggoc"), line(""));
    assert!(line("a").contains(": only asked about"), "{}", line("a"));
    let none = barn().play("rgggg").play("rr");
    assert!(shown(&none).contains("1 of 9"), "{}", shown(&none));
    let none = barn().play("rrgggg");
    assert_eq!(
        none.model.said(),
        Some("No trip is like this. c shows all trips again.")
    );
}

#[test]
fn what_was_asked_for_behind_the_command_is_filtered_from_the_start() {
    let filter = Filter {
        rig: Some("mesquite".to_owned()),
        since: Some("2026-10-01".parse().unwrap()),
        until: Some("2026-10-31".parse().unwrap()),
        least: Some(Weight::Stopped),
        ..Filter::default()
    };
    let shown = shown(&Bench::over(year(), opened(), filter));
    let mut lines = shown.lines();
    assert_eq!(
        lines.next(),
        Some("DEMO Logbook, October 2026: 1 trip, 1 open")
    );
    let filters = [lines.next().unwrap(), lines.next().unwrap()].join(" ");
    assert_eq!(
        filters,
        "1 of 9 trips: rig mesquite, stopped or graver, since 2026-10-01, until 2026-10-31"
    );
}

#[test]
fn beside_a_trip_stands_how_many_questions_there_are_about_it() {
    let shown = barn().play("a⇱").text(120, 40);
    assert!(shown.contains("open; 2 questions; complete;"), "{shown}");
}

#[test]
fn a_filter_that_names_nothing_is_told_with_what_there_is() {
    let said = |filter: Filter| {
        let bench = Bench::over(year(), opened(), filter);
        bench.model.said().unwrap_or_default().to_owned()
    };
    let rig = Filter {
        rig: Some("junipr".to_owned()),
        ..Filter::default()
    };
    assert_eq!(
        said(rig),
        "No rig is called junipr. Rigs: juniper, mesquite."
    );
    let person = |name: &str| Filter {
        person: Some(name.to_owned()),
        ..Filter::default()
    };
    assert!(said(person("nobody")).starts_with("Nobody is called nobody. People: "));
    assert!(said(person("wren.ashdown")).starts_with("Arrows choose a day"));
}

#[test]
fn a_day_has_the_sign_of_its_gravest_trip_and_is_underlined_where_something_is_open() {
    let frame = barn().frame(80, 24);
    let underlined = |column: u16, row: u16| {
        let cell = frame.cell((column, row)).unwrap();
        cell.modifier.contains(ratatui::style::Modifier::UNDERLINED)
    };
    let shown = crate::screens::bench::text(&frame);
    let weeks = shown.lines().skip_while(|line| !line.starts_with(" Su Mo"));
    let weeks: Vec<&str> = weeks.skip(1).collect();
    for (sign, week) in [(". 2", 0), ("f 3", 0), ("n13", 1), ("S14", 1), ("?25", 3)] {
        let days: String = weeks[week].chars().take(21).collect();
        assert!(days.contains(sign), "{sign}\n{shown}");
    }
    let row = u16::try_from(shown.lines().position(|line| line.contains("f 3")).unwrap()).unwrap();
    // Of the second a manager has agreed to everything.
    assert!(!underlined(5, row) && underlined(8, row), "{shown}");
}

#[test]
fn each_thing_not_as_expected_is_opened_by_itself_and_counted() {
    let bench = barn().play("→→⏎⏎");
    assert_eq!(bench.model.context(), Context::Exceptions);
    let list = shown(&bench);
    assert!(list.contains("Not as expected: 0 of 4 opened"), "{list}");
    assert!(!list.contains("Put right: pumped up"), "{list}");
    let bench = bench.play("⏎");
    let one = shown(&bench);
    assert!(
        one.contains("06:29 Put right: pumped up to 65 psi"),
        "{one}"
    );
    assert!(
        one.contains("Limit: fix below 62.5 psi, by plate: tire label."),
        "{one}"
    );
    assert!(one.contains("Before: 64 psi on 25 Oct 2026."), "{one}");
    let bench = bench.play("q");
    let list = shown(&bench);
    assert!(list.contains("Not as expected: 1 of 4 opened"), "{list}");
    assert!(
        list.contains("1 opened") && list.contains("2 to open"),
        "{list}"
    );
    // Twice is once.
    let list = shown(&bench.play("⏎q↓⏎q"));
    assert!(list.contains("Not as expected: 2 of 4 opened"), "{list}");
}

#[test]
fn the_rest_of_a_trip_says_how_it_is_countersigned() {
    let bench = barn().play("→→⏎⏎⇥");
    let rest = bench.text(80, 60);
    for said in [
        "s agrees to 000004-9f0c11b2, once everything here has been opened.",
        "06:28 nothing was typed for 4 min 12 s, and it was not on hold",
        "Trailer tire, left front: 58 psi (dial gauge to 100 psi), fix",
        "Tobias Fenn, groom",
    ] {
        assert!(rest.contains(said), "{said}\n{rest}");
    }
    assert_eq!(bench.play("qqqq").model.context(), Context::Days);
}

#[test]
fn a_trip_is_read_when_it_is_opened_and_one_that_cannot_be_is_told() {
    let mut bench = barn().play("⏎");
    let asked = update(
        &mut bench.model,
        Msg::Press {
            key: Key::Enter,
            repeat: false,
        },
    );
    assert!(matches!(&asked[..], [Errand::OpenTrip { trip }] if trip == "000003-9f0c11b2"));
    assert_eq!(bench.model.busy(), Some("opening the trip"));
    let cannot = Reply::Cannot("The file cannot be read.".to_owned());
    update(&mut bench.model, Msg::Reply(cannot));
    assert_eq!(bench.model.busy(), None);
    assert_eq!(bench.model.said(), Some("The file cannot be read."));
    assert_eq!(bench.model.context(), Context::Trips);
}

#[test]
fn a_trip_that_cannot_be_looked_at_is_named_with_the_command_that_shows_why() {
    assert!(shown(&barn()).contains("; 1 cannot be looked at: w"));
    let told = shown(&barn().play("w"));
    let command = "hames verify /barn/dev/laptop-7f3a/t/000010-4e1d88c0";
    assert!(told.contains(command), "{told}");
}

#[test]
fn an_empty_logbook_and_one_of_far_off_clocks_are_looked_over_too() {
    let mut empty = year();
    empty.trips.clear();
    let bench = Bench::over(empty, opened(), Filter::default()).play("→⇞⏎rpgocw");
    assert!(shown(&bench).contains("cannot"), "{}", shown(&bench));
    let mut far = year();
    far.trips[0].glance.at = "9999-12-31T23:00:00-05:00".parse().unwrap();
    far.trips[1].glance.at = "0001-01-01T00:10:00-05:00".parse().unwrap();
    let bench = Bench::over(far, opened(), Filter::default()).play("→→↓⇲⇟←↑⏎⏎qq");
    assert!(shown(&bench).contains("December 9999"), "{}", shown(&bench));
    shown(&bench.play("⇱⇞←←↑"));
}

/// Every key there is, and every look.
fn keyboard() -> Vec<Key> {
    let mut keys: Vec<Key> = (' '..='~').map(Key::Char).collect();
    keys.extend("⏎⇥⎋⌫↑↓←→⇞⇟⇱⇲".chars().map(key));
    keys.extend([Key::F(1), Key::F(2), Key::Other]);
    keys
}

#[test]
fn no_key_of_any_of_these_screens_signs_before_a_passphrase_is_typed() {
    let over = stations()
        .iter()
        .filter(|one| one.bench.desk.over.is_some());
    let mut screens = 0;
    for station in over {
        screens += 1;
        for key in keyboard() {
            let mut model = station.bench.clone_with(LOOK).model;
            let asked = update(&mut model, Msg::Press { key, repeat: false });
            let typed = station.name == "trip_key";
            let reads = |errand: &Errand| match errand {
                Errand::LookOver | Errand::LookAtTrends | Errand::OpenTrip { .. } => true,
                Errand::MayCountersign { .. } => station.context == Context::Countersigner,
                Errand::Countersign { .. } => typed && key == Key::Enter,
                _ => false,
            };
            assert!(
                asked.iter().all(reads),
                "{}: {key:?} {asked:?}",
                station.name
            );
        }
    }
    assert!(screens > 7, "{screens}");
}

#[test]
fn before_anything_has_come_it_says_what_it_waits_for_and_that_it_is_the_demo() {
    for (to_make, word) in [
        (true, "making the year of an invented barn"),
        (false, "reading every trip"),
    ] {
        let mut bench = Bench::new();
        let with = (Mode::Demo, Filter::default());
        let (model, asked) = first_lookout(LOOK, bench.desk.now.clone(), with, to_make);
        assert!(matches!(&asked[..], [Errand::LookOver]));
        bench.model = model;
        for (columns, rows) in [(40, 12), (80, 24), (30, 8)] {
            let shown = bench.text(columns, rows);
            assert!(shown.starts_with("DEMO"), "{shown}");
        }
        assert!(shown(&bench).contains(word), "{}", shown(&bench));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn keys_at_random_in_windows_of_any_size_stop_nothing_and_sign_nothing(
        turns in proptest::collection::vec((0usize..4000, 1u16..130, 1u16..50), 1..120),
        ascii in any::<bool>(),
        big in any::<bool>(),
    ) {
        let keys = keyboard();
        let often: Vec<Key> = "⏎⇥↑↓←→⇞⇟⇱⇲rpgoctwqsa1".chars().map(key).collect();
        let look = Look { theme: Theme::Own, colour: false, ascii, big };
        let mut bench = followed().clone_with(look);
        // Nobody types the word yes by chance.
        bench.desk.key_lies = KeyLies::InTheAgent;
        for (dice, columns, rows) in turns {
            update(&mut bench.model, Msg::Resized(columns, rows));
            let keys = if dice % 4 == 0 { &keys } else { &often };
            bench.press(keys[dice / 4 % keys.len()]);
            let frame = bench.frame(columns, rows);
            if columns >= 10 {
                let shown = crate::screens::bench::text(&frame);
                prop_assert!(shown.starts_with("DEMO"), "{shown}");
            }
        }
        prop_assert_eq!(bench.desk.journal.len(), 0);
        prop_assert!(bench.desk.sealed_by.is_none());
        prop_assert_eq!(bench.desk.countersigned, []);
    }
}
