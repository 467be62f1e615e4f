//! What is damaged here gives way to what is whole there and is kept aside; what is there twice is
//! moved aside; what may hold something of its own stays, and stays told.

use super::barn::{
    Files, Way, bring, contents, crew, disk_with, founded, office, put, stated, take, text, trips,
};
use crate::record_trip::{id, words};
use crate::store::pretend::Pretend;
use hames::cli::merge::{Mended, Merged, Open, Status};
use hames::record::{Changed, LossAccepted, Says};
use std::collections::BTreeSet;
use std::path::Path;

/// What becomes of a file on a bad disk, or under an editor.
type Spoil = fn(&[u8]) -> Vec<u8>;

const SPOILS: [(&str, Spoil); 7] = [
    ("emptied", |_| Vec::new()),
    ("cut in the middle", |bytes| {
        bytes[..bytes.len() / 2].to_vec()
    }),
    ("cut by a byte", |bytes| bytes[..bytes.len() - 1].to_vec()),
    ("with more behind it", |bytes| [bytes, b"\0more\n"].concat()),
    ("with half a line behind it", |bytes| {
        [bytes, b"{\"v\":1,\"i\":"].concat()
    }),
    ("with a hole in it", |bytes| {
        let mut bytes = bytes.to_vec();
        let middle = bytes.len() / 2;
        bytes[middle..middle + 4].fill(0);
        bytes
    }),
    ("with other line ends", |bytes| {
        let text = String::from_utf8(bytes.to_vec()).unwrap();
        text.replace('\n', "\r\n").into_bytes()
    }),
];

/// What is kept aside.
fn aside(disk: &Pretend) -> BTreeSet<Vec<u8>> {
    let files = disk.files().into_iter();
    let kept =
        files.filter(|path| path.starts_with("/barn/quarantine") && path.ends_with("as-found"));
    kept.map(|path| disk.seen(&path).unwrap()).collect()
}

/// Every file of records by name.
fn records(disk: &Pretend) -> Files {
    let files = disk.files().into_iter();
    let ours =
        files.filter(|path| !path.starts_with("/barn/quarantine") && !path.ends_with("hold"));
    let below = ours.filter_map(|path| {
        let name = path.strip_prefix("/barn").ok()?.to_str()?.to_owned();
        Some((name, disk.seen(&path)?))
    });
    below
        .filter(|(name, _)| name.starts_with("dev") || name.starts_with("mgr"))
        .collect()
}

/// A second merge of the same has nothing to say.
fn settled(disk: &Pretend, from: &str) {
    let changes = disk.changes();
    let merged = take(disk, from).unwrap();
    assert_eq!(disk.changes(), changes, "{}", text(&merged));
    assert!(
        merged.mended.is_empty() && merged.status() == Status::Fine,
        "{}",
        text(&merged)
    );
}

#[track_caller]
fn is_as(disk: &Pretend, files: &Files, told: &str) {
    let here = records(disk);
    let names: Vec<&String> = here.keys().collect();
    assert!(here == *files, "{names:?}: {told}");
}

fn with(files: &Files, name: &str, bytes: &[u8]) -> Files {
    let mut files = files.clone();
    files.insert(name.to_owned(), bytes.to_vec());
    files
}

#[test]
fn any_damaged_file_of_a_sealed_trip_is_healed_by_a_whole_copy_and_kept_aside() {
    let trip = trips("laptop-one", 1);
    for (name, bytes) in &trip {
        for (how, spoil) in SPOILS {
            let spoilt = spoil(bytes);
            let disk = disk_with(&with(&trip, name, &spoilt));
            let merged = bring(&disk, "stick", &trip);
            let told = text(&merged);
            is_as(&disk, &trip, &format!("{name} {how}: {told}"));
            assert!(aside(&disk).contains(&spoilt), "{name} {how}: {told}");
            assert!(
                told.contains("healed: trip 1 of laptop-one was damaged here ("),
                "{told}"
            );
            assert_eq!(merged.status(), Status::Fine, "{name} {how}: {told}");
            settled(&disk, "/stick");
        }
    }
}

