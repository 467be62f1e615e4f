//! `hames verify`: what each kind of damage is called, and with which status it ends.

mod archives;
mod clocks;
pub(crate) mod drills;

use super::demo::{SIGN, sealed};
use crate::harness::home::{Home, files_below, trip};
use crate::stock;
use std::fs;
use std::path::Path;

/// A home with two sealed trips of the demo barn.
pub(crate) fn two_trips() -> Home {
    Home::laid("a whole walk and one given up", sealed, |home| {
        let short = "1\n1\n1\n1\n2\n\nend\nabandoned\nrain\n";
        let ended = home.hames("--plain").typed(&format!("{short}{SIGN}")).run();
        assert!(ended.out.contains("Sealed."), "{}", ended.out);
    })
}

pub(crate) fn copy(from: &Path, to: &Path) {
    for file in files_below(from) {
        fs::create_dir_all(to.join(&file).parent().unwrap()).unwrap();
        fs::copy(from.join(&file), to.join(&file)).unwrap();
    }
}

/// What is done to a copy of the logbook.
type Damage<'a> = &'a dyn Fn(&Path);

#[test]
fn every_kind_of_damage_has_its_word_and_its_status() {
    let whole = two_trips();
    let (home, first, second) = (&whole, trip(&whole.demo(), 1), trip(&whole.demo(), 2));
    let below = |folder: &Path, name: &str| {
        folder
            .join(name)
            .strip_prefix(home.demo())
            .unwrap()
            .to_owned()
    };
    let damages: [(&str, i32, Damage<'_>); 7] = [
        ("unsealed", 10, &|at| {
            fs::remove_file(at.join(below(&second, "seal.json"))).unwrap();
        }),
        ("gap", 12, &|at| {
            fs::remove_dir_all(at.join(first.strip_prefix(home.demo()).unwrap())).unwrap();
        }),
        ("altered", 16, &|at| {
            let path = at.join("crew/allowed_signers");
            let crew = fs::read_to_string(&path).unwrap();
            let others: Vec<&str> = crew
                .lines()
                .filter(|line| !line.starts_with("wren"))
                .collect();
            fs::write(&path, others.join("\n") + "\n").unwrap();
        }),
        ("truncated", 14, &|at| {
            let path = at.join(below(&second, "trip.jsonl"));
            let journal = fs::read_to_string(&path).unwrap();
            let cut = journal.trim_end().rfind('\n').unwrap() + 1;
            fs::write(&path, &journal[..cut]).unwrap();
        }),
        ("altered", 16, &|at| {
            let path = at.join(below(&first, "trip.jsonl"));
            let journal = fs::read_to_string(&path).unwrap();
            fs::write(&path, journal.replacen("Tobias", "Tobios", 1)).unwrap();
        }),
        ("altered", 16, &|at| {
            let path = at.join(below(&first, "rig.yaml"));
            let rig = fs::read_to_string(&path).unwrap();
            fs::write(&path, rig.replacen("800 lb", "900 lb", 1)).unwrap();
        }),
        ("unreadable", 17, &|at| {
            fs::write(at.join(below(&first, "trip.jsonl")), "").unwrap();
        }),
    ];
    for (number, (word, status, damage)) in (1..).zip(damages) {
        let name = format!("copy-{number}");
        copy(&home.demo(), &home.path(&name));
        damage(&home.path(&name));
        let ended = home.hames(&format!("verify {name}")).run();
        assert_eq!(ended.status, status, "{word}: {}{}", ended.out, ended.err);
        let last = ended.out.lines().last().unwrap();
        assert!(
            last.ends_with(&format!(": {word}")),
            "{word}: {}",
            ended.out
        );
    }
}

#[test]
fn a_file_that_cannot_be_read_at_all_hides_no_other_trip() {
    let home = two_trips();
    let rig = trip(&home.demo(), 1).join("rig.yaml");
    fs::remove_file(&rig).unwrap();
    fs::create_dir(&rig).unwrap();
    let ended = home.hames("verify share/hames/demo").run();
    assert_eq!((ended.status, ended.err.as_str()), (17, ""));
    for told in [
        "000002-TRIP  not-countersigned  DEMO  abandoned",
        "000001-TRIP  unreadable\n  The disk refused to read ",
        "2 trips: unreadable\n",
    ] {
        assert!(ended.out.contains(told), "{told}: {}", ended.out);
    }
    let json = home.hames("verify --json share/hames/demo").run();
    assert_eq!(json.status, 17);
    assert!(
        json.out
            .contains(r#""finding":"unreadable","faults":["The disk"#),
        "{}",
        json.out
    );
}

#[test]
fn nothing_stored_reaches_the_terminal_as_a_control() {
    let home = sealed();
    let folder = trip(&home.demo(), 1);
    fs::write(folder.with_file_name("\u{1b}[2J"), "").unwrap();
    let path = folder.join("trip.jsonl");
    let journal = fs::read_to_string(&path).unwrap();
    let evil = "{\"\\u001b[2J\u{202e}\":1,\"step\":";
    fs::write(&path, journal.replacen(r#"{"step":"#, evil, 1)).unwrap();
    let ended = home.hames("verify share/hames/demo").run();
    for told in [
        r"unknown field `\u{1b}[2J\u{202e}`",
        r"not looked at: LAPTOP/\u{1b}[2J, which is no trip's folder",
    ] {
        assert!(ended.out.contains(told), "{told}: {}", ended.out);
    }
    let hidden = |letter: char| letter.is_control() && letter != '\n' || letter == '\u{202e}';
    assert!(!ended.out.contains(hidden), "{:?}", ended.out);
}

#[test]
fn a_record_under_another_name_number_or_device_is_told() {
    let home = sealed();
    let first = trip(&home.demo(), 1);
    let name = first.file_name().unwrap().to_str().unwrap();
    let device = first.ancestors().nth(2).unwrap();
    let (number, id) = name.split_once('-').unwrap();
    for other in [
        device.join(format!("t/000002-{id}")),
        device.join(format!("t/{number}-00000000")),
        home.demo().join(format!("dev/laptop-0000/t/{name}")),
    ] {
        copy(&first, &other);
        let ended = home.hames("verify share/hames/demo").run();
        assert_eq!(ended.status, 16, "{}", ended.out);
        let told = "the record is trip 1 of LAPTOP, and lies in the folder of another";
        assert!(ended.out.contains(told), "{}", ended.out);
        fs::remove_dir_all(other).unwrap();
    }
    assert_eq!(home.hames("verify share/hames/demo").run().status, 9);
}

#[test]
fn it_needs_no_home_and_changes_nothing() {
    let home = sealed();
    copy(&home.demo(), &home.path("stick"));
    fs::remove_dir_all(home.path("stick/keys")).unwrap();
    let state = |root: &Path| -> Vec<(String, Vec<u8>)> {
        let files = files_below(root).into_iter();
        files
            .map(|file| (file.clone(), fs::read(root.join(file)).unwrap()))
            .collect()
    };
    let before = state(&home.path("stick"));
    fs::remove_dir_all(home.path("share")).unwrap();
    for entry in files_below(&home.path("stick")) {
        let path = home.path("stick").join(entry);
        let mut permissions = fs::metadata(&path).unwrap().permissions();
        permissions.set_readonly(true);
        fs::set_permissions(&path, permissions).unwrap();
    }
    let ended = home
        .hames("verify stick")
        .without(&["HOME", "XDG_DATA_HOME", "LC_ALL"])
        .run();
    assert_eq!((ended.status, ended.err.as_str()), (9, ""), "{}", ended.out);
    assert_eq!(state(&home.path("stick")), before);
    assert!(home.files().iter().all(|file| file.starts_with("stick/")));
}

#[test]
fn one_trip_is_judged_by_the_crew_above_it_or_by_the_one_you_name() {
    let home = sealed();
    let folder = trip(&home.demo(), 1);
    let inside = home.hames(&format!("verify {}", folder.display())).run();
    assert_eq!(inside.status, 9, "{}", inside.out);
    copy(&folder, &home.path("mail"));
    home.hames("verify mail").run().is(
        13,
        "\
mail  unknown-signer
  the crew file in force was HASH, which is not one of those you trust; ask your manager for it
1 trip: unknown-signer
",
        "",
    );
    let named = home
        .hames("verify mail --crew share/hames/demo/crew/allowed_signers")
        .run();
    assert_eq!(named.status, 9, "{}", named.out);
}

#[test]
fn a_crew_that_grew_by_hand_before_there_were_rosters_still_knows_its_earlier_trips() {
    let home = Home::new();
    let old = crate::architecture::root().join("tests/vectors/logbook/v1");
    copy(&old, &home.path("old"));
    let path = home.path("old/crew/allowed_signers");
    let crew = fs::read_to_string(&path).unwrap();
    let line = crew.lines().next().unwrap();
    let bench = stock::Bench::new();
    let key = fs::read_to_string(bench.keygen("sam", "x").with_extension("pub")).unwrap();
    let key = key.split(' ').nth(1).unwrap();
    let parts: Vec<&str> = line.split(' ').collect();
    let more = format!(
        "sam.reed,role:groom {} ssh-ed25519 {key} Sam Reed\n",
        parts[1]
    );
    fs::write(&path, crew.clone() + &more).unwrap();
    assert_eq!(home.hames("verify old").run().status, 9);
    // With somebody taken out, it is another crew than the one in force.
    let fewer: String = crew.split_inclusive('\n').skip(1).collect();
    fs::write(&path, more + &fewer).unwrap();
    assert_eq!(home.hames("verify old").run().status, 13);
}

#[test]
fn a_crew_file_changed_by_hand_under_a_roster_is_told_as_altered() {
    let home = sealed();
    let path = home.demo().join("crew/allowed_signers");
    let crew = fs::read_to_string(&path).unwrap();
    fs::write(&path, crew.replacen("Tobias Fenn", "Tobias Fen", 1)).unwrap();
    let ended = home.hames("verify share/hames/demo").run();
    assert_eq!(ended.status, 16, "{}", ended.out);
    assert!(
        ended
            .out
            .contains("was changed, and no manager has signed that"),
        "{}",
        ended.out
    );
}

#[test]
fn json_is_one_object_a_line_with_its_schema() {
    let home = two_trips();
    fs::remove_dir_all(trip(&home.demo(), 1)).unwrap();
    let ended = home.hames("verify share/hames/demo --json").run();
    assert_eq!((ended.status, ended.err.as_str()), (12, ""));
    let lines: Vec<serde_json::Value> = ended
        .out
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    assert!(lines.iter().all(|line| line["schema"] == "hames-verify/1"));
    let kinds: Vec<&str> = lines
        .iter()
        .map(|line| line["kind"].as_str().unwrap())
        .collect();
    assert_eq!(kinds, ["trip", "order", "newest", "whole"]);
    assert_eq!(lines[0]["finding"], "not-countersigned");
    assert_eq!(lines[0]["number"], 2);
    assert_eq!(lines[0]["mode"], "demo");
    assert_eq!(lines[0]["outcome"], "abandoned");
    assert_eq!(lines[0]["signed_by"], "Wren Ashdown");
    assert_eq!(lines[0]["receipt"], "RECEIPT");
    let what = lines[1]["what"].as_str().unwrap();
    assert!(
        what.starts_with("trip 1 of LAPTOP is not here, or cannot be relied on; behind stands"),
        "{what}"
    );
    assert_eq!(lines[1]["from"], 1);
    assert_eq!(lines[2]["number"], 2);
    assert_eq!(lines[3]["finding"], "gap");
}

#[test]
fn what_is_no_logbook_is_said_to_be_none() {
    Home::new().hames("verify .").run().is(
        2,
        "",
        "There is neither a logbook nor a trip in .. Name the folder of one.\n",
    );
}

#[test]
fn the_stock_tool_accepts_both_signatures_by_the_crew_file() {
    let home = sealed();
    let folder = trip(&home.demo(), 1);
    let crew = fs::read(home.demo().join("crew/allowed_signers")).unwrap();
    let seal = fs::read(folder.join("seal.json")).unwrap();
    let bench = stock::Bench::new();
    for (who, namespace, signature) in [
        ("role:driver", "hames.performed.v1.demo", "seal.person.sig"),
        ("role:device", "hames.witnessed.v1.demo", "seal.device.sig"),
    ] {
        let armor = fs::read_to_string(folder.join(signature)).unwrap();
        let answer = bench.verify(&crew, who, namespace, &seal, &armor);
        assert!(answer.good, "{who}: {}", answer.said);
        let other = bench.verify(&crew, "role:manager", namespace, &seal, &armor);
        assert!(!other.good);
    }
}

#[test]
fn a_logbook_or_a_trip_that_is_named_twice_is_judged_once() {
    let home = two_trips();
    let (logbook, trip) = (home.demo(), trip(&home.demo(), 1));
    std::os::unix::fs::symlink(&logbook, home.path("barn")).unwrap();
    let below = |path: &Path| {
        path.strip_prefix(home.path(""))
            .unwrap()
            .display()
            .to_string()
    };
    let (logbook, trip) = (below(&logbook), below(&trip));
    let once = home.hames(&format!("verify {logbook}")).run();
    assert!(once.out.contains("2 trips: "), "{}", once.out);
    for again in [
        &logbook,
        &format!("{logbook}/"),
        &format!("./{logbook}/../demo"),
        "barn",
        &trip,
    ] {
        let twice = home.hames(&format!("verify {logbook} {again}")).run();
        assert_eq!((twice.status, twice.out), (once.status, once.out.clone()));
    }
    let alone = home.hames(&format!("verify {trip}")).run();
    let twice = home.hames(&format!("verify {trip} ./{trip}")).run();
    assert_eq!((twice.status, twice.out), (alone.status, alone.out));
}
