//! Every trip of the year, opened: nothing is left out, and what is gravest comes first.

use super::YEAR;
use hames::checklist::StepKey;
use hames::desk::{exceptions_among, not_done};
use hames::review::{Went, timeline};
use hames::rules::{Outcome, Verdict};
use hames::walk::{Event, Status};
use hames::year::Trip;
use std::collections::HashSet;

fn outcomes(trip: &Trip) -> impl Iterator<Item = Outcome> {
    trip.entries.iter().filter_map(|entry| match &entry.event {
        Event::Answered { given, .. } => Some(given.outcome()),
        _ => None,
    })
}

#[test]
fn each_answer_that_is_not_ok_is_told_and_what_stops_a_rig_comes_first() {
    let mut stops = 0;
    for trip in YEAR.iter() {
        let told = exceptions_among(&trip.entries, &trip.plan);
        let lines: Vec<&String> = told.iter().flat_map(|one| &one.told).collect();
        for (word, verdict) in [
            (": stop", Verdict::Stop),
            (": fix", Verdict::Fix),
            (": note", Verdict::Note),
        ] {
            let of = outcomes(trip)
                .filter(|one| *one == Outcome::Judged(verdict))
                .count();
            let shown = lines.iter().filter(|line| line.contains(word)).count();
            assert!(
                shown >= of,
                "{}: {of} {word}, and {shown} told: {lines:#?}",
                trip.id
            );
        }
        if outcomes(trip).any(|one| one == Outcome::Judged(Verdict::Stop)) {
            stops += 1;
            assert!(
                told[0].told.iter().any(|line| line.contains(": stop")),
                "{told:#?}"
            );
        }
        let again = told
            .iter()
            .filter(|one| one.named.as_str().ends_with("ok again"));
        assert!(again.count() <= 1);
        if let Some(at) = told
            .iter()
            .position(|one| one.named.as_str().ends_with("ok again"))
        {
            assert_eq!(at, told.len() - 1, "{told:#?}");
        }
    }
    assert!(stops > 3, "{stops}");
}

#[test]
fn every_step_has_an_answer_or_none_and_a_bad_one_that_was_not_put_right_is_one() {
    let mut left_bad = 0;
    for trip in YEAR.iter() {
        let answered: HashSet<&StepKey> = trip
            .entries
            .iter()
            .filter_map(|entry| match &entry.event {
                Event::Answered { step, .. } => Some(step),
                _ => None,
            })
            .collect();
        let steps = trip.walk.steps().iter().enumerate();
        let left_out =
            steps.filter(|(at, step)| step.answers.is_empty() && trip.walk.left_out(*at).is_some());
        let all = answered.len() + not_done(&trip.walk).len() + left_out.count();
        assert_eq!(all, trip.plan.steps().len(), "{}", trip.id);
        let mut steps = trip.walk.steps().iter();
        left_bad += usize::from(steps.any(|step| matches!(step.status, Status::Bad { .. })));
    }
    assert!(left_bad > 0);
}

#[test]
fn no_two_exceptions_of_a_trip_are_called_the_same() {
    for trip in YEAR.iter() {
        let told = exceptions_among(&trip.entries, &trip.plan);
        let mut names: Vec<&str> = told.iter().map(|one| one.named.as_str()).collect();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), told.len(), "{told:#?}");
    }
}

#[test]
fn the_timeline_has_every_answer_once_and_every_absence_and_goes_forward() {
    let mut held = 0;
    for trip in YEAR.iter() {
        let line = timeline(&trip.walk, (&trip.began, &trip.entries));
        let answers: usize = line
            .iter()
            .map(|stretch| match stretch.what {
                Went::Answers { answers, .. } => answers,
                _ => 0,
            })
            .sum();
        assert_eq!(answers, outcomes(trip).count(), "{}", trip.id);
        let resumed = trip
            .entries
            .iter()
            .filter(|entry| matches!(entry.event, Event::Resumed { .. }));
        let absences = line.iter().filter(|stretch| {
            matches!(stretch.what, Went::OnHold { .. } | Went::StoodStill { .. })
        });
        assert_eq!(absences.count(), resumed.count(), "{}", trip.id);
        for (one, next) in line.iter().zip(line.iter().skip(1)) {
            assert!(one.from <= next.from, "{}: {one:?} {next:?}", trip.id);
        }
        let all: u64 = line.iter().map(|stretch| stretch.took_ms).sum();
        let took = trip.walk.last().since(&trip.began);
        assert!(all <= took, "{}: {all} of {took}", trip.id);
        held += line
            .iter()
            .filter(|stretch| matches!(stretch.what, Went::OnHold { .. }))
            .count();
    }
    assert!(held > 10, "{held}");
}

#[test]
fn what_was_measured_again_comes_after_what_was_stopped_put_right_or_noted() {
    let mut again = 0;
    for trip in YEAR.iter() {
        let told = exceptions_among(&trip.entries, &trip.plan);
        let rank = |lines: &[String]| {
            let words = [": stop", ": fix", ": note", ": too near its limit"];
            let worst = words
                .iter()
                .position(|word| lines.iter().any(|line| line.contains(word)));
            worst.filter(|_| !lines.iter().any(|line| line.contains("Put right")))
        };
        let ranks: Vec<usize> = told.iter().filter_map(|one| rank(&one.told)).collect();
        again += ranks.iter().filter(|rank| **rank == 3).count();
        assert!(ranks.is_sorted(), "{}: {told:#?}", trip.id);
    }
    assert!(again > 10, "{again}");
}

#[test]
fn of_what_was_measured_again_it_is_told_why_with_what_and_which_reading_counts() {
    let mut seen = 0;
    for trip in YEAR.iter() {
        for one in exceptions_among(&trip.entries, &trip.plan) {
            let Some(first) = one.told.iter().find(|line| line.contains("too near")) else {
                continue;
            };
            seen += 1;
            assert!(
                first.contains(" with ") && first.contains("the instrument's error it is "),
                "{one:#?}"
            );
            let last = one.told.last().unwrap();
            assert!(
                last.starts_with("What counts: ") || last.starts_with("None counts: "),
                "{one:#?}"
            );
        }
    }
    assert!(seen > 10, "{seen}");
}