#[test]
fn all_files_of_a_trip_damaged_at_once_are_healed() {
    let trip = trips("laptop-one", 1);
    for (how, spoil) in SPOILS {
        let spoilt = trip
            .iter()
            .map(|(name, bytes)| (name.clone(), spoil(bytes)));
        let disk = disk_with(&spoilt.collect());
        let merged = bring(&disk, "stick", &trip);
        is_as(&disk, &trip, &format!("{how}: {}", text(&merged)));
        settled(&disk, "/stick");
    }
}

#[test]
fn two_copies_each_damaged_elsewhere_make_one_whole() {
    let trip = trips("laptop-one", 1);
    let names: Vec<&String> = trip.keys().collect();
    for one in &names {
        for other in names.iter().filter(|other| *other != one) {
            let here = with(&trip, one, &SPOILS[5].1(&trip[*one]));
            let there = with(&trip, other, &SPOILS[5].1(&trip[*other]));
            let disk = disk_with(&here);
            let merged = bring(&disk, "stick", &there);
            assert!(records(&disk) == trip, "{one}, {other}: {}", text(&merged));
        }
    }
}

/// What one bad byte, or an editor, makes of the first or the last line of a journal.
const LINES: [(&str, &str, &str); 6] = [
    (
        "what the last line says",
        "the vet called",
        "the vet balled",
    ),
    (
        "who says it",
        "Wren Ashdown\",\"kind\":\"ended",
        "Wren Ashdowm\",\"kind\":\"ended",
    ),
    ("the name of a field", "\"outcome\"", "\"outc/me\""),
    ("more than a byte", "the vet called", "all is well"),
    ("the trip", "\"trip\":\"9f0c", "\"trip\":\"9f0d"),
    (
        "who began it",
        "Wren Ashdown\",\"kind\":\"begun",
        "Wren Ashdowm\",\"kind\":\"begun",
    ),
];

