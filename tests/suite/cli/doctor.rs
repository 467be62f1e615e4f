//! The doctor on a logbook that is well, and on one made sick in each way it knows.

mod drills;
mod records;

use super::logbook::countersign::{copy, laptop, short_trips};
use crate::harness::home::{Ended, Home, trip};
use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::Path;

fn doctor(home: &Home, logbook: &str) -> Ended {
    home.hames(&format!("doctor --logbook {logbook}")).run()
}

/// A home with one signed trip.
fn well() -> Home {
    short_trips(1)
}

#[test]
fn a_logbook_that_is_well_is_told_so_and_nothing_is_left_behind() {
    let home = well();
    let before = home.files();
    let ended = doctor(&home, "share/hames/demo");
    assert_eq!((ended.status, ended.err.as_str()), (0, ""), "{}", ended.out);
    let firsts: Vec<&str> = ended.out.lines().map(|line| &line[..5]).collect();
    assert!(
        firsts
            .iter()
            .all(|first| ["ok   ", "look "].contains(first)),
        "{}",
        ended.out
    );
    for told in [
        "ok     keys: odile.marsh has the key of the crew file here, in share/hames/demo/keys/odile.marsh.\n",
        "ok     device: this laptop is LAPTOP.\n",
        "ok     crew: crew file 1, put in force by statement 1 of Odile Marsh.\n",
        "ok     trips: each of the 1 here was verified, and their numbers and ends fit together",
        "ok     statements: each of the 1 here was verified",
        "ok     disk: a file was written, locked, kept and removed again.\n",
        "ok     sharing: names, line ends and ignore files",
        "ok     left: nothing lies about, and every trip is signed.\n",
    ] {
        assert!(ended.out.contains(told), "{told}\n{}", ended.out);
    }
    assert_eq!(home.files(), before);
    let json = home.hames("doctor --demo --read-only --json").run();
    assert_eq!(json.status, 0);
    assert!(
        json.out
            .contains(r#"{"schema":"hames-doctor/1","of":"device","stands":"ok","told":"this"#),
        "{}",
        json.out
    );
    assert!(!json.out.contains("written, locked"), "{}", json.out);
}

#[test]
fn without_a_logbook_the_doctor_says_so() {
    let home = Home::new();
    let ended = home.hames("doctor").run();
    assert_eq!((ended.status, ended.err.as_str()), (0, ""));
    assert!(
        ended
            .out
            .starts_with("look   logbook: there is none in HOME/share/hames/logbook."),
        "{}",
        ended.out
    );
    assert_eq!(home.files(), [""; 0]);
}

/// What is done to a logbook, given its folder and its one trip's.
type Sickness<'a> = &'a dyn Fn(&Path, &Path);

#[test]
#[expect(clippy::too_many_lines, reason = "a table: one row a sickness")]
fn each_sickness_is_told_with_what_to_do() {
    let home = well();
    let device = laptop(&home);
    let below = trip(&home.demo(), 1);
    let below = below.strip_prefix(home.demo()).unwrap();
    let set = |path: &Path, mode: u32| {
        fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
    };
    let git = |root: &Path, config: &str| {
        fs::create_dir(root.join(".git")).unwrap();
        fs::write(root.join(".git/config"), config).unwrap();
    };
    let sicknesses: [(&str, &str, Sickness<'_>); 27] = [
        (
            "wrong  keys",
            "can be read by others on this laptop. Run: chmod 600",
            &|root, _| {
                set(&root.join("keys/odile.marsh"), 0o644);
            },
        ),
        (
            "wrong  keys",
            "this is not an OpenSSH private key, or it is damaged",
            &|root, _| {
                fs::write(root.join("keys/wren.ashdown"), "gone\n").unwrap();
            },
        ),
        (
            "wrong  keys",
            "no key of wren.ashdown here is the one in the crew file",
            &|root, _| {
                fs::copy(
                    root.join("keys/odile.marsh"),
                    root.join("keys/wren.ashdown"),
                )
                .unwrap();
            },
        ),
        ("wrong  keys", "this key has no passphrase", &|root, _| {
            fs::copy(
                root.join("keys").join(&device),
                root.join("keys/wren.ashdown"),
            )
            .unwrap();
        }),
        (
            "look   keys",
            "/keys/odile.marsh - Copy is a copy of the key of Odile Marsh, which is kept in ",
            &|root, _| {
                let keys = root.join("keys");
                fs::copy(keys.join("odile.marsh"), keys.join("odile.marsh - Copy")).unwrap();
            },
        ),
        (
            "wrong  device",
            "this laptop has no key of its own in the crew file",
            &|root, _| {
                fs::remove_file(root.join("keys").join(&device)).unwrap();
            },
        ),
        (
            "wrong  crew",
            "no manager has signed that as far as is known here; where its statement \
             has not arrived yet, merge first. In force is crew file 1, by statement 1 of \
             Odile Marsh",
            &|root, _| {
                let crew = root.join("crew/allowed_signers");
                let text = fs::read_to_string(&crew).unwrap();
                fs::write(&crew, format!("# ours\n{text}")).unwrap();
            },
        ),
        (
            "wrong  disk",
            "everybody on this laptop may write in",
            &|root, _| {
                set(root, 0o777);
            },
        ),
        (
            "wrong  sharing",
            ".gitattributes does not hold the line “* -text”",
            &|root, _| {
                fs::remove_file(root.join(".gitattributes")).unwrap();
            },
        ),
        (
            "wrong  sharing",
            "core.autocrlf is set for this repository",
            &|root, _| {
                git(root, "[core]\n\tautocrlf = true\n");
                fs::write(root.join(".gitattributes"), "* text\n").unwrap();
            },
        ),
        (
            "look   sharing",
            ".gitignore does not hold the line “/keys/”",
            &|root, _| {
                fs::remove_file(root.join(".gitignore")).unwrap();
            },
        ),
        (
            "wrong  sharing",
            ".gitignore does not hold the line “/keys/”",
            &|root, _| {
                git(root, "");
                fs::remove_file(root.join(".gitignore")).unwrap();
            },
        ),
        (
            "wrong  sharing",
            "private keys may be in the repository already",
            &|root, _| {
                git(root, "");
                fs::write(root.join(".git/index"), "DIRC keys/odile.marsh").unwrap();
            },
        ),
        (
            "wrong  sharing",
            "a sync keeps this folder the same elsewhere",
            &|root, _| {
                fs::create_dir(root.join(".stfolder")).unwrap();
            },
        ),
        (
            "look   sharing",
            "looks like a second copy that a sync or an editor made",
            &|root, at| {
                let copy = at.join("seal (1).json");
                fs::copy(root.join(".gitignore"), copy).unwrap();
            },
        ),
        (
            "look   sharing",
            "crew/allowed_signers-CAB-LAPTOP looks like a second copy",
            &|root, _| {
                let crew = root.join("crew");
                let copy = crew.join("allowed_signers-CAB-LAPTOP");
                fs::copy(crew.join("allowed_signers"), copy).unwrap();
            },
        ),
        (
            "wrong  sharing",
            "differ in small and large letters alone",
            &|root, at| {
                fs::copy(root.join(".gitignore"), at.join("SEAL.json")).unwrap();
            },
        ),
        (
            "look   sharing",
            "has a name of more than 100 characters",
            &|root, at| {
                fs::copy(root.join(".gitignore"), at.join("n".repeat(101))).unwrap();
            },
        ),
        (
            "wrong  sharing",
            "were changed on the way (CRLF)",
            &|_, at| {
                let journal = at.join("trip.jsonl");
                let text = fs::read_to_string(&journal).unwrap();
                fs::write(&journal, text.replace('\n', "\r\n")).unwrap();
            },
        ),
        (
            "look   left",
            "is what a crash left of a file in the making",
            &|root, at| {
                fs::copy(root.join(".gitignore"), at.join(".seal.json.draft-0")).unwrap();
            },
        ),
        (
            "look   left",
            "1 thing lies in quarantine/, which a merge could not use",
            &|root, _| {
                fs::create_dir_all(root.join("quarantine/5c1e09b4")).unwrap();
            },
        ),
        (
            "look   left",
            "notes.txt lies among the trips of",
            &|root, at| {
                let notes = at.parent().unwrap().join("notes.txt");
                fs::copy(root.join(".gitignore"), notes).unwrap();
            },
        ),
        (
            "look   left",
            "is an empty folder; nothing in it was ever recorded",
            &|_, at| {
                fs::create_dir(at.parent().unwrap().join("000002-abcd")).unwrap();
            },
        ),
        (
            "look   left",
            "cache/ holds what this program cannot read",
            &|root, _| {
                fs::create_dir(root.join("cache")).unwrap();
                fs::write(root.join("cache/trips.json"), "{").unwrap();
            },
        ),
        (
            "look   left",
            "has ended, and nobody has signed it",
            &|_, at| {
                fs::remove_file(at.join("seal.json")).unwrap();
            },
        ),
        (
            "look   left",
            "has not ended. Take it up on its laptop",
            &|_, at| {
                fs::remove_file(at.join("seal.json")).unwrap();
                let journal = at.join("trip.jsonl");
                let text = fs::read_to_string(&journal).unwrap();
                let lines: Vec<&str> = text.lines().collect();
                fs::write(&journal, lines[..lines.len() - 1].join("\n") + "\n").unwrap();
            },
        ),
        (
            "look   left",
            "is what a crash left of a beginning; nothing in it was ever recorded",
            &|_, at| {
                let later = at.parent().unwrap().join("000002-0badc0de");
                fs::create_dir(&later).unwrap();
                fs::write(later.join("checklist.yaml"), "id: x\n").unwrap();
                fs::write(later.join("trip.jsonl"), "{\"v\":1").unwrap();
            },
        ),
    ];
    for (number, (stands, told, sicken)) in (1..).zip(sicknesses) {
        let name = format!("sick-{number}");
        let root = home.path(&name);
        copy(&home.demo(), &root);
        for key in fs::read_dir(root.join("keys")).unwrap() {
            set(&key.unwrap().path(), 0o600);
        }
        sicken(&root, &root.join(below));
        let ended = doctor(&home, &name);
        let line = ended.out.lines().find(|line| line.contains(told));
        let line = line.unwrap_or_else(|| panic!("{told}\n{}", ended.out));
        assert!(line.starts_with(stands), "{line}");
        let status = i32::from(ended.out.lines().any(|line| line.starts_with("wrong")));
        assert_eq!((ended.status, ended.err.as_str()), (status, ""), "{told}");
    }
}

#[test]
fn a_logbook_without_its_crew_file_is_not_taken_for_none() {
    let home = Home::new();
    crate::cli::verify::copy(
        &crate::architecture::root().join("tests/vectors/logbook/v1"),
        &home.path("book"),
    );
    fs::remove_file(home.path("book/crew/allowed_signers")).unwrap();
    let before = home.files();
    for command in [
        "doctor --logbook book",
        "walk --plain --logbook book",
        "--plain --logbook book",
    ] {
        let ended = home
            .hames(command)
            .typed("Quillwater\nWren Ashdown\n")
            .run();
        assert_ne!(ended.status, 0, "{command}: {}", ended.out);
        let told = ended.out + &ended.err;
        assert!(
            told.contains("has trips and no crew/allowed_signers"),
            "{command}: {told}"
        );
    }
    assert_eq!(home.files(), before);
}

#[test]
fn no_command_that_takes_a_private_key_away_is_told_whatever_lies_among_the_keys() {
    let home = well();
    let root = home.demo();
    let (own, copy) = (
        root.join("keys/wren.ashdown"),
        root.join("keys/wren.ashdown - Copy"),
    );
    let (crew, key) = (root.join("crew/allowed_signers"), fs::read(&own).unwrap());
    let (signers, mode) = (
        fs::read_to_string(&crew).unwrap(),
        fs::Permissions::from_mode(0o600),
    );
    let told = || {
        let ended = doctor(&home, "share/hames/demo");
        assert!(!ended.out.contains("rm "), "{}", ended.out);
        ended.out
    };
    fs::write(&copy, &key).unwrap();
    fs::set_permissions(&copy, mode).unwrap();
    let both = told();
    assert!(
        both.contains("/keys/wren.ashdown - Copy is a copy of the key of Wren Ashdown, which is"),
        "{both}"
    );
    fs::remove_file(&own).unwrap();
    let alone = told();
    assert!(
        alone.contains("/keys/wren.ashdown - Copy is the only file here with the key of Wren"),
        "{alone}"
    );
    assert!(!alone.contains("away"), "{alone}");
    fs::write(&own, &key).unwrap();
    let without: Vec<&str> = signers
        .lines()
        .filter(|line| !line.contains("wren"))
        .collect();
    for damaged in [
        String::new(),
        "oats\n".to_owned(),
        without.join("\n") + "\n",
    ] {
        fs::write(&crew, &damaged).unwrap();
        let told = told();
        assert!(!told.contains("let into the crew"), "{told}");
        assert!(!told.contains("may take"), "{told}");
    }
}

#[test]
fn a_later_folder_without_a_line_makes_no_trip_abandoned() {
    let home = Home::new();
    let left = home
        .hames("walk --demo --plain")
        .typed("1\n1\n10\n1\n2\n\nquit\n")
        .run();
    assert_eq!(left.status, 0, "{}{}", left.out, left.err);
    let first = trip(&home.demo(), 1);
    let later = first.with_file_name("000002-0badc0de");
    fs::create_dir(&later).unwrap();
    fs::write(later.join("checklist.yaml"), "id: x\n").unwrap();
    let told = || home.hames("doctor --demo --read-only").run().out;
    let open = "000001-TRIP of LAPTOP has not ended. Take it up on its laptop";
    assert!(told().contains(open), "{}", told());
    assert!(!told().contains("abandoned"), "{}", told());
    // A whole line begins a trip.
    let begun = fs::read_to_string(first.join("trip.jsonl")).unwrap();
    let line = begun.split_inclusive('\n').next().unwrap();
    fs::write(later.join("trip.jsonl"), line).unwrap();
    let was = "000001-TRIP of LAPTOP was abandoned: a later trip began before it ended";
    assert!(told().contains(was), "{}", told());
}
