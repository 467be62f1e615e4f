//! `hames logbook merge` as people use it: a stick, a restored backup, Git, two windows at once.

use crate::cli::demo::sealed;
use crate::harness::home::{Home, files_below, trip};
use std::fs;
use std::path::Path;
use std::process::Command;

fn copy(from: &Path, to: &Path) {
    for file in files_below(from) {
        fs::create_dir_all(to.join(&file).parent().unwrap()).unwrap();
        fs::copy(from.join(&file), to.join(&file)).unwrap();
    }
}

fn state(root: &Path) -> Vec<(String, Vec<u8>)> {
    let files = files_below(root).into_iter();
    files
        .map(|file| (file.clone(), fs::read(root.join(file)).unwrap()))
        .collect()
}

/// A home with two trips, and `early`, a copy made after the first.
fn two_trips() -> Home {
    let home = crate::cli::verify::two_trips();
    copy(&sealed().demo(), &home.path("early"));
    home
}

#[test]
fn a_stick_brings_what_is_missing_and_a_restored_backup_gets_its_trips_again() {
    let home = two_trips();
    copy(&home.demo(), &home.path("stick"));
    home.hames("logbook merge --logbook share/hames/demo stick")
        .run()
        .is(
            0,
            "\
newest: trip 2 of LAPTOP is the newest here; later ones may be missing
From stick: nothing new came; 2 trips were here already; nothing is set aside or open.
",
            "",
        );
    fs::remove_dir_all(home.demo()).unwrap();
    copy(&home.path("early"), &home.demo());
    let before = state(&home.demo());
    let looked = home
        .hames("logbook merge --logbook share/hames/demo stick --look")
        .run();
    assert_eq!((looked.status, looked.err.as_str()), (0, ""));
    assert!(looked.out.contains("nothing was written"), "{}", looked.out);
    assert_eq!(state(&home.demo()), before);
    let merged = home
        .hames("logbook merge --logbook share/hames/demo stick")
        .run();
    assert_eq!(merged.status, 0, "{}{}", merged.out, merged.err);
    for told in [
        "came: trip 2 of LAPTOP\n  share/hames/demo/dev/LAPTOP/t/000002-TRIP\n",
        "own trips: LAPTOP is this laptop, and others had trips of it that this logbook had not. ",
        "1 trip was here already; nothing is set aside or open",
    ] {
        assert!(merged.out.contains(told), "{told}: {}", merged.out);
    }
    assert_eq!(home.hames("verify share/hames/demo").run().status, 9);
    let json = home
        .hames("logbook merge --logbook share/hames/demo stick --json")
        .run();
    let lines: Vec<serde_json::Value> = json
        .out
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    assert!(lines.iter().all(|line| line["schema"] == "hames-merge/1"));
    assert_eq!(lines.last().unwrap()["kind"], "whole");
}

#[test]
fn two_windows_that_merge_at_once_come_to_one_whole_logbook() {
    let home = two_trips();
    copy(&home.demo(), &home.path("stick"));
    fs::remove_dir_all(home.demo()).unwrap();
    copy(&home.path("early"), &home.demo());
    let start = || {
        home.hames("logbook merge --logbook share/hames/demo stick")
            .start()
    };
    let both = [start(), start(), start()];
    for child in both {
        let ended = child.wait_with_output().unwrap();
        assert!(matches!(ended.status.code(), Some(0 | 1)), "{ended:?}");
    }
    let last = home
        .hames("logbook merge --logbook share/hames/demo stick")
        .run();
    assert_eq!(last.status, 0, "{}", last.out);
    home.hames("verify share/hames/demo")
        .run()
        .ends(9, "2 trips: not-countersigned", "");
    drop(trip(&home.demo(), 2));
}

fn git(home: &Home, folder: &str, arguments: &[&str]) {
    let mut command = Command::new("git");
    let settings = [
        "user.name=Wren Ashdown",
        "user.email=wren@barn.invalid",
        "commit.gpgsign=false",
        "init.defaultBranch=main",
        "core.autocrlf=true",
        "core.safecrlf=false",
    ];
    for setting in settings {
        command.args(["-c", setting]);
    }
    let ended = command
        .args(arguments)
        .current_dir(home.path(folder))
        .env("HOME", home.path(""))
        .env("GIT_CONFIG_NOSYSTEM", "1")
        .output()
        .unwrap();
    assert!(ended.status.success(), "{arguments:?}: {ended:?}");
}

#[test]
fn git_that_changes_line_endings_is_kept_from_it_by_the_logbooks_own_attributes() {
    let home = sealed();
    let commit = |folder: &str| {
        git(&home, folder, &["init", "-q"]);
        git(&home, folder, &["add", "."]);
        git(&home, folder, &["commit", "-q", "-m", "day"]);
    };
    copy(&home.demo(), &home.path("with"));
    commit("with");
    git(&home, "", &["clone", "-q", "with", "clone-with"]);
    let cloned = files_below(&home.path("clone-with"));
    let keys = cloned.iter().filter(|file| file.starts_with("keys/"));
    assert_eq!(keys.count(), 0, "private keys stay where they are");
    let merged = home
        .hames("logbook merge --logbook share/hames/demo clone-with")
        .run();
    assert_eq!(merged.status, 0, "{}", merged.out);
    assert!(
        merged
            .out
            .contains("nothing new came; 1 trip was here already"),
        "{}",
        merged.out
    );

    copy(&home.demo(), &home.path("without"));
    fs::remove_file(home.path("without/.gitattributes")).unwrap();
    commit("without");
    git(&home, "", &["clone", "-q", "without", "clone-without"]);
    let merged = home
        .hames("logbook merge --logbook share/hames/demo clone-without")
        .run();
    assert_eq!(merged.status, 1, "{}", merged.out);
    assert!(
        merged.out.contains(
            "the line endings were changed in transit; put the line “* -text” into .gitattributes"
        ),
        "{}",
        merged.out
    );
    assert_eq!(home.hames("verify share/hames/demo").run().status, 9);
}
