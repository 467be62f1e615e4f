//! Drills beside the trips of a logbook: they are no trips to any list, and go along with an export.

use crate::barn50::making::{Barn, Left, lay};
use crate::cli::verify::copy;
use crate::cli::verify::drills::book;
use crate::harness::home::{Home, files_below};
use crate::second::bench::run;
use hames::record::Mode;
use std::fs;

#[test]
fn no_list_of_trips_has_a_drill_in_it_wherever_its_folder_was_copied() {
    let (home, first) = book();
    let (device, name) = first.rsplit_once("/t/").unwrap();
    let device = device.replacen("drill/", "", 1);
    let moved = home
        .path("book")
        .join(&device)
        .join("t")
        .join(name.replacen("000001", "000002", 1));
    for _ in 0..2 {
        for about in ["logbook", "logbook questions", "logbook table readings"] {
            let ended = home.hames(&format!("{about} --json --logbook book")).run();
            let table = home.hames(&format!("{about} --logbook book")).run();
            for out in [ended.out, table.out] {
                assert!(!out.contains("d-0a11"), "{about}: {out}");
                assert!(!out.contains("chock"), "{about}: {out}");
            }
        }
        let listed = home.hames("logbook --json --logbook book").run();
        assert_eq!(listed.out.lines().count(), 1, "{}", listed.out);
        copy(&home.path("book").join(&first), &moved);
    }
    let ended = home.hames("verify book").run();
    assert!(ended.out.contains("other-mode"), "{}", ended.out);
}

#[test]
fn an_export_has_the_drills_and_both_programs_check_them_there() {
    let (home, first) = book();
    let ended = home.hames("logbook export out --logbook book").run();
    assert_eq!(ended.status, 0, "{}{}", ended.out, ended.err);
    assert!(
        ended.out.contains("1 trip and 2 drills: intact"),
        "{}",
        ended.out
    );
    assert!(!ended.out.contains("left behind"), "{}", ended.out);
    let below = |root: &str| {
        let files = files_below(&home.path(root)).into_iter();
        let files = files.filter(|file| file.starts_with("drill/"));
        let read = |file: String| (file.clone(), fs::read(home.path(root).join(file)).unwrap());
        files.map(read).collect::<Vec<_>>()
    };
    assert_eq!(below("out"), below("book"));
    assert!(
        below("out")
            .iter()
            .any(|(file, _)| file.starts_with(&first))
    );
    let told = run("tests/second/logbook.py", &[home.path("out").into()]);
    assert_eq!(told.status, 0, "{}", told.all);
    let page = fs::read_to_string(home.path("out/READ-THIS.txt")).unwrap();
    for told in ["drill/dev/LAPTOP/t/", "scenario.yaml", "sights.yaml"] {
        assert!(page.contains(told), "{told}");
    }
    let used = home.path("out/second/drills.py");
    assert!(used.exists(), "the second program is whole");
}

#[test]
fn the_crew_of_the_demo_may_sign_drills_and_its_logbook_stays_one_of_the_demo() {
    let home = crate::cli::demo::sealed();
    let crew = fs::read_to_string(home.demo().join("crew/allowed_signers")).unwrap();
    for line in crew.lines() {
        assert!(
            line.contains(".v1.demo") && line.contains(".v1.drill"),
            "{line}"
        );
        assert!(!line.contains(".v1,") && !line.contains(".v1\""), "{line}");
    }
    let doctor = home.hames("doctor --demo --read-only").run();
    assert!(doctor.out.contains("for demo trips"), "{}", doctor.out);

    for mode in [Mode::Demo, Mode::Drill] {
        let mut barn = Barn::with_drills_of(mode);
        barn.walk(0, "wren.ashdown", Left::Sealed);
        barn.drill(0, "hooks-in");
        let home = Home::new();
        lay(&barn.files, &home.path("book"));
        let ours = home.hames("verify book").run();
        ours.ends(9, "1 trip and 1 drill: not-countersigned", "");
        assert!(
            ours.out.contains("Drills: 1 drill, intact\n"),
            "{}",
            ours.out
        );
        let told = run("tests/second/logbook.py", &[home.path("book").into()]);
        assert_eq!(told.status, 9, "{}", told.all);
    }
}
