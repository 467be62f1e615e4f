//! Trips that arrive in part are told as such until the rest has come; what was kept aside on the
//! way waits for nothing once the whole is here.

use super::barn::{Files, Way, bring, contents, disk_with, office, put, stated, take, text, trips};
use hames::cli::merge::{Open, Status};
use hames::logbook::merge::Why;
use hames::record::Mode;
use std::path::Path;

fn without(files: &Files, name: &str) -> Files {
    let mut files = files.clone();
    files.retain(|path, _| !path.ends_with(name));
    files
}

#[test]
fn a_trip_that_arrives_in_part_is_named_with_its_files_and_neighbours_until_the_rest_comes() {
    let all = trips("laptop-two", 3);
    let second = Way::of("laptop-two", 2).folder();
    let (two, others): (Files, Files) = all
        .into_iter()
        .partition(|(name, _)| name.starts_with(&second));
    for name in [
        "checklist.yaml",
        "rig.yaml",
        "seal.person.sig",
        "seal.device.sig",
        "seal.json",
    ] {
        let disk = disk_with(&others);
        put(&disk, "/stick", &without(&two, name));
        let looked = hames::cli::merge::merge(&disk, Path::new("/barn"), Path::new("/stick"), true);
        assert_eq!(looked.unwrap().status(), Status::Findings, "{name}");
        for _ in 0..2 {
            let merged = take(&disk, "/stick").unwrap();
            let told = text(&merged);
            assert_eq!(merged.status(), Status::Findings, "{name}: {told}");
            assert!(
                told.contains("in part: trip 2 of laptop-two arrived in part: "),
                "{name}: {told}"
            );
            assert!(told.contains(name), "{told}");
            assert!(
                told.contains("it lies between trip 1 with the receipt "),
                "{told}"
            );
            assert!(
                told.contains("Bring the stick of laptop-two once more"),
                "{told}"
            );
            assert!(!told.contains("nothing is set aside or open"), "{told}");
        }
        let merged = bring(&disk, "again", &two);
        assert_eq!(merged.status(), Status::Fine, "{name}: {}", text(&merged));
        let merged = take(&disk, "/stick").unwrap();
        assert_eq!(merged.status(), Status::Fine, "{name}: {}", text(&merged));
    }
}

#[test]
fn a_trip_without_its_seal_that_nobody_knows_to_be_sealed_is_not_called_in_part() {
    let open = Way {
        sealed: false,
        ..Way::of("laptop-two", 1)
    };
    let disk = disk_with(&Files::new());
    let merged = bring(&disk, "stick", &open.files(None).0);
    assert_eq!(merged.status(), Status::Fine, "{}", text(&merged));
}

#[test]
fn what_waits_in_quarantine_is_told_no_more_once_it_is_here_whole() {
    let mut office = office();
    office.change_crew("odile.marsh", super::barn::crew(), &[]);
    let statement = stated(&office);
    let trip = trips("laptop-two", 1);
    let flipped = |files: &Files, name: &str, at: usize| {
        let mut files = files.clone();
        let mut bytes = files.iter_mut().filter(|(path, _)| path.ends_with(name));
        let bytes = bytes.next().unwrap().1;
        let place = bytes.windows(8).position(|part| part == b"\"wall\":\"");
        let place = if at == 0 { place.unwrap() + 11 } else { at };
        bytes[place] ^= 1;
        files
    };
    let seal = |word: &[u8], behind: usize| {
        let bytes = &trip[&format!("{}/seal.json", Way::of("laptop-two", 1).folder())];
        let at = bytes.windows(word.len()).position(|part| part == word);
        at.unwrap() + behind
    };
    for (what, damaged, whole) in [
        (
            "no signature",
            without(&statement, "statement.sig"),
            &statement,
        ),
        ("no seal", without(&trip, "seal.json"), &trip),
        ("another day", flipped(&trip, "seal.json", 0), &trip),
        (
            "another trip",
            flipped(&trip, "seal.json", seal(b"\"trip\":\"", 9)),
            &trip,
        ),
        (
            "another end",
            flipped(&trip, "seal.json", seal(b"\"last\":\"", 9)),
            &trip,
        ),
        (
            "another statement",
            flipped(&statement, "statement.json", 0),
            &statement,
        ),
    ] {
        let disk = disk_with(&Files::new());
        let merged = bring(&disk, "stick", &damaged);
        assert_eq!(
            merged.status(),
            Status::Findings,
            "{what}: {}",
            text(&merged)
        );
        let aside = merged.aside.len();
        assert!(aside > 0, "{what}");
        bring(&disk, "whole", whole);
        for from in ["/whole", "/stick"] {
            let merged = take(&disk, from).unwrap();
            assert_eq!(
                merged.status(),
                Status::Fine,
                "{what}, {from}: {}",
                text(&merged)
            );
            assert!(
                merged.aside_before >= aside,
                "nothing kept aside is removed"
            );
        }
    }
}

