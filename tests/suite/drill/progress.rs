//! How far a learner is: hints that go and come back, weak steps, and when a step is asked again.

use chrono::NaiveDate;
use hames::checklist::{Step, StepKey};
use hames::drill::{Currency, Family, Played, Progress, Score, Stage, StepScore, different};
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
            again: Vec::new(),
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

#[test]
fn who_neither_drills_nor_walks_for_half_a_year_begins_again_with_every_hint() {
    let progress = progress(&[("2026-01-10", "seat+"), ("2026-01-12", "seat+")]);
    let of = ("hitch-bumper", "join");
    let on = |day: &str, walked: Option<&str>| {
        let walked = walked.map(|day| day.parse().unwrap());
        let when = (day.parse().unwrap(), walked);
        (progress.stands(of, when).stage, progress.currency(of, when))
    };
    let reached = progress.reached(of.0, of.1).stage;
    assert!(reached > Stage::Guided);
    for (day, walked, stage, currency) in [
        ("2026-04-12", None, reached, Currency::Current),
        ("2026-04-13", None, reached, Currency::Refresher),
        ("2026-07-11", None, reached, Currency::Refresher),
        ("2026-07-12", None, Stage::Guided, Currency::Lapsed),
        ("2026-07-12", Some("2026-06-30"), reached, Currency::Current),
        (
            "2026-07-12",
            Some("2025-06-30"),
            Stage::Guided,
            Currency::Lapsed,
        ),
    ] {
        assert_eq!(on(day, walked), (stage, Some(currency)), "{day} {walked:?}");
    }
    // What was never drilled has nothing to lapse.
    let never = progress.currency(
        ("hitch-bumper", "chains"),
        ("2026-07-12".parse().unwrap(), None),
    );
    assert_eq!(never, None);
}

#[test]
fn a_changed_critical_step_asks_for_a_drill_of_its_section_and_nothing_else_does() {
    let now = hames::drill::list("hitch-bumper")
        .unwrap()
        .checklist
        .clone();
    let earlier = |change: &dyn Fn(&mut Step)| {
        let mut before = now.clone();
        let steps = before.sections.iter_mut();
        steps
            .flat_map(|section| &mut section.steps)
            .for_each(change);
        different(&before, &now)
    };
    assert_eq!(earlier(&|_| ()), []);
    let better_words = |step: &mut Step| {
        step.why = "Said otherwise.".to_owned();
        step.skipped = "Said otherwise.".to_owned();
    };
    assert_eq!(earlier(&better_words), []);
    let others = |step: &mut Step| {
        if !step.critical {
            step.act = "Said otherwise.".to_owned();
        }
    };
    assert_eq!(earlier(&others), []);
    let pin = |step: &mut Step| {
        if step.id == "receiver-pin" {
            step.act = "Look at the pin.".to_owned();
        }
    };
    let changed = earlier(&pin);
    assert_eq!(changed.len(), 1, "{changed:?}");
    assert_eq!(
        (&*changed[0].section, &*changed[0].step),
        ("match", "receiver-pin")
    );
    // One that is new is drilled as well.
    let renamed = |step: &mut Step| {
        if step.id == "receiver-pin" {
            step.id = "drawbar-pin".to_owned();
        }
    };
    assert_eq!(earlier(&renamed), changed);
}

#[test]
fn a_difference_is_met_by_its_section_played_alone_without_a_slip_at_that_revision() {
    let with = |stage, revision, steps: &str| {
        let drill = Played {
            stage,
            revision,
            ..played("2026-11-20", steps)
        };
        Progress::of(&[drill]).is_met("hitch-bumper", "join", 5)
    };
    assert!(with(Stage::Solo, 5, "seat+"));
    assert!(with(Stage::Faults, 6, "seat+"));
    assert!(!with(Stage::Solo, 4, "seat+"));
    assert!(!with(Stage::Solo, 5, "seat-"));
    assert!(!with(Stage::Guided, 5, "seat+"));
}
