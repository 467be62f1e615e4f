//! Defects as a barn has them: left by a walk, listed, given to somebody, overdue, closed by a
//! reading, and told in the history.

use super::countersign::{copy, laptop, says, statements};
use super::prune::named;
use crate::harness::home::{Ended, Home};

/// A list of one step, on the road or not.
fn put_list(home: &Home, id: &str, road: bool) {
    let text = format!(
        "format: hames-checklist/1
id: {id}
title: The {id}
revision: 1
rigs: [bumper-pull, gooseneck]
haul: apart
road: {road}
cautions:
  - This work can crush a hand.
sections:
  - id: all
    title: All
    style: read-do
    pause: true
    complete: What was named was answered.
    steps:
      - id: {id}-mats
        name: Mats
        act: Look at them.
        why: They hold the feet.
        skipped: It stays unknown.
        place: box
        sighting:
          states:
            - {{ id: sound, seen: Sound, verdict: ok }}
            - {{ id: worn, seen: \"Worn, and they hold\", verdict: note }}
            - {{ id: gone, seen: Gone, verdict: stop, branch: mend }}
            - {{ id: dark, seen: Too dark to tell, verdict: note, cannot-see: true }}
          authority: default
          source: common practice, no source
branches:
  - {{ id: mend, found: They are gone., now: [Call the manager.], ends: not-fit-to-go }}
"
    );
    home.put(&format!("{id}.yaml"), &text);
}

fn barn() -> Home {
    let home = Home::new();
    put_list(&home, "yard", false);
    put_list(&home, "road", true);
    home
}

/// Walks one of the lists: who does the work, the odometer, and what is typed at the step.
fn walk(home: &Home, list: &str, (doer, odometer): (&str, &str), typed: &str) -> Ended {
    let command = format!("walk --demo --plain --checklist {list}.yaml --rig juniper");
    let typed = format!("1\n{doer}\n{odometer}\n{typed}1\ndemo\n");
    home.hames(&command).typed(&typed).run()
}

const WORN: &str = "2\nUntil spring.\nyes\ncomplete\n";
const SOUND: &str = "1\nyes\ncomplete\n";
const GONE: &str = "3\nend\nnot-fit-to-go\nthere are no mats\n";

#[track_caller]
fn sealed(ended: &Ended) {
    assert!(ended.out.contains("Sealed."), "{}{}", ended.out, ended.err);
}

fn assign(home: &Home, step: &str, flags: &str, typed: &str) -> Ended {
    let trip = format!("{}/1", laptop(home));
    let command = format!("logbook assign --logbook share/hames/demo {trip} {step} {flags}");
    home.hames(&command).typed(typed).run()
}

fn defects(home: &Home, flags: &str) -> Ended {
    home.hames(&format!(
        "logbook defects --logbook share/hames/demo {flags}"
    ))
    .run()
}

#[test]
fn a_note_is_given_to_somebody_falls_due_keeps_the_rig_off_the_road_and_is_closed_by_a_reading() {
    let home = barn();
    sealed(&walk(&home, "yard", ("2", "48210 mi"), WORN));
    let listed = defects(&home, "");
    assert_eq!(listed.status, 0, "{}", listed.out);
    says(
        &listed.out,
        &[
            "1 defect open. None keeps a rig off the road.",
            "note  Mats (yard-mats)\n      Worn, and they hold. Tobias Fenn, DATE",
            "“Until spring.”\n",
            "Nobody sees to it yet. A manager says who does, by when with --due or\n      \
             --due-at:\n      hames logbook assign --logbook share/hames/demo LAPTOP/1 yard-mats --owner ID\n",
            "It warns, and keeps no list back.",
            "No list here asks it any more; the one it was found by does:\n      hames walk --logbook share/hames/demo --checklist",
        ],
    );
    give_it_to_tobias(&home);
    // In time it warns where a walk begins, and at the very miles it still does.
    let on_time = walk(&home, "road", ("2", "48700 mi"), SOUND);
    sealed(&on_time);
    says(
        &on_time.out,
        &[
            "Mats: Tobias Fenn sees to it; due by DATE, in ",
            "due at 48700 mi, in 490 mi. It is not asked on this walk; once it is overdue it keeps \
             the rig off the road until it is found well.",
        ],
    );
    let late = walk(&home, "road", ("2", "48701 mi"), SOUND);
    assert_eq!(late.status, 1, "{}{}", late.out, late.err);
    says(
        &late.out,
        &[
            "“The road” is not begun: the rig stays off the road. FIX: Mats: Worn, and they hold.",
            "Tobias Fenn sees to it, “New ones are ordered.”; due by DATE",
            "was due at 48700 mi, 1 mi ago, so it is to be put right (barn: statement 2 of Odile Marsh",
            "Put it right, then walk the list it was found by: hames walk --demo --checklist",
        ],
    );
    // The list that asks it may always begin; on another odometer it is overdue all the same.
    sealed(&walk(&home, "yard", ("2", "48720 mi"), WORN));
    let back = walk(&home, "road", ("2", "300 mi"), SOUND);
    assert_eq!(back.status, 1, "{}", back.out);
    let listed = defects(&home, "");
    assert_eq!(listed.status, 1, "{}", listed.out);
    says(
        &listed.out,
        &[
            "1 defect open. Off the road: Juniper, two-horse bumper pull.",
            "FIX   Mats (yard-mats)",
            "Found on 2 trips, first DATE",
            "Off the road. It keeps back: Hitch up a bumper pull,",
        ],
    );
    sealed(&walk(&home, "yard", ("1", "48730 mi"), SOUND));
    sealed(&walk(&home, "road", ("2", "48731 mi"), SOUND));
    let listed = defects(&home, "--all");
    assert_eq!(listed.status, 0, "{}", listed.out);
    says(
        &listed.out,
        &[
            "No defect is open.",
            "Closed, the newest first:",
            "Closed the same day: Mats, yard-mats: Sound. Wren Ashdown, DATE",
            "Said: Tobias Fenn sees to it by DATE at 48700 mi, “New ones are",
        ],
    );
    assert!(!listed.out.contains("Question"), "{}", listed.out);
    let again = assign(&home, "yard-mats", "--owner tobias.fenn", "demo\n");
    assert_eq!(again.status, 1);
    says(
        &again.err,
        &["yard-mats is closed: Wren Ashdown found it Sound on "],
    );
    let verified = home.hames("verify share/hames/demo").run();
    assert_eq!(verified.status, 9, "{}", verified.out);
    once_its_trips_are_pruned_what_was_said_of_it_is_told_as_such(&home);
}

/// By a day and by an odometer, with words.
fn give_it_to_tobias(home: &Home) {
    let outside = assign(home, "yard-mats", "--outside tobias.fenn", "demo\n");
    assert_eq!((outside.status, outside.out.as_str()), (2, ""));
    says(&outside.err, &["Say --owner tobias.fenn instead."]);
    let given = assign(
        home,
        "yard-mats",
        "--owner tobias.fenn --due 9998-12-31 --due-at 48.7e3mi",
        "demo\n",
    );
    assert_eq!(given.status, 2, "{}", given.err);
    let due = "--owner tobias.fenn --due 9998-12-31";
    let given = home
        .hames(&format!(
            "logbook assign --logbook share/hames/demo {} yard-mats {due}",
            named(home, &[1])
        ))
        .argument("--due-at")
        .argument("48700 mi")
        .argument("--why")
        .argument("New ones are ordered.")
        .typed("demo\n")
        .run();
    assert_eq!((given.status, given.err.as_str()), (0, ""), "{}", given.out);
    says(
        &given.out,
        &[
            "Tobias Fenn sees to it, due by DATE or at 48700 mi.",
            "Once that is past, it keeps the rig off the road until it is read again and found well.",
            "DEMO. Whoever signs states this: I have looked at what this step was found to be. ",
            "Kept in share/hames/demo/mgr/odile.marsh/000002-",
        ],
    );
    let said = statements(home, "defect-owned");
    says(
        &said[0],
        &[r#""by_odometer":{"typed":"48700 mi","means":"48700 mi"}"#],
    );
}

fn once_its_trips_are_pruned_what_was_said_of_it_is_told_as_such(home: &Home) {
    let numbers = named(home, &[1, 2, 3, 4, 5]);
    let pruned = home
        .hames(&format!(
            "logbook prune --logbook share/hames/demo {numbers} --even-so --why old"
        ))
        .typed("prune 5\ndemo\n")
        .run();
    says(&pruned.out, &["5 trips removed."]);
    let told = defects(home, "");
    assert_eq!(told.status, 0, "{}", told.err);
    says(
        &told.out,
        &[
            "No defect is open.",
            "Said of what does not stand here:",
            "Tobias Fenn sees to it by DATE at 48700 mi",
            "yard-mats of trip 1 of LAPTOP;\n  its trip is not here, or cannot be relied on.",
        ],
    );
    assert_eq!(home.hames("verify share/hames/demo").run().status, 0);
}

fn to_the_shop(home: &Home) -> Ended {
    let trip = named(home, &[1]);
    let assign = home.hames(&format!(
        "logbook assign --logbook share/hames/demo {trip} yard-mats"
    ));
    let outside = assign.argument("--outside").argument("Alder Road shop");
    outside.typed("demo\n").run()
}

#[test]
fn who_found_what_stops_a_rig_and_found_it_well_is_asked_about_and_not_refused() {
    let home = barn();
    let gone = walk(&home, "yard", ("2", ""), GONE);
    sealed(&gone);
    let listed = defects(&home, "--json");
    assert_eq!(listed.status, 1, "{}", listed.out);
    says(
        &listed.out,
        &[
            r#"{"schema":"hames-defects/1","rig":"juniper","step":"yard-mats","name":"Mats","verdict":"stop","#,
            r#""owners":[],"blocks":true,"keeps_back":["Hitch up a bumper pull","#,
        ],
    );
    let given = to_the_shop(&home);
    assert_eq!(given.status, 0, "{}{}", given.out, given.err);
    says(
        &given.out,
        &[
            "It keeps the rig off the road until it is read again and found well, whatever is signed.",
        ],
    );
    let twice = to_the_shop(&home);
    assert_eq!(twice.status, 1, "{}{}", twice.out, twice.err);
    says(
        &twice.err,
        &["That is said already, in statement 2 of Odile Marsh"],
    );
    // What is said later takes its place, and other laptops know it once they have merged it.
    let other = home.path("other");
    copy(&home.demo(), &other);
    let later = assign(&home, "yard-mats", "--owner wren.ashdown", "demo\n");
    assert_eq!(later.status, 0, "{}{}", later.out, later.err);
    says(
        &later.out,
        &["Alder Road shop sees to it. What is signed now takes its place."],
    );
    let there = home.hames("logbook defects --logbook other").run();
    says(&there.out, &["Alder Road shop sees to it."]);
    let merged = home
        .hames("logbook merge --logbook other share/hames/demo")
        .run();
    assert_eq!(merged.status, 0, "{}{}", merged.out, merged.err);
    for there in [
        home.hames("logbook defects --logbook other").run(),
        defects(&home, ""),
    ] {
        says(&there.out, &["Wren Ashdown sees to it."]);
        assert!(!there.out.contains("Alder Road"), "{}", there.out);
    }
    sealed(&walk(&home, "yard", ("2", ""), SOUND));
    let told = defects(&home, "--all");
    assert_eq!(told.status, 0, "{}", told.out);
    says(
        &told.out,
        &[
            "Question: it was checked by the one who found it.",
            "Alder Road shop sees to it",
        ],
    );
    let json = defects(&home, "--all --json --rig juniper");
    says(&json.out, &[r#""by_the_finder":true}"#]);
}

#[test]
fn a_slip_is_told_before_anybody_is_asked_for_a_passphrase() {
    let home = barn();
    sealed(&walk(&home, "yard", ("2", "48210 mi"), WORN));
    for (step, flags, status, told) in [
        (
            "mats",
            "--owner tobias.fenn",
            2,
            "What stands, with trip and step: hames logbook defects",
        ),
        (
            "yard-mats",
            "--owner tobias",
            2,
            "Nobody in the crew is called tobias. There are: wren.ashdown",
        ),
        (
            "yard-mats",
            "--owner tobias.fenn --due 2020-01-01",
            2,
            "That day is past.",
        ),
        (
            "yard-mats",
            "--owner tobias.fenn --due-at 48209mi",
            2,
            "At 48209mi it would be past already: the odometer showed 48210 mi on DATE, read by \
             Wren Ashdown on trip LAPTOP/1",
        ),
        (
            "yard-mats",
            "--owner tobias.fenn --due soon",
            2,
            "this is no day",
        ),
        (
            "yard-mats",
            "--owner tobias.fenn --due-at 48700",
            2,
            "this is no reading of an odometer",
        ),
        ("yard-mats", "", 2, "--owner <ID>"),
        (
            "yard-mats",
            "--due 2026-12-01",
            2,
            "<--owner <ID>|--outside <WORDS>>",
        ),
    ] {
        let refused = assign(&home, step, flags, "");
        assert_eq!(refused.status, status, "{flags}: {}", refused.err);
        says(&refused.err, &[told]);
        assert!(!refused.out.contains("Passphrase"), "{}", refused.out);
    }
    assert!(statements(&home, "defect-owned").is_empty());
    let other = defects(&home, "--rig sumac");
    assert_eq!(other.status, 2);
    says(
        &other.err,
        &["There is no rig “sumac” among the trips here. Rigs walked: juniper."],
    );
    // Nobody has signed for it: it stands, and has no end that could be named.
    let command = "walk --demo --plain --checklist yard.yaml --rig mesquite";
    let left = home
        .hames(command)
        .typed("1\n2\n\n3\nend\nnot-fit-to-go\nnone\nlater\n")
        .run();
    says(&left.out, &["3. Gone"]);
    let trip = format!("{}/2", laptop(&home));
    let unsigned = home
        .hames(&format!(
            "logbook assign --logbook share/hames/demo {trip} yard-mats --owner tobias.fenn"
        ))
        .run();
    assert_eq!(unsigned.status, 1, "{}", unsigned.err);
    says(&unsigned.err, &["Nobody has signed for trip 000002-"]);
    let listed = defects(&home, "--rig mesquite");
    says(
        &listed.out.replace("\n      ", " "),
        &[
            "Nobody sees to it yet, and nobody has signed for trip LAPTOP/2. Take that up where it \
             was walked, end it and sign it; then a manager says who sees to it.",
        ],
    );
    assert!(!listed.out.contains("logbook assign"), "{}", listed.out);
}
