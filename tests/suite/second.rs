//! The second verifier, in `tests/second/`: written from the format's page, it has to find what the
//! program finds.

mod answers;
mod barns;
pub(crate) mod bench;
mod counting;
mod crew_files;
mod drills;
mod joined;
mod limits;
mod logbook;
mod lost;
mod owned;
mod rides;
mod settled;
mod statements;
mod timed;
mod witnessed;

use crate::architecture::root;
use crate::record_trip::{CHECKLIST, TOBIAS, Trip, WREN, crew, id, phrase, signer};
use bench::{Batch, Folder};
use hames::record::{Crew, Deed, Mode, Namespace, PrintedName, Role, Seal};
use hames::walk::Ended;
use std::fs;

const SHORT: &str = "open\n see down\n end incomplete: the vet called";
const JOURNAL: &str = "trip.jsonl";

#[test]
fn each_of_its_files_is_short_and_rests_on_the_standard_library_alone() {
    let known = "base64 contextlib datetime hashlib itertools json pathlib re subprocess sys types signed verify kinds statements drills";
    for name in [
        "signed.py",
        "drills.py",
        "verify.py",
        "kinds.py",
        "statements.py",
        "logbook.py",
    ] {
        let file = root().join("tests/second").join(name);
        let text = fs::read_to_string(&file).unwrap();
        let lines = text.lines().count();
        assert!(lines < 200, "{} has {lines} lines", file.display());
        assert!(!text.contains("__import__") && !text.contains("importlib"));
        let words = text.lines().map(|line| line.trim_start().split([' ', ',']));
        for mut words in words {
            let named: Vec<&str> = match words.next() {
                Some("import") => words.collect(),
                Some("from") => words.take(1).collect(),
                _ => continue,
            };
            for module in named.iter().filter(|word| !word.is_empty()) {
                let mut known = known.split(' ');
                assert!(
                    known.any(|one| one == *module),
                    "{}: {module}",
                    file.display()
                );
            }
        }
    }
}

#[test]
fn both_find_every_stored_record_as_it_was_written() {
    let mut batch = Batch::new(&[vector_crew()]);
    for name in ["v1", "v2"] {
        batch.put(name, Folder::stored(name));
    }
    for name in ["hitch-bumper-2", "hitch-bumper-4", "first-stop-1"] {
        batch.put(name, Folder::stored(name));
    }
    let told = batch.both();
    let words: Vec<&str> = told.iter().map(|(_, word)| word.as_str()).collect();
    assert_eq!(words[..2], ["intact", "intact"]);
    assert_eq!(words[2..], ["unsealed"; 3]);
}

#[test]
fn both_find_one_changed_byte_in_every_line_and_every_other_file() {
    for (name, part) in [("v1", 1), ("v2", 3)] {
        let whole = Folder::stored(name);
        let mut batch = Batch::new(&[vector_crew()]);
        let mut start = 0;
        for line in whole.file(JOURNAL).split_inclusive(|byte| *byte == b'\n') {
            let at = start + line.len() * part / 4;
            batch.put(&format!("line byte {at}"), whole.flipped(JOURNAL, at));
            start += line.len();
        }
        for file in whole.names().filter(|file| *file != JOURNAL) {
            for at in (0..whole.file(file).len()).step_by(23) {
                batch.put(&format!("{file} byte {at}"), whole.flipped(file, at));
            }
        }
        let told = batch.both();
        for (case, word) in told {
            let crew = case.starts_with("crew.");
            assert!(crew || word != "intact" && word != "unsealed", "{case}");
        }
    }
}

