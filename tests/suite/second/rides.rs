//! The stored check ride and the statement that puts it into the roster, judged by the program and
//! by the second verifier; and what both refuse of either.

use super::barns;
use super::bench::{Batch, Folder};
use super::drills::whole;
use crate::barn50::making::{Barn, Files, Left, key};
use crate::barn50::rides::{examined_by, ridden};
use crate::frozen::ride::stored;
use crate::harness::home::files_below;
use hames::record::{Crew, Mode, Opinion, Statement};
use std::fs;

const JOURNAL: &str = "trip.jsonl";
const EXAMINER: &str = "seal.examiner.sig";
const RIDER: &str = "wren.ashdown";

/// The stored logbook.
fn barn() -> Barn {
    let read = |path: String| {
        let bytes = fs::read(stored().join(&path)).unwrap();
        (path, bytes)
    };
    let mut barn = Barn::with_drills();
    barn.files = files_below(&stored()).into_iter().map(read).collect();
    barn
}

/// The path of a file, by how it begins and ends.
fn path(files: &Files, begins: &str, ends: &str) -> String {
    let is_it = |path: &&String| path.starts_with(begins) && path.ends_with(ends);
    files.keys().find(is_it).unwrap().clone()
}

#[test]
fn both_find_the_stored_check_ride_and_its_place_in_the_roster_as_they_were_written() {
    assert_eq!(whole(&barn()), "intact");
}

#[test]
fn both_refuse_a_stored_check_ride_that_its_examiner_did_not_sign() {
    type Damage = fn(&mut Files, String);
    let damages: [(&str, &str, Damage); 6] = [
        ("no signature of the examiner", "unsealed", |files, at| {
            files.remove(&at).unwrap();
        }),
        ("signed by the rider", "unknown-signer", |files, at| {
            let seal = files[&at.replace(EXAMINER, "seal.json")].clone();
            files.insert(at, examined_by(RIDER, &seal));
        }),
        ("signed by the laptop", "unknown-signer", |files, at| {
            let device = files[&at.replace(EXAMINER, "seal.device.sig")].clone();
            files.insert(at, device);
        }),
        ("another seal signed", "altered", |files, at| {
            files.insert(at, examined_by("odile.marsh", b"another\n"));
        }),
        ("one byte changed", "altered", |files, at| {
            files.get_mut(&at).unwrap()[120] ^= 1;
        }),
        ("an empty one", "altered", |files, at| {
            files.insert(at, Vec::new());
        }),
    ];
    for (name, word, damage) in damages {
        let mut barn = barn();
        let at = path(&barn.files, "drill/dev/", EXAMINER);
        damage(&mut barn.files, at);
        assert_eq!(whole(&barn), word, "{name}");
    }
}

#[test]
fn both_find_one_changed_byte_in_any_file_of_the_stored_check_ride() {
    let barn = barn();
    let at = path(&barn.files, "drill/dev/", JOURNAL);
    let ride = Folder::lying(stored().join(at).parent().unwrap());
    let crew = Crew::read(ride.file("crew.allowed_signers")).unwrap();
    let mut batch = Batch::new(&[crew]);
    batch.put("as it was stored", ride.clone());
    let mut start = 0;
    for line in ride.file(JOURNAL).split_inclusive(|byte| *byte == b'\n') {
        if start % 17 == 0 {
            let at = start + line.len() * 3 / 4;
            batch.put(&format!("line byte {at}"), ride.flipped(JOURNAL, at));
        }
        start += line.len();
    }
    for file in ride.names().filter(|file| *file != JOURNAL) {
        let step = ride.file(file).len() / 7 + 1;
        for at in (0..ride.file(file).len()).step_by(step) {
            batch.put(&format!("{file} byte {at}"), ride.flipped(file, at));
        }
    }
    let told = batch.both();
    assert!(told.iter().any(|(case, _)| case.starts_with(EXAMINER)));
    assert_eq!(told[0].1, "intact");
    for (case, word) in &told[1..] {
        let crew = case.starts_with("crew.");
        assert!(crew || word != "intact" && word != "unsealed", "{case}");
    }
}

