//! How far a learner is: hints that go and come back, weak steps, and when a step is asked again.

use chrono::NaiveDate;
use hames::checklist::StepKey;
use hames::drill::{Family, Played, Progress, Score, Stage, StepScore};
use hames::rules::Verdict;

/// A drill on that day, with each step as `seat+` (right) or `seat-` (missed).
fn played(day: &str, steps: &str) -> Played {
    let steps = steps.split(' ').map(|word| {
        let (step, right) = word.split_at(word.len() - 1);
        StepScore {
            step: StepKey::named(step),
            truly: Some(Verdict::Stop),
            said: Some(if right == "+" {
                Verdict::Stop
            } else {
                Verdict::Ok
            }),
            known: true,
            critical: true,
        }
    });
    Played {
        at: format!("{day}T07:00:00-06:00").parse().unwrap(),
        list: "hitch-bumper".to_owned(),
        revision: 5,
        sections: vec!["join".to_owned()],
        family: Family::Seat,
        stage: Stage::Faded,
        score: Score {
            steps: steps.collect(),
            resumed: None,
        },
        ride: None,
    }
}

fn progress(drills: &[(&str, &str)]) -> Progress {
    let drills: Vec<Played> = drills
        .iter()
        .map(|(day, steps)| played(day, steps))
        .collect();
    Progress::of(&drills)
}

#[test]
fn a_hint_goes_after_two_right_in_a_row_and_one_miss_brings_it_back() {
    let table = [
        ("seat+", true),
        ("seat+ seat+", false),
        ("seat+ seat- seat+", true),
        ("seat+ seat+ seat-", true),
        ("seat+ seat+ seat- seat+", true),
        ("seat+ seat+ seat- seat+ seat+", false),
    ];
    for (steps, hints) in table {
        let progress = progress(&[("2026-11-02", steps)]);
        assert_eq!(progress.hints("hitch-bumper", "seat"), hints, "{steps}");
    }
    assert!(progress(&[]).hints("hitch-bumper", "seat"));
}

#[test]
fn the_three_weakest_steps_are_those_with_the_greatest_share_of_wrong_answers() {
    let steps =
        "seat- seat+ latch- latch- ball+ ball+ pin- pin+ pin+ pin+ socket- socket+ socket- socket+";
    let weak = progress(&[("2026-11-02", steps)]).weakest(3);
    let weak: Vec<String> = weak
        .iter()
        .map(|weak| format!("{} {} of {}", weak.step, weak.wrong, weak.of))
        .collect();
    assert_eq!(weak, ["latch 2 of 2", "socket 2 of 4", "seat 1 of 2"]);
}

#[test]
fn a_step_is_asked_again_after_2_7_21_and_60_days_and_sooner_after_a_miss() {
    let day = |text: &str| -> NaiveDate { text.parse().unwrap() };
    let is_due = |drills: &[(&str, &str)], on: &str| !progress(drills).due(day(on)).is_empty();
    let mut drills = vec![("2026-01-01", "seat+")];
    for (last, due) in [
        ("2026-01-01", "2026-01-03"),
        ("2026-01-03", "2026-01-10"),
        ("2026-01-10", "2026-01-31"),
        ("2026-01-31", "2026-04-01"),
        ("2026-04-01", "2026-05-31"),
    ] {
        assert_eq!(drills.last().unwrap().0, last);
        let before = day(due).pred_opt().unwrap().to_string();
        assert!(!is_due(&drills, &before), "before {due}");
        assert!(is_due(&drills, due), "on {due}");
        drills.push((due, "seat+"));
    }
    // Right again before it was due moves nothing on.
    assert!(is_due(
        &[("2026-01-01", "seat+"), ("2026-01-02", "seat+")],
        "2026-01-04"
    ));
    drills.push(("2026-06-02", "seat-"));
    assert!(is_due(&drills, "2026-06-04"));
}

#[test]
fn a_worked_run_that_was_watched_counts_as_nobodys_answer() {
    let watched = Played {
        stage: Stage::Watch,
        ..played("2026-11-02", "seat+ seat+")
    };
    let progress = Progress::of([&watched]);
    assert!(progress.hints("hitch-bumper", "seat"));
    assert_eq!(progress.families().count(), 0);
    assert_eq!(
        progress.reached("hitch-bumper", "join").stage,
        Stage::Guided
    );
}