#[test]
fn both_find_lines_taken_out_put_in_moved_and_cut_off() {
    let whole = Folder::of(&Trip::of(SHORT));
    let lines: Vec<Vec<u8>> = whole
        .file(JOURNAL)
        .split_inclusive(|byte| *byte == b'\n')
        .map(<[u8]>::to_vec)
        .collect();
    let mut batch = Batch::new(&[crew()]);
    let mut put = |name: &str, lines: &[Vec<u8>]| {
        for (sealed, folder) in [("sealed", whole.clone()), ("unsealed", whole.unsealed())] {
            let folder = folder.with(JOURNAL, &lines.concat());
            batch.put(&format!("{name} {sealed}"), folder);
        }
    };
    for at in 0..lines.len() {
        let mut other = lines.clone();
        let taken = other.remove(at);
        put(&format!("without line {at}"), &other);
        put(&format!("cut before line {at}"), &lines[..at]);
        let half = [&lines[..at], &[taken[..taken.len() / 2].to_vec()]].concat();
        put(&format!("cut inside line {at}"), &half);
        other.insert(at, taken.clone());
        other.insert(at, taken);
        put(&format!("line {at} twice"), &other);
        let mut swapped = lines.clone();
        swapped.swap(at, (at + 1) % lines.len());
        put(&format!("line {at} moved"), &swapped);
    }
    let last = lines.len() - 1;
    for at in [1, last] {
        let mut holed = lines.clone();
        holed[at][40..60].fill(0);
        put(&format!("a hole in line {at}"), &holed);
        holed.push(b"{\"v\":1".to_vec());
        put(&format!("a hole in line {at}, and a line begun"), &holed);
    }
    put(
        "a line put in",
        &[&lines[..2], &[b"{}\n".to_vec()], &lines[2..]].concat(),
    );
    put(
        "a blank line",
        &[&lines[..2], &[b"\n".to_vec()], &lines[2..]].concat(),
    );
    batch.both();
}

#[test]
fn both_find_what_tools_do_to_files_on_their_way() {
    let whole = Folder::of(&Trip::of(SHORT));
    let mut batch = Batch::new(&[crew()]);
    for file in whole.names() {
        let text = String::from_utf8(whole.file(file).to_vec()).unwrap();
        let crlf = text.replace('\n', "\r\n");
        batch.put(
            &format!("{file} with CRLF"),
            whole.with(file, crlf.as_bytes()),
        );
        let marked = format!("\u{feff}{text}");
        batch.put(
            &format!("{file} with BOM"),
            whole.with(file, marked.as_bytes()),
        );
        batch.put(&format!("{file} empty"), whole.with(file, b""));
        batch.put(&format!("{file} missing"), whole.without(file));
        let open = text.trim_end_matches('\n');
        batch.put(
            &format!("{file} without its end"),
            whole.with(file, open.as_bytes()),
        );
        batch.put(
            &format!("{file} longer"),
            whole.with(file, format!("{text}\n").as_bytes()),
        );
    }
    let told = batch.both();
    let word = |case: &str| {
        told.iter()
            .find(|(name, _)| name == case)
            .unwrap()
            .1
            .clone()
    };
    for text in ["checklist.yaml", "rig.yaml"] {
        for gone in ["missing", "empty"] {
            assert_eq!(word(&format!("{text} {gone}")), "gap");
        }
    }
}

#[test]
fn both_hold_the_seal_to_the_journal_though_it_is_signed_anew() {
    type Change = fn(&mut Seal);
    let changes: [(&str, Change); 11] = [
        ("as it was", |_| {}),
        ("outcome", |seal| seal.outcome = Ended::Complete),
        ("counts", |seal| seal.counts.stop = 1),
        ("trip", |seal| seal.trip = id("another")),
        ("number", |seal| seal.seq = 2),
        ("fewer lines", |seal| seal.lines = 3),
        ("more lines", |seal| seal.lines = 5),
        ("device", |seal| seal.device = id("laptop-7f3b")),
        ("name", |seal| {
            seal.name = PrintedName::read("W. Ashdown").unwrap();
        }),
        ("role", |seal| seal.role = Role::Manager),
        ("person", |seal| seal.person = id("odile.marsh")),
    ];
    let mut batch = Batch::new(&[crew()]);
    for (name, change) in changes {
        let mut trip = Trip::of(SHORT);
        trip.reseal(change);
        batch.put(name, Folder::of(&trip));
    }
    for mode in [Mode::Demo, Mode::Drill] {
        let mut trip = Trip::of(SHORT);
        trip.reseal(|seal| seal.mode = mode);
        batch.put(mode.word(), Folder::of(&trip));
    }
    assert_eq!(batch.both()[0].1, "intact");
}