#[test]
fn a_demo_trip_among_real_ones_is_kept_aside_once_and_waits_for_nothing() {
    let demo = Way {
        mode: Mode::Demo,
        ..Way::of("laptop-two", 1)
    };
    let disk = disk_with(&Files::new());
    let mut stick = trips("laptop-one", 1);
    stick.extend(demo.files(None).0);
    let merged = bring(&disk, "stick", &stick);
    assert_eq!(merged.came.len(), 1, "{}", text(&merged));
    let of_mode = |why: &Why| matches!(why, Why::OtherMode { .. });
    assert!(!merged.aside.is_empty(), "{}", text(&merged));
    assert!(
        merged.aside.iter().all(|one| of_mode(&one.why)),
        "{}",
        text(&merged)
    );
    assert!(
        !merged
            .open
            .iter()
            .any(|open| matches!(open, Open::InPart(..)))
    );
    let merged = take(&disk, "/stick").unwrap();
    assert_eq!(merged.status(), Status::Fine, "{}", text(&merged));
}

/// Of one trip two histories, under one folder name, and the signature of the first one's driver.
fn two_histories() -> (Files, Files, Files) {
    let way = Way::of("laptop-two", 1);
    let other = Way { turn: 7, ..way };
    let (first, second) = (way.files(None).0, other.files(None).0);
    let signature = format!("{}/seal.person.sig", way.folder());
    let stray = Files::from([(signature.clone(), first[&signature].clone())]);
    (first, second, stray)
}

#[test]
fn a_signature_beside_a_trip_gives_way_to_the_seal_that_comes_where_it_does_not_sign_that() {
    let (first, second, stray) = two_histories();
    let mut here = without(&second, ".sig");
    here.retain(|path, _| !path.ends_with("seal.json"));
    here.extend(stray);
    let disk = disk_with(&here);
    let told = text(&bring(&disk, "seal", &without(&second, "seal.person.sig")));
    assert!(
        told.contains("does not sign the seal that came for it"),
        "{told}"
    );
    assert!(
        !told.contains("damaged here"),
        "nothing whole is damaged by a merge: {told}"
    );
    assert!(told.contains("seal.person.sig is missing here"), "{told}");
    let merged = bring(&disk, "whole", &second);
    assert_eq!(merged.status(), Status::Fine, "{}", text(&merged));
    assert_eq!(contents(&disk), second.values().cloned().collect());
    // The one that gave way is at hand for its own history.
    let told = text(&bring(&disk, "first", &without(&first, "seal.person.sig")));
    assert!(!told.contains("in part"), "{told}");
    let both = first.values().chain(second.values()).cloned().collect();
    assert_eq!(contents(&disk), both);
    let changes = disk.changes();
    for from in ["/seal", "/whole", "/first"] {
        let told = text(&take(&disk, from).unwrap());
        assert_eq!(disk.changes(), changes, "{told}");
    }
}

#[test]
fn a_signature_that_lies_here_alone_is_found_by_the_seal_that_comes_unsigned() {
    let (first, second, stray) = two_histories();
    let disk = disk_with(&stray);
    let mut stick = Files::new();
    for (at, files) in [&first, &second].into_iter().enumerate() {
        let bare = without(files, ".sig").into_iter();
        stick.extend(bare.map(|(path, bytes)| (format!("{at}/{path}"), bytes)));
    }
    stick.retain(|path, _| !(path.starts_with('1') && path.ends_with("seal.json")));
    let told = text(&bring(&disk, "stick", &stick));
    assert!(!told.contains("waits"), "{told}");
    let mut all = contents(&disk);
    all.retain(|bytes| !second.values().any(|other| other == bytes));
    let signed = without(&first, "seal.device.sig");
    let own = signed
        .values()
        .filter(|bytes| !second.values().any(|other| other == *bytes));
    assert_eq!(all, own.cloned().collect());
    let changes = disk.changes();
    let told = text(&take(&disk, "/stick").unwrap());
    assert_eq!(disk.changes(), changes, "{told}");
}
