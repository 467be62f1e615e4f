//! Drills, judged by the program as its user runs it and by the second verifier.

use super::barns::{change, without};
use super::bench::{Batch, Folder, VERIFIER, run};
use crate::barn50::drills::{CALLED_AWAY, people_of, played};
use crate::barn50::making::{Barn, Files, LAPTOPS, Left, key, lay};
use crate::drill::bench::moment;
use crate::harness::home::Home;
use crate::record_trip::words;
use hames::drill::Stage;
use hames::record::{Changed, Crew, Mode, Namespace, Opinion, Role, Said, append, read_chain};
use std::sync::LazyLock;

const WREN: &str = "wren.ashdown";
const JOURNAL: &str = "trip.jsonl";

/// A trip that a manager agreed to, and two drills of the same laptop.
fn barn() -> Barn {
    static MADE: LazyLock<Barn> = LazyLock::new(|| {
        let mut barn = Barn::with_drills();
        barn.walk(0, WREN, Left::Sealed);
        barn.countersign(0, Opinion::Agreed);
        barn.drill(0, CALLED_AWAY);
        barn.drill(0, "hooks-in");
        barn
    });
    MADE.clone()
}

/// The finding of the whole logbook, by all three.
#[track_caller]
pub(super) fn whole(barn: &Barn) -> String {
    let word = super::barns::whole(barn);
    let home = Home::new();
    lay(&barn.files, &home.path("book"));
    let told = run(VERIFIER, &[home.path("book").into()]);
    assert_eq!(told.lines.last().unwrap().1, word, "\n{}", told.all);
    word
}

/// The first drill: the folder it lies in.
fn first(barn: &Barn) -> String {
    barn.drills[0].folder.clone()
}

fn copied(files: &mut Files, from: &str, to: &str) {
    let found: Vec<_> = files
        .range(format!("{from}/")..format!("{from}0"))
        .collect();
    let found = found.into_iter().map(|(path, bytes)| {
        let name = path.rsplit_once('/').unwrap().1;
        (format!("{to}/{name}"), bytes.clone())
    });
    let found: Files = found.collect();
    assert!(!found.is_empty(), "{from}");
    files.extend(found);
}

#[test]
fn both_find_the_drills_of_a_logbook_as_they_were_kept() {
    let barn = barn();
    assert_eq!(whole(&barn), "intact");
    let home = Home::new();
    lay(&barn.files, &home.path("book"));
    let one = format!("book/{}", first(&barn));
    lay(&barn.files, &home.path("sent"));
    std::fs::rename(home.path("sent").join(first(&barn)), home.path("alone")).unwrap();
    for path in ["book/drill", one.as_str()] {
        let ours = home.hames(&format!("verify {path}")).run();
        let told = run(VERIFIER, &[home.path(path).into()]);
        assert_eq!(
            (ours.status, told.status),
            (0, 0),
            "{}{}",
            ours.out,
            told.all
        );
    }
    let crew = home.path("book/crew/allowed_signers");
    let named = format!("--crew={}", crew.display());
    let ours = home.hames("verify alone").argument(&named).run();
    let told = run(VERIFIER, &[named.into(), home.path("alone").into()]);
    assert_eq!(
        (ours.status, told.status),
        (0, 0),
        "{}{}",
        ours.out,
        told.all
    );
}