#[test]
fn both_hold_a_signature_to_its_key_its_namespace_and_its_place() {
    let trip = Trip::of(SHORT);
    let whole = Folder::of(&trip);
    let (person, device) = ("seal.person.sig", "seal.device.sig");
    let mut batch = Batch::new(&[crew()]);
    for name in Namespace::all() {
        let armor = WREN.sign(&phrase(), name, whole.file("seal.json")).unwrap();
        batch.put(name.name(), whole.with(person, armor.as_bytes()));
    }
    let performed = Namespace::new(Deed::Performed, Mode::Real);
    let others = TOBIAS.sign(&phrase(), performed, whole.file("seal.json"));
    batch.put("another's", whole.with(person, others.unwrap().as_bytes()));
    let swapped = whole.with(person, whole.file(device));
    batch.put("swapped", swapped.with(device, whole.file(person)));
    let armor = String::from_utf8(whole.file(person).to_vec()).unwrap();
    let wider = armor
        .replacen('\n', "", 2)
        .replacen("-----U1", "-----\nU1", 1);
    batch.put("spelt otherwise", whole.with(person, wider.as_bytes()));
    let told = batch.both();
    let intact = told.iter().filter(|(_, word)| word == "intact");
    assert_eq!(intact.count(), 1, "{told:?}");
}

#[test]
fn both_trust_a_crew_file_and_what_it_grew_from_and_no_other() {
    let whole = Folder::of(&Trip::of(SHORT));
    let text = crew().text().to_owned();
    let read = |text: &str| Crew::read(text.as_bytes()).unwrap();
    let groom = signer("sam.reed", Role::Groom, &other_key(), "Sam Reed");
    let told = |trusted: Crew| {
        let mut batch = Batch::new(&[trusted]);
        batch.put("trip", whole.clone());
        let pinned = format!("{text}# another\n");
        batch.put(
            "pinned",
            whole.with("crew.allowed_signers", pinned.as_bytes()),
        );
        let told = batch.both();
        (told[0].1.clone(), told[1].1.clone())
    };
    let words = |one: &str, other: &str| (one.to_owned(), other.to_owned());
    assert_eq!(told(crew()), words("intact", "altered"));
    assert_eq!(
        told(crew().add(&groom).unwrap()),
        words("intact", "unknown-signer")
    );
    let renamed = text.replace("Wren Ashdown", "Wren Asher");
    assert_eq!(
        told(read(&renamed)),
        words("unknown-signer", "unknown-signer")
    );
    let fewer = text.split_inclusive('\n').skip(1).collect::<String>();
    assert_eq!(
        told(read(&fewer)),
        words("unknown-signer", "unknown-signer")
    );
    let other_role = text.replace("role:groom", "role:driver");
    assert_eq!(
        told(read(&other_role)),
        words("unknown-signer", "unknown-signer")
    );
}

#[test]
fn both_take_a_trip_for_one_of_another_version_only_where_it_says_so() {
    let whole = Folder::of(&Trip::of(SHORT));
    let text = String::from_utf8(whole.file(JOURNAL).to_vec()).unwrap();
    let mut batch = Batch::new(&[crew()]);
    for other in [
        "{\"v\":2",
        "{\"v\":3",
        "{\"v\":0",
        "{\"v\":12",
        "{\"v\":-1",
        "{\"v\":1.0",
        "{ \"v\":1",
    ] {
        let journal = text.replacen("{\"v\":1", other, 1);
        batch.put(other, whole.with(JOURNAL, journal.as_bytes()));
    }
    let checklist = [CHECKLIST, b" "].concat();
    batch.put("checklist", whole.with("checklist.yaml", &checklist));
    batch.both();
}

fn vector_crew() -> Crew {
    Crew::read(Folder::stored("v1").file("crew.allowed_signers")).unwrap()
}

fn other_key() -> hames::record::PublicKey {
    let dice = hames::record::Dice::new([9; 52]);
    let key = hames::record::DeviceKey::make(&dice, &id("sam.reed")).unwrap();
    key.public().clone()
}
