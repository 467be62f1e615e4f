//! A folder in the place of a file is told with what moves it away, and hides nothing else; what a file
//! sync copied beside the places of a logbook is moved aside once all of it lies in its own place.

use super::barn::{
    Files, Way, bring, contents, crew, disk_with, names, office, stated, take, text,
};
use super::barn::{put, trips};
use crate::store::pretend::Pretend;
use hames::cli::merge::{Status, merge};
use hames::store::{Disk, Mode};
use std::path::{Path, PathBuf};

fn statement() -> Files {
    let mut office = office();
    office.change_crew("odile.marsh", crew(), &[]);
    stated(&office)
}

/// A logbook with these files, and a folder in the place of one of them.
fn disk_without(files: &Files, name: &str) -> (Pretend, PathBuf) {
    let mut files = files.clone();
    files.remove(name).unwrap();
    let disk = disk_with(&files);
    let place = Path::new("/barn").join(name);
    disk.make_folder(&place, Mode::Shared).unwrap();
    (disk, place)
}

/// What the printed command does.
fn move_away(disk: &Pretend, place: &Path, told: &str) {
    let away = PathBuf::from(format!("{}.moved", place.display()));
    let command = format!("mv {} {}", place.display(), away.display());
    assert!(told.contains(&command), "{told}");
    disk.rename(place, &away).unwrap();
}

#[test]
fn a_folder_in_the_place_of_a_file_of_a_trip_is_told_and_the_rest_goes_on() {
    let all = trips("laptop-two", 2);
    let first = Way::of("laptop-two", 1).folder();
    for name in ["trip.jsonl", "rig.yaml", "seal.json", "seal.person.sig"] {
        let mut here = all.clone();
        here.retain(|path, _| path.starts_with(&first));
        let (disk, place) = disk_without(&here, &format!("{first}/{name}"));
        let merged = bring(&disk, "stick", &all);
        let told = text(&merged);
        assert_eq!(merged.status(), Status::Findings, "{name}: {told}");
        assert!(
            told.contains("is no file, and a file of a record"),
            "{told}"
        );
        assert!(told.contains("came: trip 2 of laptop-two"), "{told}");
        assert!(merged.aside.is_empty(), "{name}: {told}");
        let changes = disk.changes();
        drop(take(&disk, "/stick").unwrap());
        assert_eq!(disk.changes(), changes, "{name}: {told}");
        move_away(&disk, &place, &told);
        let merged = take(&disk, "/stick").unwrap();
        assert_eq!(merged.status(), Status::Fine, "{name}: {}", text(&merged));
        assert_eq!(contents(&disk), all.values().cloned().collect(), "{name}");
    }
}

#[test]
fn a_folder_in_the_place_of_a_statements_file_stops_the_merge_before_anything_is_taken() {
    let whole = statement();
    for name in whole.keys() {
        let (disk, place) = disk_without(&whole, name);
        let mut stick = whole.clone();
        stick.extend(trips("laptop-two", 1));
        put(&disk, "/stick", &stick);
        let changes = disk.changes();
        let stopped = take(&disk, "/stick").unwrap_err();
        assert_eq!(stopped.status, Status::Store, "{name}");
        assert!(stopped.sentence.starts_with("Nothing was merged: "));
        assert_eq!(disk.changes(), changes, "{name}");
        move_away(&disk, &place, &stopped.sentence);
        let merged = take(&disk, "/stick").unwrap();
        assert_eq!(merged.status(), Status::Fine, "{name}: {}", text(&merged));
        assert_eq!(contents(&disk), stick.into_values().collect(), "{name}");
    }
}

/// The same files, each with this in its path instead of that.
fn renamed(files: &Files, from: &str, to: &str) -> Files {
    let files = files.iter().filter(|(path, _)| path.contains(from));
    let files = files.map(|(path, bytes)| (path.replace(from, to), bytes.clone()));
    files.collect()
}