#[test]
fn both_refuse_a_check_ride_whose_examiner_is_who_rode_it() {
    let ride = |examiner: (&'static str, &'static str)| {
        let mut played = ridden();
        played.examiner = Some(examiner);
        let mut barn = Barn::with_drills();
        barn.walk(0, RIDER, Left::Sealed);
        barn.countersign(0, Opinion::Agreed);
        let made = barn.next_of(0, &played);
        barn.keep_drill(made.0, made.1);
        barn
    };
    assert_eq!(whole(&ride(("odile.marsh", "Odile Marsh"))), "intact");
    assert_eq!(whole(&ride((RIDER, "Wren Ashdown"))), "unknown-signer");
    // Named by their id, and signed by who may.
    assert_eq!(whole(&ride(("odile.marsh", RIDER))), "unknown-signer");
}

/// The stored logbook with its last statement said otherwise, and signed by the manager again.
fn restated(from: &str, to: &str) -> Barn {
    let mut barn = barn();
    let at = path(&barn.files, "mgr/odile.marsh/000003-", "/statement.json");
    let text = String::from_utf8(barn.files[&at].clone()).unwrap();
    assert!(text.contains(from), "{from} in {text}");
    let bytes = text.replacen(from, to, 1).into_bytes();
    let folder = at.strip_suffix("/statement.json").unwrap();
    let crew = barn.files[&format!("{folder}/allowed_signers")].clone();
    barn.files.retain(|path, _| !path.starts_with(folder));
    let sign = key("odile.marsh").sign(Statement::namespace(Mode::Real), &bytes);
    let hash = Statement::hash(&bytes).to_string();
    let folder = format!("mgr/odile.marsh/000003-{}", &hash[..8]);
    for (name, bytes) in [
        ("statement.json", bytes),
        ("statement.sig", sign.unwrap().into_bytes()),
        ("allowed_signers", crew),
    ] {
        barn.files.insert(format!("{folder}/{name}"), bytes);
    }
    barn
}

#[test]
fn both_refuse_a_statement_that_says_of_check_rides_what_none_can_be() {
    let stored = barn();
    let at = path(&stored.files, "mgr/odile.marsh/000003-", "/statement.json");
    let text = String::from_utf8(stored.files[&at].clone()).unwrap();
    let (_, rides) = text.split_once("\"rides\":[").unwrap();
    let (ride, _) = rides.split_once(']').unwrap();
    let whole_list = format!("\"rides\":[{ride}]");
    let newer = ride.replacen("\"revision\":", "\"revision\":9", 1);
    for (from, to) in [
        ("{\"v\":3,", "{\"v\":1,".to_owned()),
        ("{\"v\":3,", "{\"v\":2,".to_owned()),
        ("\"revision\":", "\"revision\":0,\"was\":".to_owned()),
        ("\"rigs\":\"bumper-pull\"", "\"rigs\":\"cart\"".to_owned()),
        (&whole_list, "\"rides\":[]".to_owned()),
        (&whole_list, format!("\"rides\":[{ride},{ride}]")),
        (&whole_list, format!("\"rides\":[{newer},{ride}]")),
    ] {
        assert_eq!(barns::whole(&restated(from, &to)), "unreadable", "{to}");
    }
    let two = format!("\"rides\":[{ride},{newer}]");
    assert_eq!(barns::whole(&restated(&whole_list, &two)), "intact");
}

#[test]
fn both_find_one_changed_byte_in_the_stored_statement_and_its_signature() {
    for (name, at) in [
        ("statement.json", 700),
        ("statement.sig", 150),
        ("allowed_signers", 90),
    ] {
        let mut barn = barn();
        let path = path(&barn.files, "mgr/odile.marsh/000003-", &format!("/{name}"));
        barn.files.get_mut(&path).unwrap()[at] ^= 1;
        let word = barns::whole(&barn);
        assert!(word != "intact" && word != "unsealed", "{name}: {word}");
    }
}