/// What was done, the damaged files, and the journal among them.
type BadLine = (&'static str, Files, Vec<u8>);

/// A sealed trip, whole; and with each such line, and the journal that has it.
fn with_bad_lines() -> (Files, Vec<BadLine>) {
    let trip = trips("laptop-one", 1);
    let journal = format!("{}/trip.jsonl", Way::of("laptop-one", 1).folder());
    let text = String::from_utf8(trip[&journal].clone()).unwrap();
    let bad = LINES.map(|(what, from, to)| {
        assert_eq!(text.matches(from).count(), 1, "{what}: {text}");
        let bad = text.replace(from, to).into_bytes();
        (what, with(&trip, &journal, &bad), bad)
    });
    (trip, bad.to_vec())
}

#[test]
fn a_first_or_last_line_changed_here_under_its_seal_is_damage_and_healed_by_a_whole_copy() {
    let (trip, bad) = with_bad_lines();
    for (what, files, journal) in bad {
        let disk = disk_with(&files);
        let merged = bring(&disk, "stick", &trip);
        let told = text(&merged);
        is_as(&disk, &trip, &format!("{what}: {told}"));
        assert!(aside(&disk).contains(&journal), "{what}: {told}");
        assert!(
            told.contains("healed: trip 1 of laptop-one"),
            "{what}: {told}"
        );
        for untrue in ["another history", "fork:", "own trips", "damaged here: "] {
            assert!(!told.contains(untrue), "{what}: {told}");
        }
        assert_eq!(merged.status(), Status::Fine, "{what}: {told}");
        settled(&disk, "/stick");
        // The damaged copy, brought once more, changes nothing.
        put(&disk, "/bad", &files);
        settled(&disk, "/bad");
    }
}

#[test]
fn a_first_or_last_line_changed_on_a_stick_is_kept_aside_and_is_no_other_history() {
    let (trip, bad) = with_bad_lines();
    for (what, files, journal) in bad {
        for sealed in [true, false] {
            let mut files = files.clone();
            files.retain(|name, _| sealed || name.ends_with("trip.jsonl"));
            let disk = disk_with(&trip);
            let told = text(&bring(&disk, "bad", &files));
            is_as(&disk, &trip, &format!("{what}: {told}"));
            assert!(aside(&disk).contains(&journal), "{what}: {told}");
            for untrue in ["another history", "fork:", "own trips", "damaged here: "] {
                assert!(!told.contains(untrue), "{what}: {told}");
            }
            settled(&disk, "/bad");
            put(&disk, "/stick", &trip);
            settled(&disk, "/stick");
        }
    }
}

#[test]
fn a_last_line_changed_here_before_the_seal_came_is_healed_too() {
    let (trip, bad) = with_bad_lines();
    for (what, mut files, journal) in bad {
        files.retain(|name, _| !name.contains("/seal."));
        let disk = disk_with(&files);
        let told = text(&bring(&disk, "stick", &trip));
        is_as(&disk, &trip, &format!("{what}: {told}"));
        assert!(aside(&disk).contains(&journal), "{what}: {told}");
        settled(&disk, "/stick");
    }
}

#[test]
fn a_copy_with_a_bad_line_beside_the_whole_trip_is_moved_aside() {
    let (trip, bad) = with_bad_lines();
    let folder = Way::of("laptop-one", 1).folder();
    for (what, files, journal) in bad {
        let beside = |(name, bytes): (&String, &Vec<u8>)| {
            let name = name.replace(&folder, &format!("{folder}-5c1e09b4"));
            (name, bytes.clone())
        };
        let mut both = trip.clone();
        both.extend(files.iter().map(beside));
        let disk = disk_with(&both);
        let told = text(&take(&disk, "/barn").unwrap());
        is_as(&disk, &trip, &format!("{what}: {told}"));
        assert!(aside(&disk).contains(&journal), "{what}: {told}");
        settled(&disk, "/barn");
    }
}

#[test]
fn a_history_that_parts_before_its_last_line_stays_one_under_whatever_seal() {
    let way = Way::of("laptop-one", 1);
    let trip = way.files(None).0;
    let journal = format!("{}/trip.jsonl", way.folder());
    let other = Way { turn: 7, ..way }.files(None).0[&journal].clone();
    let disk = disk_with(&with(&trip, &journal, &other));
    let merged = bring(&disk, "stick", &trip);
    assert!(contents(&disk).contains(&other), "{}", text(&merged));
    let told = |open: &Open| matches!(open, Open::Fork(..));
    assert!(merged.open.iter().any(told), "{}", text(&merged));
}

#[test]
fn what_a_damaged_trip_may_hold_of_its_own_stays_in_its_place_and_stays_told() {
    let way = Way {
        sealed: false,
        ..Way::of("laptop-one", 1)
    };
    let whole = way.files(None).0;
    let journal = format!("{}/trip.jsonl", way.folder());
    let hole = |bytes: &[u8], line: usize| {
        let mut lines: Vec<Vec<u8>> = bytes
            .split_inclusive(|byte| *byte == b'\n')
            .map(<[u8]>::to_vec)
            .collect();
        lines[line] = b"nothing\n".to_vec();
        lines.concat()
    };
    // It has one more line than the stick.
    let longer = hole(&whole[&journal], 1);
    let short: Vec<&[u8]> = whole[&journal]
        .split_inclusive(|byte| *byte == b'\n')
        .take(3)
        .collect();
    // It went on in another way, behind the damage.
    let turned = Way { turn: 9, ..way }.files(None).0;
    let other = hole(&turned[&journal], 2);
    for (here, there) in [
        (longer, short.concat()),
        (
            other,
            Way {
                sealed: true,
                ..way
            }
            .files(None)
            .0[&journal]
                .clone(),
        ),
    ] {
        let disk = disk_with(&with(&whole, &journal, &here));
        for _ in 0..2 {
            let merged = bring(&disk, "stick", &with(&whole, &journal, &there));
            assert_eq!(disk.seen(&Path::new("/barn").join(&journal)).unwrap(), here);
            let told = |open: &Open| matches!(open, Open::Damaged(..));
            assert!(merged.open.iter().any(told), "{}", text(&merged));
        }
    }
}

#[test]
fn a_damaged_trip_that_has_a_whole_one_beside_it_is_moved_aside_without_a_stick() {
    let way = Way::of("laptop-one", 1);
    let trip = way.files(None).0;
    let beside = |files: &Files| -> Files {
        let named = files.iter().map(|(name, bytes)| {
            (
                name.replace(&way.folder(), &format!("{}-5c1e09b4", way.folder())),
                bytes.clone(),
            )
        });
        named.collect()
    };
    for (how, spoil) in SPOILS {
        let journal = format!("{}/trip.jsonl", way.folder());
        let spoilt = spoil(&trip[&journal]);
        let mut files = with(&trip, &journal, &spoilt);
        files.extend(beside(&trip));
        let disk = disk_with(&files);
        let merged = take(&disk, "/barn").unwrap();
        is_as(&disk, &beside(&trip), &format!("{how}: {}", text(&merged)));
        assert!(aside(&disk).contains(&spoilt));
        assert!(
            matches!(merged.mended[..], [Mended::Moved { .. }]),
            "{}",
            text(&merged)
        );
        assert!(text(&merged).contains("a damaged copy of trip 1 of laptop-one ("));
        settled(&disk, "/barn");
    }
}

#[test]
fn a_copy_that_a_file_sync_made_is_moved_aside_once_nothing_of_its_own_is_in_it() {
    let way = Way::of("laptop-one", 1);
    let trip = way.files(None).0;
    let file = |name: &str| trip[&format!("{}/{name}", way.folder())].clone();
    let copies = [
        ("trip (1).jsonl", file("trip.jsonl")),
        (
            "trip.sync-conflict-1.jsonl",
            file("trip.jsonl")[..300].to_vec(),
        ),
        ("rig (1).yaml", SPOILS[6].1(&file("rig.yaml"))),
        ("trip.jsonl.orig", SPOILS[5].1(&file("trip.jsonl"))),
        ("seal (1).json", SPOILS[1].1(&file("seal.json"))),
        ("seal.person (1).sig", file("seal.person.sig")),
    ];
    let mut files = trip.clone();
    for (name, bytes) in &copies {
        files.insert(format!("{}/{name}", way.folder()), bytes.clone());
    }
    for (name, bytes) in &trip {
        files.insert(name.replace("-9f0c11b2", "-9f0c11b2 (1)"), bytes.clone());
    }
    let disk = disk_with(&files);
    let merged = take(&disk, "/barn").unwrap();
    is_as(&disk, &trip, &text(&merged));
    for (name, bytes) in copies {
        assert!(aside(&disk).contains(&bytes), "{name}");
    }
    let folders = disk.files();
    assert!(
        folders
            .iter()
            .all(|path| !path.to_string_lossy().contains("9f0c11b2 (1)"))
    );
    settled(&disk, "/barn");
}

#[test]
fn a_copy_with_something_of_its_own_is_left_until_it_has_a_place() {
    let way = Way::of("laptop-one", 1);
    let trip = way.files(None).0;
    let other = Way { turn: 5, ..way }.files(None).0;
    let journal = format!("{}/trip.jsonl", way.folder());
    let copy = format!("{}/trip (1).jsonl", way.folder());
    let disk = disk_with(&with(&trip, &copy, &other[&journal]));
    // A merge of something else does not look for it.
    let merged = bring(&disk, "stick", &founded());
    assert!(records(&disk).contains_key(&copy), "{}", text(&merged));
    // A merge of the logbook with itself gives it a place of its own first.
    let merged = take(&disk, "/barn").unwrap();
    assert!(!records(&disk).contains_key(&copy), "{}", text(&merged));
    assert!(contents(&disk).contains(&other[&journal]));
    assert!(
        matches!(merged.open[..], [Open::Fork(..)]),
        "{}",
        text(&merged)
    );
}

fn three_statements() -> Files {
    let mut office = office();
    office.change_crew("odile.marsh", crew(), &[]);
    office.change_crew(
        "odile.marsh",
        super::barn::larger_crew(),
        &[("tobias.fenn", Changed::Added)],
    );
    let lost = Says::LossAccepted(LossAccepted {
        device: id("laptop-one"),
        from: 1,
        to: 1,
        words: words("drowned"),
    });
    office.state("odile.marsh", lost);
    stated(&office)
}

/// A logbook with these statements, the crew file in force as they leave it.
fn office_disk(files: &Files) -> Pretend {
    let mut files = files.clone();
    let larger = super::barn::larger_crew().text().as_bytes().to_vec();
    files.insert("crew/allowed_signers".to_owned(), larger);
    disk_with(&files)
}

#[test]
fn any_damaged_file_of_a_statement_is_healed_by_a_whole_copy_and_kept_aside() {
    let whole = three_statements();
    for (name, bytes) in &whole {
        for (how, spoil) in SPOILS {
            let spoilt = spoil(bytes);
            let disk = office_disk(&with(&whole, name, &spoilt));
            let merged = bring(&disk, "stick", &whole);
            is_as(&disk, &whole, &format!("{name} {how}: {}", text(&merged)));
            assert!(aside(&disk).contains(&spoilt), "{name} {how}");
            assert_eq!(
                merged.status(),
                Status::Fine,
                "{name} {how}: {}",
                text(&merged)
            );
            assert!(
                text(&merged).contains("healed: statement "),
                "{}",
                text(&merged)
            );
            settled(&disk, "/stick");
        }
    }
}

#[test]
fn two_copies_of_a_statement_each_damaged_elsewhere_make_one_whole() {
    let whole = three_statements();
    for one in whole.keys() {
        for other in whole.keys().filter(|other| *other != one) {
            let here = with(&whole, one, &SPOILS[5].1(&whole[one]));
            let there = with(&whole, other, &SPOILS[5].1(&whole[other]));
            let disk = office_disk(&here);
            let merged = bring(&disk, "stick", &there);
            is_as(&disk, &whole, &format!("{one}, {other}: {}", text(&merged)));
        }
    }
}

#[test]
fn looking_tells_what_would_be_healed_and_moved_and_writes_nothing() {
    let trip = trips("laptop-one", 1);
    let journal = format!("{}/trip.jsonl", Way::of("laptop-one", 1).folder());
    let mut files = with(&trip, &journal, &SPOILS[1].1(&trip[&journal]));
    files.extend(trips("laptop-two", 1));
    let second = Way::of("laptop-two", 1).folder();
    files.insert(
        format!("{second}/rig (1).yaml"),
        files[&format!("{second}/rig.yaml")].clone(),
    );
    let disk = disk_with(&files);
    put(&disk, "/stick", &trip);
    let changes = disk.changes();
    let (root, stick) = (Path::new("/barn"), Path::new("/stick"));
    let looked = hames::cli::merge::merge(&disk, root, stick, true).unwrap();
    assert_eq!(disk.changes(), changes);
    let merged = take(&disk, "/stick").unwrap();
    let kinds = |merged: &Merged| merged.mended.clone();
    assert_eq!(kinds(&looked), kinds(&merged));
    assert_eq!(merged.mended.len(), 2);
}
