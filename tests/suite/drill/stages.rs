//! The stages of a section, as a table: what was played, and how far it leads.

use hames::checklist::StepKey;
use hames::drill::{Reached, Score, Stage, StepScore};
use hames::rules::Verdict;

/// How a drill went: `clean`, with a fault `caught`, `missed`, missed at a `critical` step, or a
/// false `alarm`.
fn score(word: &str) -> Score {
    let step = |truly, said, critical| StepScore {
        step: StepKey::named("seat"),
        truly: Some(truly),
        said: Some(said),
        known: true,
        critical,
    };
    let (ok, fix) = (Verdict::Ok, Verdict::Fix);
    let step = match word {
        "clean" => step(ok, ok, true),
        "caught" => step(fix, fix, true),
        "missed" => step(fix, ok, false),
        "critical" => step(fix, ok, true),
        "alarm" => step(ok, fix, true),
        other => panic!("{other}"),
    };
    Score {
        steps: vec![step],
        again: Vec::new(),
        resumed: None,
    }
}

#[test]
fn what_was_played_leads_from_stage_to_stage_as_the_table_says() {
    // Stage and outcome of each drill, and the stage that is next after all of them.
    let table = [
        ("", "watch"),
        ("watch clean", "guided"),
        // Nobody has to watch first.
        ("guided clean", "faded"),
        ("watch clean, guided missed", "guided"),
        ("watch clean, guided clean", "faded"),
        // Hints are left: it stays where hints fade.
        ("guided clean, faded clean +1", "faded"),
        ("guided clean, faded clean", "solo"),
        ("guided clean, faded alarm, faded clean", "solo"),
        ("solo clean", "solo"),
        ("solo clean, solo caught", "faults"),
        ("solo clean, solo missed, solo clean", "solo"),
        (
            "faults caught, faults caught, faults clean, faults caught",
            "check-ride",
        ),
        // A check ride wants a rig that is well among them, and one that is not.
        (
            "faults caught, faults caught, faults caught, faults caught",
            "faults",
        ),
        (
            "faults clean, faults clean, faults clean, faults clean",
            "faults",
        ),
        (
            "faults clean, faults clean, faults clean, faults clean, faults caught",
            "check-ride",
        ),
        // A slip begins the row again; a critical fault missed goes back to where there are hints.
        (
            "faults caught, faults clean, faults alarm, faults caught, faults clean",
            "faults",
        ),
        ("faults caught, faults critical", "faded"),
        ("faults caught, faults missed", "faults"),
        ("check-ride critical", "faded"),
        ("check-ride caught", "check-ride"),
        // A look back takes nothing away.
        ("solo clean, solo clean, guided missed", "faults"),
    ];
    for (played, next) in table {
        let mut reached = Reached::default();
        for drill in played.split(", ").filter(|drill| !drill.is_empty()) {
            let mut words = drill.split(' ');
            let stage = words.next().unwrap();
            let (_, stage) = Stage::WORDS
                .into_iter()
                .find(|(word, _)| *word == stage)
                .unwrap();
            let score = score(words.next().unwrap());
            let hints_left = words.next().map_or(0, |left| left.parse().unwrap());
            reached = reached.after(stage, &score, hints_left);
        }
        assert_eq!(reached.stage.word(), next, "{played}");
    }
}
