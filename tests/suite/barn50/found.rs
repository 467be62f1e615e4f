//! The whole barn through the program: each damage by its word and exit status.

use super::damage::{Damage, damages};
use super::making::{Barn, Files, Left, barn, lay};
use crate::harness::home::{Ended, Home, steady};
use hames::record::{Finding, Opinion};
use std::collections::BTreeSet;
use std::fs;

/// What the program says of a logbook with these files.
pub(super) fn verified(files: &Files) -> Ended {
    let home = Home::new();
    lay(files, &home.path("book"));
    home.hames("verify book").run()
}

fn status(word: &str) -> i32 {
    let row = Finding::TABLE.iter().find(|(known, ..)| *known == word);
    i32::from(row.unwrap().1)
}

#[test]
fn each_damage_is_found_by_its_word_and_its_exit_status() {
    let all: Vec<&Damage> = damages().collect();
    let (left, right) = all.split_at(all.len() / 2);
    let wrong: Vec<String> = std::thread::scope(|scope| {
        let halves = [left, right];
        let held =
            halves.map(|half| scope.spawn(|| half.iter().filter_map(|one| held(one)).collect()));
        let told = held.map(|half| -> Vec<String> { half.join().unwrap() });
        told.concat()
    });
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

/// What is wrong with how a damage is found.
fn held(damage: &Damage) -> Option<String> {
    let ended = verified(&(damage.make)());
    let last = ended.out.lines().last().unwrap_or_default();
    let right = ended.status == status(damage.word)
        && last.ends_with(&format!(": {}", damage.word))
        && damage
            .told
            .iter()
            .all(|told| ended.out.contains(&steady(told)));
    let told: Vec<&str> = ended
        .out
        .lines()
        .filter(|line| !line.contains("  not-countersigned  ") && !line.starts_with("  later"))
        .collect();
    (!right).then(|| {
        format!(
            "{}: {}, status {}\n{}{}",
            damage.what,
            damage.word,
            ended.status,
            told.join("\n"),
            ended.err
        )
    })
}

#[test]
fn no_two_damages_are_the_same_and_most_words_are_there() {
    let names: BTreeSet<&str> = damages().map(|damage| damage.what).collect();
    assert_eq!(names.len(), damages().count());
    let found: BTreeSet<&str> = damages().map(|damage| damage.word).collect();
    let never = [
        "intact",
        "not-countersigned",
        "other-mode",
        "against-the-rules",
    ];
    for (word, ..) in Finding::TABLE {
        assert!(found.contains(word) || never.contains(&word), "{word}");
    }
}

#[test]
fn a_logbook_is_intact_once_a_manager_has_countersigned_every_trip() {
    let mut barn = Barn::founded();
    for laptop in [0, 1, 0] {
        barn.walk(laptop, "wren.ashdown", Left::Sealed);
    }
    barn.countersign(0, Opinion::Agreed);
    barn.countersign(1, Opinion::Agreed);
    let some = verified(&barn.files);
    assert_eq!(some.status, 9, "{}", some.out);
    assert!(some.out.ends_with("3 trips: not-countersigned\n"));
    barn.countersign(2, Opinion::Asked);
    assert_eq!(verified(&barn.files).status, 9, "a question is no yes");
    barn.countersign(2, Opinion::Agreed);
    let all = verified(&barn.files);
    assert_eq!(all.status, 0, "{}", all.out);
    assert!(all.out.ends_with("3 trips: intact\n"), "{}", all.out);
}

#[test]
fn a_statement_that_cannot_be_read_at_all_hides_no_trip() {
    let home = Home::new();
    let barn = barn();
    lay(&barn.files, &home.path("book"));
    let statement = home
        .path("book")
        .join(barn.statement(4))
        .join("statement.json");
    fs::remove_file(&statement).unwrap();
    fs::create_dir(&statement).unwrap();
    let ended = home.hames("verify book").run();
    assert_eq!((ended.status, ended.err.as_str()), (17, ""));
    assert!(ended.out.contains("unreadable: The disk refused to read "));
    assert!(
        ended.out.contains("50 trips: unreadable\n"),
        "{}",
        ended.out
    );
}

#[test]
fn the_roster_counts_for_whoever_trusts_one_of_its_crew_files_and_for_nobody_else() {
    let home = Home::new();
    let barn = barn();
    lay(&barn.files, &home.path("book"));
    home.put("mine", super::making::people(true).text());
    let mine = home.hames("verify book --crew mine").run();
    assert_eq!(mine.status, 10, "{}", mine.out);
    let other = super::making::people(true).text().replace("Wren", "Bren");
    home.put("other", &other);
    let other = home.hames("verify book --crew other").run();
    assert_eq!(other.status, 13, "{}", other.out);
    assert!(
        other
            .out
            .contains("what managers signed leads to no crew file you trust"),
        "{}",
        other.out
    );
    assert!(!other.out.contains("agreed to"), "{}", other.out);
}

#[test]
fn one_trip_of_the_barn_is_judged_with_its_place_in_the_order() {
    let home = Home::new();
    let barn = barn();
    lay(&barn.files, &home.path("book"));
    let tobias = barn
        .trips
        .iter()
        .position(|trip| trip.seq == 17 && trip.device == "laptop-0a11");
    let folder = &barn.trips[tobias.unwrap()].folder;
    let ended = home.hames(&format!("verify book/{folder}")).run();
    assert_eq!(ended.status, 9, "{}", ended.out);
    assert!(
        ended
            .out
            .contains("earlier than statement 6 of Odile Marsh"),
        "{}",
        ended.out
    );
    assert!(!ended.out.contains("nothing after"), "{}", ended.out);
}

#[test]
fn two_copies_of_the_barn_each_with_a_hole_are_whole_together() {
    let home = Home::new();
    let whole = barn();
    for (name, laptop, seq) in [("one", 0, 8), ("two", 1, 9)] {
        let mut copy = whole.clone();
        copy.lose(&whole.trip(laptop, seq).folder);
        lay(&copy.files, &home.path(name));
        assert_eq!(home.hames(&format!("verify {name}")).run().status, 12);
    }
    let ended = home.hames("verify one two").run();
    assert_eq!(ended.status, 10, "{}", ended.out);
}

#[test]
fn the_json_has_the_brackets_the_countersigns_and_the_last_witnesses() {
    let home = Home::new();
    lay(&barn().files, &home.path("book"));
    let ended = home.hames("verify book --json").run();
    let lines: Vec<serde_json::Value> = ended
        .out
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    assert!(lines.iter().all(|line| line["schema"] == "hames-verify/1"));
    let of = |kind: &str| lines.iter().filter(|line| line["kind"] == kind).count();
    assert_eq!(
        (of("trip"), of("newest"), of("note"), of("whole")),
        (50, 3, 1, 1)
    );
    let agreed = lines
        .iter()
        .find(|line| line["countersigns"][0]["by"]["number"] == 2)
        .unwrap();
    assert_eq!(agreed["countersigns"][0]["opinion"], "agreed");
    assert_eq!(agreed["finding"], "intact");
    assert_eq!(agreed["countersigns"][0]["by"]["manager"], "odile.marsh");
    assert_eq!(agreed["later_than"]["number"], 1);
    assert_eq!(agreed["earlier_than"]["number"], 2);
    assert_eq!(
        agreed["earlier_than"]["clock"],
        "2026-11-25T18:00:00.000-05:00"
    );
}