#[test]
fn both_find_what_is_wrong_with_a_drill_as_they_find_it_of_a_trip() {
    type Damage = fn(&mut Files, &str, &str);
    let damages: [(&str, &str, Damage); 12] = [
        ("another scenario", "altered", |files, at, _| {
            let file = files.get_mut(&format!("{at}/scenario.yaml")).unwrap();
            file.extend(b"# softer\n");
        }),
        ("other sights", "altered", |files, at, _| {
            let file = files.get_mut(&format!("{at}/sights.yaml")).unwrap();
            file[40] ^= 1;
        }),
        ("no scenario", "gap", |files, at, _| {
            files.remove(&format!("{at}/scenario.yaml")).unwrap();
        }),
        ("no sights", "gap", |files, at, _| {
            files.remove(&format!("{at}/sights.yaml")).unwrap();
        }),
        ("another passage", "altered", |files, at, _| {
            let file = files.get_mut(&format!("{at}/checklist.yaml")).unwrap();
            file.extend(b"# longer\n");
        }),
        ("a journal cut off", "truncated", |files, at, _| {
            let file = files.get_mut(&format!("{at}/trip.jsonl")).unwrap();
            file.pop();
            let cut = file.iter().rposition(|byte| *byte == b'\n').unwrap();
            file.truncate(cut + 1);
        }),
        ("a seal taken out", "truncated", |files, at, _| {
            files.remove(&format!("{at}/seal.json")).unwrap();
        }),
        ("a drill taken out", "gap", |files, at, _| {
            files.retain(|path, _| !path.starts_with(at));
        }),
        ("another's signature", "unknown-signer", |files, at, _| {
            let seal = files[&format!("{at}/seal.json")].clone();
            let namespace = Namespace::new(Role::Driver.deed(), Mode::Drill);
            let other = key("odile.marsh");
            let armor = other.sign(namespace, &seal).unwrap();
            files.insert(format!("{at}/seal.person.sig"), armor.into_bytes());
        }),
        ("signed as a walk", "altered", |files, at, _| {
            let seal = files[&format!("{at}/seal.json")].clone();
            let namespace = Namespace::new(Role::Driver.deed(), Mode::Real);
            let armor = key(WREN).sign(namespace, &seal).unwrap();
            files.insert(format!("{at}/seal.person.sig"), armor.into_bytes());
        }),
        ("under another number", "altered", |files, at, _| {
            let to = at.replacen("000001", "000003", 1);
            copied(files, at, &to);
        }),
        ("a trip among drills", "other-mode", |files, at, trip| {
            let to = format!(
                "{}/{}",
                at.rsplit_once('/').unwrap().0,
                trip.rsplit_once('/').unwrap().1
            );
            copied(files, trip, &to);
        }),
    ];
    for (name, word, damage) in damages {
        let mut barn = barn();
        let (at, trip) = (first(&barn), barn.trips[0].folder.clone());
        damage(&mut barn.files, &at, &trip);
        assert_eq!(whole(&barn), word, "{name}");
    }
}

#[test]
fn both_count_a_drill_by_the_crew_file_it_names_whoever_left_since() {
    // Which crew files there were, the script of trips alone does not ask.
    let mut barn = barn();
    let gone = without(&people_of(Mode::Real), WREN);
    change(&mut barn, "odile.marsh", gone, &[(WREN, Changed::Revoked)]);
    assert_eq!(super::barns::whole(&barn), "intact");
    // By the crew file in force Wren may sign nothing any more.
    barn.drill(1, "hooks-in");
    assert_eq!(super::barns::whole(&barn), "unknown-signer");
}

#[test]
fn both_refuse_a_drill_that_was_moved_among_the_trips() {
    let mut barn = barn();
    let drill = first(&barn);
    let name = drill.rsplit_once('/').unwrap().1;
    let to = format!("dev/{}/t/{name}", LAPTOPS[0]);
    copied(&mut barn.files, &drill, &to);
    assert_eq!(whole(&barn), "other-mode");
    // With the number that comes next, and its own taken away.
    let mut barn = self::barn();
    barn.drill(1, "hooks-in");
    let drill = barn.drills[2].folder.clone();
    copied(&mut barn.files, &drill, &drill.replacen("drill/", "", 1));
    barn.lose(&drill);
    assert_eq!(whole(&barn), "other-mode");
}

#[test]
fn both_refuse_a_line_of_a_drill_in_a_walk_and_two_drills_of_one_number() {
    let mut barn = barn();
    let drill = format!("{}/{JOURNAL}", first(&barn));
    barn.walk(1, WREN, Left::Unsealed);
    let walk = format!("{}/{JOURNAL}", barn.trips[1].folder);
    let tip = read_chain(&barn.files[&walk]).tip();
    let mut links = read_chain(&barn.files[&drill]).links.into_iter();
    let learned = links.find_map(|link| {
        link.said
            .ok()
            .filter(|said| matches!(said, Said::Drilled(_)))
    });
    let (line, _) = append(tip, &moment(1), &words("Wren Ashdown"), &learned.unwrap()).unwrap();
    assert_eq!(whole(&barn), "unsealed");
    barn.files.get_mut(&walk).unwrap().extend(line);
    assert_eq!(whole(&barn), "unreadable");

    let mut barn = self::barn();
    let drill = barn.drills.pop().unwrap();
    let (other, files) = barn.next_drill(0, "all-good");
    assert_eq!(other.folder, drill.folder);
    for (name, bytes) in files {
        barn.files
            .insert(format!("{}-0badc0de/{name}", drill.folder), bytes);
    }
    assert_eq!(whole(&barn), "fork");
}

