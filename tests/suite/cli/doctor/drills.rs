//! What the doctor says of drills.

use crate::cli::verify::drills::book;
use crate::harness::home::Home;
use std::fs;
use std::path::Path;

fn drills(home: &Home) -> Vec<String> {
    let ended = home.hames("doctor --read-only --logbook book").run();
    let own = ended.out.lines().filter(|line| line.contains("  drills: "));
    own.map(str::to_owned).collect()
}

#[test]
fn drills_that_are_well_are_told_in_one_line_and_where_there_are_none_nothing_is() {
    let (home, _) = book();
    let well = "ok     drills: each of the 2 here was verified, and every one is signed.";
    assert_eq!(drills(&home), [well]);
    fs::remove_dir_all(home.path("book/drill")).unwrap();
    assert_eq!(drills(&home), [""; 0]);
}

#[test]
fn each_thing_that_is_not_well_with_drills_is_told_with_what_to_do() {
    type Sickness = fn(&Path, &Path);
    let sicknesses: [(&str, &[&str], Sickness); 5] = [
        (
            "look ",
            &["was begun and has not ended. Go on with it on its laptop"],
            |_, drill| {
                for name in ["seal.json", "seal.person.sig", "seal.device.sig"] {
                    fs::remove_file(drill.join(name)).unwrap();
                }
                let journal = drill.join("trip.jsonl");
                let text = fs::read_to_string(&journal).unwrap();
                let short: Vec<&str> = text.split_inclusive('\n').take(5).collect();
                fs::write(&journal, short.concat()).unwrap();
            },
        ),
        (
            "wrong",
            &[
                " is altered: ",
                "Where a stick or another laptop has it whole",
            ],
            |_, drill| {
                fs::write(drill.join("sights.yaml"), "other\n").unwrap();
            },
        ),
        (
            "wrong",
            &["is missing", "No manager can give up a drill"],
            |_, drill| {
                fs::remove_dir_all(drill).unwrap();
            },
        ),
        (
            "look ",
            &["drill/notes.txt lies among the drills and is none"],
            |root, _| {
                fs::write(root.join("drill/notes.txt"), "mine\n").unwrap();
            },
        ),
        (
            "look ",
            &["is what a crash left of a beginning"],
            |_, drill| {
                let begun = drill.with_file_name("000003-d0a11000");
                fs::create_dir(&begun).unwrap();
                fs::copy(drill.join("rig.yaml"), begun.join("rig.yaml")).unwrap();
            },
        ),
    ];
    for (stands, told, sicken) in sicknesses {
        let (home, first) = book();
        let root = home.path("book");
        sicken(&root, &root.join(first));
        let found = drills(&home);
        let is_told = |line: &&String| {
            line.starts_with(stands) && told.iter().all(|told| line.contains(told))
        };
        assert!(
            found.iter().any(|line| is_told(&line)),
            "{told:?}: {found:#?}"
        );
    }
}