/// A logbook, and what a sync left in it: the copies, and the places that hold what is in them.
fn copied() -> Vec<(&'static str, Files, Files)> {
    let (trips, statement) = (trips("laptop-two", 2), statement());
    let crew = crew().text().as_bytes().to_vec();
    let name =
        |bytes: &[u8]| Files::from([("crew/allowed_signers (1)".to_owned(), bytes.to_vec())]);
    let folder = statement.keys().next().unwrap();
    let folder = folder.rsplit_once('/').unwrap().0;
    let device = renamed(&trips, "/laptop-two/", "/laptop-two (1)/");
    let other = renamed(&statement, folder, &format!("{folder} - Copy"));
    let manager = renamed(&statement, "/odile.marsh/", "/odile.marsh (1)/");
    let mut cases = vec![
        ("the folder of a device", trips, device),
        ("the folder of a statement", statement.clone(), other),
        ("a manager's folder", statement.clone(), manager),
        ("the crew file", Files::new(), name(&crew)),
        ("half the crew file", Files::new(), name(&crew[..300])),
    ];
    for (what, from, to) in [
        ("a statement", "/statement.json", "/statement (1).json"),
        (
            "a signature",
            "/statement.sig",
            "/statement.sync-conflict-20261126-114500-7Q2M4K8.sig",
        ),
        (
            "the crew file of a statement",
            "/allowed_signers",
            "/allowed_signers (Wren's conflicted copy 2026-11-26)",
        ),
    ] {
        let copy = renamed(&statement, from, to);
        let mut half = copy.clone();
        for bytes in half.values_mut() {
            bytes.truncate(200);
        }
        let mut flipped = copy.clone();
        for bytes in flipped.values_mut() {
            bytes[150] ^= 1;
        }
        let mut ends = copy.clone();
        for bytes in ends.values_mut() {
            *bytes = String::from_utf8_lossy(bytes)
                .replace('\n', "\r\n")
                .into_bytes();
        }
        for copy in [copy, half, flipped, ends] {
            cases.push((what, statement.clone(), copy));
        }
    }
    cases
}

#[test]
fn copies_of_what_is_no_trip_are_moved_aside_where_all_of_them_lies_in_its_place() {
    for (what, here, copies) in copied() {
        let disk = disk_with(&here);
        let whole = names(&disk);
        put(&disk, "/barn", &copies);
        let changes = disk.changes();
        let barn = Path::new("/barn");
        let looked = merge(&disk, barn, barn, true).unwrap();
        assert_eq!(disk.changes(), changes, "{what}");
        let merged = take(&disk, "/barn").unwrap();
        assert_eq!(looked.mended, merged.mended, "{what}");
        let told = text(&merged);
        assert_eq!(merged.status(), Status::Fine, "{what}: {told}");
        assert!(told.contains("moved aside: "), "{what}: {told}");
        let mut left = names(&disk);
        left.retain(|name| !name.starts_with("quarantine/"));
        assert_eq!(left, whole, "{what}: {told}");
        for bytes in copies.values() {
            let kept = disk.files().into_iter();
            let mut kept = kept.filter(|path| path.starts_with("/barn/quarantine"));
            assert!(
                kept.any(|path| disk.seen(&path).as_ref() == Some(bytes)),
                "{what}"
            );
        }
        let changes = disk.changes();
        let told = text(&take(&disk, "/barn").unwrap());
        assert_eq!(disk.changes(), changes, "{what}: {told}");
    }
}

#[test]
fn a_copy_with_anything_of_its_own_in_it_stays() {
    for (what, here, mut copies) in copied() {
        let (name, bytes) = copies.pop_first().unwrap();
        copies.insert(name.clone(), [b"# ours\n", bytes.as_slice()].concat());
        let disk = disk_with(&here);
        put(&disk, "/barn", &copies);
        let before = names(&disk);
        let merged = take(&disk, "/barn").unwrap();
        let mut left = names(&disk);
        left.retain(|name| !name.starts_with("quarantine/"));
        let told = text(&merged);
        assert_eq!(left, before, "{what}: {told}");
        let named = format!("set aside: /barn/{}", name.escape_debug());
        assert!(told.contains(&named), "{told}");
    }
}