#[test]
fn both_take_version_3_where_it_is_allowed_and_nowhere_else() {
    let (_, files) = Barn::with_drills().next_drill(0, CALLED_AWAY);
    let files: Vec<(&'static str, Vec<u8>)> = NAMES
        .iter()
        .map(|name| (*name, files[*name].clone()))
        .collect();
    let whole = Folder::named(&files);
    let text = String::from_utf8(whole.file(JOURNAL).to_vec()).unwrap();
    let mut batch = Batch::new(&[people_of(Mode::Real)]);
    batch.put("as it was", whole.clone());
    let first = text.lines().next().unwrap();
    let kinds = [
        "looked", "used", "called", "returned", "learned", "opened", "ended",
    ];
    let lines = kinds.map(|kind| {
        let of_kind = |line: &&str| line.contains(&format!("\"kind\":\"{kind}\""));
        text.lines().find(of_kind).unwrap()
    });
    for line in [first].into_iter().chain(lines) {
        for version in ["1", "2", "3", "4"] {
            let own = format!("{{\"v\":{version}");
            let other = format!("{own}{}", &line[own.len()..]);
            if other != line {
                let changed = text.replacen(line, &other, 1);
                batch.put(&other, whole.with(JOURNAL, changed.as_bytes()));
            }
        }
    }
    for (part, other) in [
        ("\"mode\":\"drill\"", "\"mode\":\"real\""),
        ("\"trip\":\"d-", "\"trip\":\"e-"),
        ("\"stage\":\"solo\"", "\"stage\":\"check-ride\""),
        ("\"stage\":\"solo\"", "\"stage\":\"expert\""),
        ("\"examiner\":null", "\"examiner\":\"Odile Marsh\""),
        (",\"examiner\":null", ""),
    ] {
        let changed = text.replacen(part, other, 1);
        assert_ne!(changed, text, "{part}");
        batch.put(other, whole.with(JOURNAL, changed.as_bytes()));
    }
    let told = batch.both();
    assert_eq!(told[0].1, "intact");
    assert!(
        told[1..]
            .iter()
            .all(|(_, word)| word == "unreadable" || word == "altered")
    );
}

#[test]
fn both_hold_a_check_ride_to_its_examiner() {
    let ride = |examiner: &str, signer: Option<&str>| {
        let (crew, played) = (people_of(Mode::Real), played("hooks-in"));
        let mut begun = played.begun((LAPTOPS[0], 1), None, &crew);
        if let Some(drill) = &mut begun.drill {
            drill.stage = Stage::CheckRide;
            drill.examiner = Some(words(examiner));
        }
        let (lines, tip) = played.journal(&begun);
        let seal = played.seal(&begun, tip);
        let namespace = Namespace::new(Role::Examiner.deed(), Mode::Drill);
        let third = signer.map(|who| {
            let armor = key(who).sign(namespace, &seal[0].1).unwrap();
            ("seal.examiner.sig", armor.into_bytes())
        });
        let files = played.texts(&crew).into_iter().chain(seal).chain(third);
        let files = files.chain([(JOURNAL, lines.concat())]);
        Folder::named(&files.collect::<Vec<_>>())
    };
    let mut batch = Batch::new(&[people_of(Mode::Real)]);
    let odile = Some("odile.marsh");
    let cases = [
        ("Odile Marsh", odile, "intact"),
        ("odile.marsh", odile, "intact"),
        ("Odile Marsh", None, "unsealed"),
        ("Odile Marsh", Some(WREN), "unknown-signer"),
        ("Wren Ashdown", Some(WREN), "unknown-signer"),
        ("Greta Lund", odile, "unknown-signer"),
    ];
    for (examiner, signer, _) in cases {
        batch.put(examiner, ride(examiner, signer));
    }
    let told = batch.both();
    let found: Vec<&str> = told.iter().map(|(_, word)| word.as_str()).collect();
    assert_eq!(found, cases.map(|(.., word)| word));
}

/// The files of a drill.
const NAMES: [&str; 9] = [
    "checklist.yaml",
    "crew.allowed_signers",
    "rig.yaml",
    "scenario.yaml",
    "seal.device.sig",
    "seal.json",
    "seal.person.sig",
    "sights.yaml",
    "trip.jsonl",
];

#[test]
fn both_find_the_stored_drill_as_it_was_written_and_one_changed_byte_in_any_file_of_it() {
    let whole = Folder::stored("v3");
    let crew = Crew::read(whole.file("crew.allowed_signers")).unwrap();
    let mut batch = Batch::new(&[crew]);
    batch.put("as it was stored", whole.clone());
    let mut start = 0;
    for line in whole.file(JOURNAL).split_inclusive(|byte| *byte == b'\n') {
        let at = start + line.len() * 3 / 4;
        batch.put(&format!("line byte {at}"), whole.flipped(JOURNAL, at));
        start += line.len();
    }
    for file in whole.names().filter(|file| *file != JOURNAL) {
        for at in (0..whole.file(file).len()).step_by(331) {
            batch.put(&format!("{file} byte {at}"), whole.flipped(file, at));
        }
    }
    let told = batch.both();
    assert_eq!(told[0].1, "intact");
    for (case, word) in &told[1..] {
        let crew = case.starts_with("crew.");
        assert!(crew || word != "intact" && word != "unsealed", "{case}");
    }
}
