//! Whole logbooks, judged by the program as its user runs it and by the second verifier.

use super::bench::{Folder, VERIFIER, run, second};
use crate::architecture::root;
use crate::cli::verify::{copy, two_trips};
use crate::harness::home::{Home, files_below, trip};
use crate::record_trip::{Trip, crew};
use hames::logbook::order::{Order, OrderFault};
use hames::record::{Finding, Previous, Seal, Statements};
use std::fs;
use std::path::Path;

const SHORT: &str = "open\n see down\n end incomplete: the vet called";

/// What is done to a copy of a logbook.
type Damage<'a> = &'a dyn Fn(&Path);

/// The finding of the whole and the exit status, by both.
#[track_caller]
fn whole(home: &Home, name: &str) -> (String, i32) {
    let ours = home.hames(&format!("verify {name}")).run();
    let word = ours.out.trim_end().rsplit(": ").next().unwrap();
    // Which countersign counts, it does not ask.
    let (word, status) = match word {
        "not-countersigned" => ("intact", 0),
        word => (word, ours.status),
    };
    let told = second(&[home.path(name).into()]);
    let theirs = told.lines.last().unwrap().1.clone();
    assert_eq!(
        (word, status),
        (theirs.as_str(), told.status),
        "\n{}\n{}",
        ours.out,
        told.all
    );
    (word.to_owned(), status)
}

#[test]
fn both_its_files_find_the_stored_logbook_as_it_was_written() {
    let logbook = root().join("tests/vectors/logbook/v1");
    // No manager has countersigned it, which the first does not ask.
    for (verifier, status) in [(VERIFIER, 0), ("tests/second/logbook.py", 9)] {
        let told = run(verifier, &[logbook.clone().into()]);
        assert_eq!(told.status, status, "{}", told.all);
        assert!(told.lines.len() > 3, "{}", told.all);
    }
}

#[test]
fn both_find_every_kind_of_damage_to_a_logbook() {
    let home = two_trips();
    let below = |number: usize, name: &str| {
        let folder = trip(&home.demo(), number);
        let folder = folder.strip_prefix(home.demo()).unwrap().to_owned();
        folder.join(name)
    };
    let edit = |at: &Path, change: &dyn Fn(String) -> String| {
        let text = fs::read_to_string(at).unwrap();
        fs::write(at, change(text)).unwrap();
    };
    let damages: [(&str, Damage<'_>); 12] = [
        ("intact", &|_| {}),
        ("unsealed", &|at| {
            fs::remove_file(at.join(below(2, "seal.json"))).unwrap();
        }),
        ("truncated", &|at| {
            fs::remove_file(at.join(below(1, "seal.device.sig"))).unwrap();
        }),
        ("gap", &|at| {
            fs::remove_dir_all(at.join(below(1, ""))).unwrap();
        }),
        ("intact", &|at| {
            fs::remove_dir_all(at.join(below(2, ""))).unwrap();
        }),
        ("truncated", &|at| {
            edit(&at.join(below(2, "trip.jsonl")), &|text| {
                let cut = text.trim_end().rfind('\n').unwrap() + 1;
                text[..cut].to_owned()
            });
        }),
        ("altered", &|at| {
            edit(&at.join(below(1, "trip.jsonl")), &|text| {
                text.replacen("Tobias", "Tobios", 1)
            });
        }),
        ("altered", &|at| {
            edit(&at.join(below(1, "rig.yaml")), &|text| {
                text.replacen("800 lb", "900 lb", 1)
            });
        }),
        ("altered", &|at| {
            edit(&at.join(below(2, "trip.jsonl")), &|text| {
                text.replace('\n', "\r\n")
            });
        }),
        ("altered", &|at| {
            fs::rename(
                at.join(below(2, "")),
                at.join(below(1, "")).with_file_name("000003-00000000"),
            )
            .unwrap();
        }),
        ("altered", &|at| {
            let one = at.join(below(1, "seal.json"));
            fs::copy(at.join(below(2, "seal.json")), one).unwrap();
        }),
        ("unreadable", &|at| {
            fs::write(at.join(below(1, "trip.jsonl")), "").unwrap();
        }),
    ];
    for (number, (word, damage)) in (1..).zip(damages) {
        let name = format!("copy-{number}");
        copy(&home.demo(), &home.path(&name));
        damage(&home.path(&name));
        assert_eq!(whole(&home, &name).0, word, "damage {number}");
        fs::remove_dir_all(home.path(&name)).unwrap();
    }
}

/// Trips 1 to 5 of one laptop, each quoting the one before.
fn trips() -> Vec<Trip> {
    let mut trips: Vec<Trip> = Vec::new();
    for seq in 1..=5 {
        let seal = |trip: &Trip| Previous::Sealed(Seal::hash(trip.seal.as_ref().unwrap()));
        trips.push(Trip::numbered(seq, trips.last().map(seal), SHORT));
    }
    trips
}

/// The gravest fault in the order of these trips, by both.
#[track_caller]
fn order(trips: &[&Trip]) -> &'static str {
    let home = Home::new();
    let mut arguments = Vec::new();
    let file = home.path("crew");
    fs::write(&file, crew().text()).unwrap();
    arguments.push(format!("--crew={}", file.display()).into());
    for (at, trip) in trips.iter().enumerate() {
        let at = home.path(&format!("{at:05}"));
        Folder::of(trip).write(&at);
        arguments.push(at.into());
    }
    let statements = Statements::default();
    let mut ours = Order::new(&statements);
    for trip in trips {
        ours.take(&trip.verified());
    }
    let faults = ours.judge().faults;
    let ours = faults.iter().map(OrderFault::finding);
    let told = second(&arguments);
    let theirs = told.lines.iter().filter(|(name, _)| name == "order");
    let theirs: Vec<&str> = theirs.map(|(_, word)| word.as_str()).collect();
    assert_eq!(
        ours.clone().map(Finding::word).collect::<Vec<_>>(),
        theirs,
        "{}",
        told.all
    );
    ours.max().unwrap_or(Finding::Intact).word()
}

