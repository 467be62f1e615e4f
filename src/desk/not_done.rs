//! What a walk left without an answer.

use crate::desk::Exception;
use crate::record::Verified;
use crate::walk::{Event, Status, StepState, Walk, Words};

/// So many of the steps are called by their names.
const NAMED: usize = 3;

/// Steps without an answer at the end, those put off among them; not those that the walk itself
/// left out. A bad answer is one, put right or not.
pub fn not_done(walk: &Walk) -> Vec<String> {
    asked_of(walk, |state| state.answers.is_empty())
}

/// Steps that had an answer, were asked again and have none since.
pub fn not_answered_again(walk: &Walk) -> Vec<String> {
    asked_of(walk, |state| {
        let stands = matches!(
            state.status,
            Status::Done(_) | Status::Bad { .. } | Status::NoteOwed
        );
        !stands && !state.answers.is_empty()
    })
}

/// The names of those that stand so, of the steps that the walk did not leave out.
fn asked_of(walk: &Walk, so: impl Fn(&StepState) -> bool) -> Vec<String> {
    let steps = walk.plan().steps().iter().zip(walk.steps()).enumerate();
    steps
        .filter(|(at, (_, state))| so(state) && walk.left_out(*at).is_none())
        .map(|(_, (planned, _))| planned.name())
        .collect()
}

/// How many of all steps these are, and how they are called; nothing where there are none.
fn how_many(left: &[String], all: usize, which: &str) -> Option<String> {
    let last = left.first()?;
    let called = match left.get(..NAMED).filter(|_| left.len() > NAMED) {
        Some(first) => format!("the first “{}”", first.join("”, “")),
        None => format!("“{}”", left.join("”, “")),
    };
    Some(match left.len() {
        1 => format!("One step {which}: “{last}”"),
        many => format!("{many} of {all} steps {which}: {called}"),
    })
}

/// Tells with the end of the walk how many steps have no answer, or none since they were asked
/// again; of one without an end, as the first thing of all.
pub fn tell_unfinished(exceptions: &mut Vec<Exception>, trip: &Verified, walk: &Walk) {
    let all = walk.plan().steps().len();
    let again = "asked again and not answered since";
    let told = [
        how_many(&not_done(walk), all, "without an answer"),
        how_many(&not_answered_again(walk), all, again),
    ];
    let told: Vec<String> = told.into_iter().flatten().collect();
    if told.is_empty() {
        return;
    }
    let entries = trip.entries();
    let ends = entries
        .last()
        .is_some_and(|entry| matches!(entry.event, Event::Ended { .. }));
    // The first entry stands on line 2.
    let line = format!("line {}", entries.len() + 1);
    let end = exceptions
        .iter_mut()
        .find(|one| ends && one.named.as_str() == line);
    if let Some(end) = end {
        end.told.extend(told);
    } else if let Ok(named) = Words::read("left unfinished") {
        exceptions.insert(0, Exception { named, told });
    }
}
