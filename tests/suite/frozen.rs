//! A whole logbook of an earlier day: three sealed trips of one laptop with their crew file, as
//! version 1 stored them. Its files are never edited; a program that finds anything wrong with
//! them is wrong itself.
//!
//! `tests/vectors/logbook/v1` was written once, by
//! `frozen::a_logbook_as_it_is_stored_today_is_well_and_lies_ready_to_be_frozen`, which walks a
//! small list with the clerk, in a world of the test's own, and leaves the folder
//! `logbook-to-freeze` below `target/tmp`. A later version gets a folder beside it.

pub(crate) mod ride;

use crate::architecture::root;
use crate::harness::home::{Home, files_below};
use crate::sim::actor;
use crate::sim::barn::{self, SMALL, passphrase};
use crate::sim::dice::Dice;
use crate::sim::laptop::Laptop;
use crate::sim::law::Finding;
use hames::desk::{Errand, Reply};
use hames::walk::{Act, Ended, Now};
use std::fs;
use std::path::{Path, PathBuf};

/// What each trip ended as.
const ENDED: [&str; 3] = ["complete", "not-fit-to-go", "abandoned"];

fn frozen() -> PathBuf {
    root().join("tests/vectors/logbook/v1")
}

/// Intact, with or without a manager's word on it: nobody in the office has read it.
const WELL: [Finding; 2] = [Finding::Intact, Finding::NotCountersigned];

fn is_well(line: &str) -> bool {
    WELL.iter().any(|well| line.contains(well.word()))
}

fn copied(to: &Path) {
    for file in files_below(&frozen()) {
        fs::create_dir_all(to.join(&file).parent().unwrap()).unwrap();
        fs::copy(frozen().join(&file), to.join(&file)).unwrap();
    }
}

/// The journal of the trip with this number.
fn journal(logbook: &Path, number: u64) -> PathBuf {
    let start = format!("dev/barn-laptop/t/{number:06}-");
    let of_trip = |file: &&String| file.starts_with(&start) && file.ends_with("trip.jsonl");
    let files = files_below(logbook);
    logbook.join(files.iter().find(of_trip).unwrap())
}

#[test]
fn a_logbook_of_version_1_is_intact_to_the_program() {
    let home = Home::new();
    let told = home
        .hames(&format!("verify --json {}", frozen().display()))
        .run();
    let statuses = WELL.map(|well| i32::from(well.status()));
    assert!(statuses.contains(&told.status), "{told:?}");
    let trips: Vec<&str> = told
        .out
        .lines()
        .filter(|line| line.contains("\"kind\":\"trip\""))
        .collect();
    assert_eq!(trips.len(), ENDED.len(), "{told:?}");
    for (trip, ended) in trips.iter().zip(ENDED) {
        for part in [
            "\"device\":\"barn-laptop\"".to_owned(),
            format!("\"outcome\":\"{ended}\""),
        ] {
            assert!(trip.contains(&part), "{part} in {trip}");
        }
    }
    let mut found = told.out.lines().filter(|line| line.contains("\"finding\""));
    assert!(found.all(is_well), "{}", told.out);
}

#[test]
fn its_lines_are_all_of_version_1_and_of_many_kinds() {
    let mut kinds = std::collections::BTreeSet::new();
    for number in 1..=3 {
        for line in fs::read_to_string(journal(&frozen(), number))
            .unwrap()
            .lines()
        {
            assert!(line.starts_with("{\"v\":1,"), "{line}");
            let (_, kind) = line.split_once("\"kind\":\"").unwrap();
            kinds.insert(kind.split('"').next().unwrap().to_owned());
        }
    }
    assert!(kinds.len() >= 10, "{kinds:?}");
}

#[test]
fn a_line_of_a_version_that_is_not_known_is_refused_with_the_way_out_and_not_guessed_at() {
    let home = Home::new();
    copied(&home.path("barn"));
    let journal = journal(&home.path("barn"), 3);
    let text = fs::read_to_string(&journal).unwrap();
    fs::write(&journal, text.replacen("{\"v\":1,", "{\"v\":9,", 1)).unwrap();
    let told = home.hames("verify barn").run();
    assert_eq!(
        told.status,
        i32::from(Finding::Unreadable.status()),
        "{told:?}"
    );
    for part in ["version 9", "use a newer Hames"] {
        assert!(told.out.contains(part), "{part} in {}", told.out);
    }
    let well = told
        .out
        .lines()
        .filter(|line| line.starts_with("00000") && is_well(line));
    assert_eq!(
        well.count(),
        2,
        "the other trips are told as ever: {}",
        told.out
    );
}

#[test]
fn a_logbook_as_it_is_stored_today_is_well_and_lies_ready_to_be_frozen() {
    let mut laptop = Laptop::new("barn-laptop", barn::disk("barn-laptop"), 1);
    laptop.open(&SMALL);
    let ends = [Ended::Complete, Ended::NotFitToGo, Ended::Abandoned];
    for (seed, ended) in (5..).zip(ends) {
        walked(&mut laptop, ended, seed);
    }
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("logbook-to-freeze");
    // What an earlier run left there may be of other trips.
    drop(fs::remove_dir_all(&folder));
    for path in laptop.disk.files() {
        let below = path.strip_prefix(barn::ROOT).unwrap();
        // Keys are nobody else's, and a hold and what a draft left are no record.
        let name = below.file_name().unwrap().to_str().unwrap();
        if !below.starts_with("keys") && name != "hold" && !name.contains(".draft-") {
            let to = folder.join(below);
            fs::create_dir_all(to.parent().unwrap()).unwrap();
            fs::write(to, laptop.disk.seen(&path).unwrap()).unwrap();
        }
    }
    let home = Home::new();
    let verify = home.hames("verify").argument(folder.to_str().unwrap());
    assert_eq!(verify.run().status, 9);
}

/// A walk by dice, of good answers and bad, that comes to this end and is sealed.
fn walked(laptop: &mut Laptop, ended: Ended, seed: u64) {
    let mut dice = Dice::new(seed);
    let begin = Errand::Begin {
        rig: "juniper".into(),
        checklist: "small".into(),
        reader: "Wren Ashdown".into(),
        doer: "Tobias Fenn".into(),
        odometer: "48210 mi".into(),
        walked: String::new(),
        answers: Vec::new(),
    };
    assert!(matches!(laptop.perform(begin), Reply::Walking { .. }));
    for acts in 0.. {
        let walk = laptop.in_hand.as_ref().unwrap().walk.clone();
        if matches!(walk.now(), Now::Ended(_)) {
            break;
        }
        let mut act = actor::next(&walk, &mut dice);
        let early = matches!(act, Act::End { .. }) && walk.now() != Now::Finished;
        if acts > 25 && ended != Ended::Complete {
            act = Act::End {
                outcome: ended,
                words: actor::words(&mut dice),
            };
        } else if early {
            continue;
        }
        laptop.world.pass(20_000);
        laptop.act(act);
    }
    let walk = laptop.in_hand.as_ref().unwrap().walk.clone();
    assert_eq!(walk.now(), Now::Ended(ended));
    let people = barn::PEOPLE.iter();
    let (who, ..) = people
        .clone()
        .find(|(_, name, _)| walk.is_walked_by(name))
        .unwrap();
    let (signer, passphrase) = ((*who).to_owned(), passphrase(who));
    let consent = hames::desk::Consent::Passphrase(passphrase);
    let reply = laptop.perform(Errand::Seal { signer, consent });
    assert!(matches!(reply, Reply::Sealed(_)), "{reply:?}");
}