#[test]
fn both_find_gaps_forks_and_trips_that_end_otherwise_than_the_next_one_says() {
    let trips = trips();
    let all: Vec<&Trip> = trips.iter().collect();
    assert_eq!(order(&all), "intact");
    assert_eq!(order(&all[..4]), "intact");
    for gone in 0..4 {
        let mut left = all.clone();
        left.remove(gone);
        assert_eq!(order(&left), "gap");
    }
    let mut backwards = [&all[..], &all[..]].concat();
    backwards.reverse();
    assert_eq!(order(&backwards), "intact");
    let quoted = Previous::Sealed(Seal::hash(trips[1].seal.as_ref().unwrap()));
    let other = Trip::numbered(3, Some(quoted), "open\n end incomplete: rain");
    assert_eq!(order(&[&all[..], &[&other]].concat()), "fork");
    let changed = [&all[..2], &[&other], &all[3..]].concat();
    assert_eq!(order(&changed), "fork");
    let full = Trip::numbered(1, None, "open\n see down\n open");
    let last = hames::record::read_chain(&full.journal).tip().last;
    let next = Trip::numbered(2, Some(Previous::Unsealed(last)), SHORT);
    assert_eq!(order(&[&full, &next]), "intact");
    let mut cut = full.clone();
    let end = cut
        .journal
        .trim_ascii_end()
        .iter()
        .rposition(|byte| *byte == b'\n');
    cut.journal.truncate(end.unwrap() + 1);
    assert_eq!(order(&[&cut, &next]), "truncated");
    let mut unsealed = trips[0].clone();
    unsealed.seal = None;
    assert_eq!(order(&[&unsealed, &trips[1]]), "truncated");
}

#[test]
fn it_writes_nothing_beside_what_it_reads() {
    let home = two_trips();
    let before = files_below(&home.demo());
    let told = second(&[home.demo().into()]);
    assert_eq!(told.status, 0, "{}", told.all);
    assert_eq!(files_below(&home.demo()), before);
}
