//! Who may do what: by what a manager stated, and by what was walked.

use super::countersign::{SHORT, says, short_trips};
use super::report::book;
use crate::cli::demo::sealed;
use crate::harness::home::{Ended, Home};
use serde_json::Value;

fn people(home: &Home, more: &str) -> Ended {
    let place = home.demo();
    let place = place.to_str().unwrap();
    home.hames(&format!("logbook people --logbook {place} {more}"))
        .run()
}

fn sign_off(home: &Home, what: &str) {
    let said = home.hames(&format!("crew sign-off --demo {what}"));
    let said = said.typed("demo\n").run();
    assert_eq!(said.status, 0, "{}{}", said.out, said.err);
}

#[test]
fn whoever_walked_is_told_with_when_and_what_they_are_not_signed_off_for_is_asked() {
    let home = sealed();
    let told = people(&home, "");
    assert_eq!((told.status, told.err.as_str()), (0, ""), "{}", told.out);
    says(
        &told.out,
        &[
            "No manager has signed anybody off yet.",
            "Wren Ashdown (wren.ashdown), driver\n",
            "1 walk, the last on ",
            ", today:",
            "Never walked: Juniper, two-horse bumper pull.\n",
        ],
    );
    assert!(!told.out.contains("To ask"), "{}", told.out);

    sign_off(&home, "wren.ashdown --rig mesquite");
    sign_off(&home, "tobias.fenn --checklist departure");
    let told = people(&home, "");
    says(
        &told.out.replace("\n  ", " "),
        &[
            "Not signed off.",
            "mesquite: never walked. Signed off for every list.",
            "Signed off for departure.",
            "To ask: Wren Ashdown walked Juniper, two-horse bumper pull without being signed off for \
             it now: “Hitch up a bumper pull” 1 time. Is that as it should be?",
            "Tobias Fenn walked Juniper",
        ],
    );
    for line in told.out.lines().filter(|line| !line.contains("--logbook")) {
        assert!(line.chars().count() <= 80, "{line}");
    }

    let part = people(&home, "--person ashdown --rig juniper");
    let one = people(&home, "--person wren.ashdown --rig juniper");
    assert_eq!(part, one);
    says(&one.out, &["Hitch up a bumper pull: 1 time, the last on "]);
    assert!(
        !one.out.contains("Odile") && !one.out.contains("mesquite"),
        "{}",
        one.out
    );

    sign_off(&home, "wren.ashdown");
    sign_off(&home, "tobias.fenn");
    assert!(!people(&home, "").out.contains("To ask"));
}

#[test]
fn each_of_the_crew_and_each_rig_is_one_line_of_json() {
    let home = sealed();
    sign_off(&home, "tobias.fenn --checklist departure");
    let told = people(&home, "--json");
    let lines: Vec<Value> = told
        .out
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    let of = |id: &str| lines.iter().find(|line| line["person"] == id).unwrap();
    assert!(lines.iter().all(|line| line["schema"] == "hames-people/1"));
    let wren = of("wren.ashdown");
    assert_eq!(
        (&wren["walks"], &wren["currency"]),
        (&1.into(), &"current".into())
    );
    assert_eq!(wren["signed_off"], Value::Bool(false));
    assert_eq!(wren["lists"][0]["checklist"], "hitch-bumper");
    let odile = of("odile.marsh");
    assert_eq!(
        (&odile["last"], &odile["currency"]),
        (&Value::Null, &"never".into())
    );
    assert_eq!(of("tobias.fenn")["signed_off"][0], "departure");
}

#[test]
fn a_walk_that_was_given_up_makes_nobody_current_and_a_name_that_is_not_here_is_told() {
    let home = short_trips(1);
    // Stopped at its first step, by what was found there.
    let stopped = SHORT.replace("abandoned", "not-fit-to-go");
    let stopped = home.hames("--plain").typed(&stopped).run();
    assert!(stopped.out.contains("Sealed."), "{}", stopped.out);
    let told = people(&home, "");
    assert!(!told.out.contains("walk,"), "{}", told.out);
    for (asked, says) in [
        (
            "--person ashdwon",
            "Nobody in the crew is called “ashdwon”; did you mean Wren Ashdown? They are: Odile \
             Marsh, Tobias Fenn, Wren Ashdown.",
        ),
        ("--rig pegasus", "names a rig “pegasus”"),
    ] {
        let refused = people(&home, asked);
        assert_eq!((refused.status, refused.out.as_str()), (2, ""), "{asked}");
        assert!(refused.err.contains(says), "{}", refused.err);
    }
}

#[test]
fn who_walks_a_rig_they_are_not_signed_off_for_is_asked_about_in_the_invented_barn() {
    let home = book(60);
    let told = home.hames("logbook people --logbook book").run();
    says(
        &told.out.replace("\n  ", " "),
        &[
            "Signed off for every list.",
            "Odile Marsh (odile.marsh), manager Never walked",
            "Ansel Dunmore walked Mesquite, four-horse gooseneck without being signed off",
        ],
    );
}
