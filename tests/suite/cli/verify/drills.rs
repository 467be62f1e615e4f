//! `hames verify` on drills: told apart from trips, and as grave.

use crate::barn50::drills::CALLED_AWAY;
use crate::barn50::making::{Barn, Left, lay};
use crate::harness::home::Home;
use hames::record::Opinion;
use std::fs;

/// A logbook with a trip that a manager agreed to, and two drills; the folder of the first of these.
pub(crate) fn book() -> (Home, String) {
    let mut barn = Barn::with_drills();
    barn.walk(0, "wren.ashdown", Left::Sealed);
    barn.countersign(0, Opinion::Agreed);
    barn.drill(0, CALLED_AWAY);
    barn.drill(0, "hooks-in");
    let home = Home::new();
    lay(&barn.files, &home.path("book"));
    (home, barn.drills[0].folder.clone())
}

#[test]
fn drills_are_told_apart_from_trips_and_no_manager_is_asked_to_countersign_them() {
    let (home, first) = book();
    let ended = home.hames("verify book").run();
    assert_eq!((ended.status, ended.err.as_str()), (0, ""), "{}", ended.out);
    let (trips, drills) = ended.out.split_once("Drills: 2 drills, intact\n").unwrap();
    assert_eq!(trips.matches("DRILL").count(), 0, "{trips}");
    assert!(trips.contains("by the crew file "), "{trips}");
    for told in [
        "  intact  DRILL  complete, signed by Wren Ashdown, driver, receipt ",
        "no statement names drills; the newest of LAPTOP here is drill 2, and later ones may be missing\n",
        "1 trip and 2 drills: intact\n",
    ] {
        assert!(drills.contains(told), "{told}\n{drills}");
    }
    assert_eq!(drills.matches("DRILL").count(), 2, "{drills}");
    for (path, last) in [
        ("book/drill".to_owned(), "2 drills: intact"),
        (format!("book/{first}"), "1 drill: intact"),
        (
            format!("book book/drill book/{first}"),
            "1 trip and 2 drills: intact",
        ),
    ] {
        let ended = home.hames(&format!("verify {path}")).run();
        ended.ends(0, last, "");
    }
}

#[test]
fn what_is_wrong_with_a_drill_is_as_grave_as_with_a_trip() {
    let (home, first) = book();
    let scenario = home.path("book").join(&first).join("scenario.yaml");
    let text = fs::read_to_string(&scenario).unwrap();
    fs::write(&scenario, format!("{text}# softer\n")).unwrap();
    for (path, last) in [
        ("book", "1 trip and 2 drills: altered"),
        ("book/drill", "2 drills: altered"),
    ] {
        let ended = home.hames(&format!("verify {path}")).run();
        ended.ends(16, last, "");
        assert!(
            ended.out.contains("Drills: 2 drills, altered\n"),
            "{}",
            ended.out
        );
        assert!(ended.out.contains("scenario.yaml"), "{}", ended.out);
    }
    let json = home.hames("verify --json book").run();
    let of_drills: Vec<&str> = json
        .out
        .lines()
        .filter(|line| line.contains("\"of_drills\":true"))
        .collect();
    let trips = of_drills
        .iter()
        .filter(|line| line.contains("\"kind\":\"trip\""));
    assert_eq!(trips.count(), 2, "{}", json.out);
    let last = json.out.lines().last().unwrap();
    for told in [
        "\"finding\":\"altered\",\"trips\":1,",
        "\"drills\":{\"drills\":2,\"finding\":\"altered\"}",
    ] {
        assert!(last.contains(told), "{told} in {last}");
    }
}

#[test]
fn a_drill_sent_alone_is_judged_as_one_and_is_no_walk_for_that() {
    let (home, first) = book();
    fs::rename(home.path("book").join(&first), home.path("sent")).unwrap();
    let ended = home
        .hames("verify --crew book/crew/allowed_signers sent")
        .run();
    ended.ends(0, "1 drill: intact", "");
    assert!(
        ended.out.contains("  intact  DRILL  complete"),
        "{}",
        ended.out
    );
    // Without a crew file nobody is known to have signed it.
    let ended = home.hames("verify sent").run();
    ended.ends(13, "1 drill: unknown-signer", "");
    assert!(
        ended.out.contains("Drills: 1 drill, unknown-signer\n"),
        "{}",
        ended.out
    );
}

#[test]
fn a_drill_that_is_missing_or_lies_elsewhere_is_called_a_drill() {
    let (home, first) = book();
    let folder = home.path("book").join(&first);
    let mut lies = folder;
    for (name, told) in [
        ("000003-d0a11000", "the record is drill 1 of LAPTOP, and "),
        ("copied by hand", "copied by hand holds drill 1 of LAPTOP, "),
    ] {
        let elsewhere = lies.with_file_name(name);
        fs::rename(&lies, &elsewhere).unwrap();
        let ended = home.hames("verify book").run();
        assert!(ended.out.contains(told), "{told}\n{}", ended.out);
        lies = elsewhere;
    }
    fs::remove_dir_all(&lies).unwrap();
    let ended = home.hames("verify book").run();
    for told in ["drill 1 of LAPTOP is not here", "; behind stands drill 2 ("] {
        assert!(ended.out.contains(told), "{told}\n{}", ended.out);
    }
    assert!(!ended.out.contains("trip 2"), "{}", ended.out);
}
