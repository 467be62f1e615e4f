//! What an editor or a system renamed: a file is what its bytes say, under a name that begins with a
//! point as well. What is no record there is named, and what a system notes about a file is nothing.

use super::barn::{
    Files, Way, bring, contents, crew, disk_with, names, office, stated, take, text,
};
use super::barn::{put, trips};
use crate::harness::home::Home;
use hames::cli::merge::Status;
use std::fs;

/// How an editor, a sync and a system name what they put beside a file.
const HOW: [&str; 4] = [".{}.swp", "._{}", ".{}.Ab3xQ9", ".syncthing.{}.tmp"];

fn hidden(files: &Files, name: &str, how: &str) -> Files {
    let files = files.clone().into_iter().map(|(path, bytes)| {
        let (folder, file) = path.rsplit_once('/').unwrap();
        let is = file == name;
        let file = if is {
            how.replace("{}", file)
        } else {
            file.to_owned()
        };
        (format!("{folder}/{file}"), bytes)
    });
    files.collect()
}

fn statement() -> Files {
    let mut office = office();
    office.change_crew("odile.marsh", crew(), &[]);
    stated(&office)
}

#[test]
fn a_record_under_a_name_with_a_point_comes_as_under_its_own() {
    for how in HOW {
        for name in [
            "trip.jsonl",
            "checklist.yaml",
            "rig.yaml",
            "seal.json",
            "seal.person.sig",
            "statement.json",
            "statement.sig",
            "allowed_signers",
        ] {
            let mut stick = trips("laptop-two", 2);
            stick.extend(statement());
            let disk = disk_with(&Files::new());
            let merged = bring(&disk, "stick", &hidden(&stick, name, how));
            let told = text(&merged);
            assert_eq!(merged.status(), Status::Fine, "{name} {how}: {told}");
            let whole: std::collections::BTreeSet<_> = stick.into_values().collect();
            assert_eq!(contents(&disk), whole, "{name} {how}: {told}");
        }
    }
    // Under a name that says nothing at all.
    let disk = disk_with(&Files::new());
    let all = trips("laptop-two", 1);
    let merged = bring(&disk, "stick", &hidden(&all, "trip.jsonl", ".nfs0000a1"));
    assert_eq!(merged.came.len(), 1, "{}", text(&merged));
}

#[test]
fn what_was_renamed_in_a_logbook_is_put_back_by_a_merge_with_itself() {
    let mut all = trips("laptop-two", 2);
    all.extend(statement());
    for how in HOW {
        for name in [
            "trip.jsonl",
            "checklist.yaml",
            "rig.yaml",
            "seal.json",
            "statement.json",
        ] {
            let disk = disk_with(&hidden(&all, name, how));
            let merged = take(&disk, "/barn").unwrap();
            let told = text(&merged);
            assert!(!told.contains("gap: "), "{name} {how}: {told}");
            assert_eq!(merged.status(), Status::Fine, "{name} {how}: {told}");
            let mut left = names(&disk);
            left.retain(|name| !name.starts_with("quarantine/") && !name.ends_with("/hold"));
            assert_eq!(left, names(&disk_with(&all)), "{name} {how}: {told}");
            let changes = disk.changes();
            let told = text(&take(&disk, "/barn").unwrap());
            assert_eq!(disk.changes(), changes, "{name} {how}: {told}");
        }
    }
}

#[test]
fn what_an_editor_has_of_its_own_beside_a_trip_is_named_and_left() {
    let folder = Way::of("laptop-two", 1).folder();
    let mut stick = trips("laptop-two", 1);
    for (name, bytes) in [
        (".trip.jsonl.swp", &b"b0VIM 9.0\0\0"[..]),
        ("._trip.jsonl", b"\0\x05\x16\x07\0"),
        (".DS_Store", b"\0\0\0\x01Bud1"),
        (".seal.json.draft-7", b"{\"v\":1}\n"),
    ] {
        stick.insert(format!("{folder}/{name}"), bytes.to_vec());
    }
    let disk = disk_with(&Files::new());
    for _ in 0..2 {
        put(&disk, "/stick", &stick);
        let merged = take(&disk, "/stick").unwrap();
        let told = text(&merged);
        assert_eq!(merged.status(), Status::Fine, "{told}");
        let named = format!("left alone: 1 file is no record: /stick/{folder}/.trip.jsonl.swp\n");
        assert!(told.contains(&named), "{told}");
    }
}

#[test]
fn verify_knows_a_trips_own_journal_under_another_name_and_names_the_merge() {
    let home = Home::new();
    let mut all = super::barn::founded();
    all.extend(trips("laptop-two", 2));
    for (at, how) in (1..).zip([".{}.swp", "{} (1)"]) {
        let root = home.path(&format!("barn-{at}"));
        for (name, bytes) in hidden(&all, "trip.jsonl", how) {
            let path = root.join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, bytes).unwrap();
        }
        let told = home.hames(&format!("verify barn-{at}")).run().out;
        let name = how.replace("{}", "trip.jsonl");
        let said = format!("{name} is this trip's journal under another name; to have it put back");
        assert!(told.contains(&said), "{told}");
        assert!(told.contains("run hames logbook merge "), "{told}");
        assert!(!told.contains("does not belong here"), "{told}");
    }
}
