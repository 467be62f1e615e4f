//! What a walk left without an answer.

use crate::desk::Exception;
use crate::record::Verified;
use crate::walk::{Event, Status, Walk, Words};

/// So many of the steps are called by their names.
const NAMED: usize = 3;

/// Steps without an answer at the end, those put off among them; not those that the walk itself
/// left out.
pub fn not_done(walk: &Walk) -> Vec<String> {
    let steps = walk.plan().steps().iter().zip(walk.steps()).enumerate();
    let open = steps.filter(|(at, (_, state))| {
        let done = matches!(state.status, Status::Done(_));
        !done && walk.left_out(*at).is_none()
    });
    open.map(|(_, (planned, _))| planned.name()).collect()
}

/// Tells with the end of the walk how many steps have no answer; of one without an end, as the first
/// thing of all.
pub fn tell_unfinished(exceptions: &mut Vec<Exception>, trip: &Verified, walk: &Walk) {
    let left = not_done(walk);
    let Some(last) = left.first() else { return };
    let called = match left.get(..NAMED).filter(|_| left.len() > NAMED) {
        Some(first) => format!("the first “{}”", first.join("”, “")),
        None => format!("“{}”", left.join("”, “")),
    };
    let all = walk.plan().steps().len();
    let told = match left.len() {
        1 => format!("One step without an answer: “{last}”"),
        many => format!("{many} of {all} steps without an answer: {called}"),
    };
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
        end.told.push(told);
    } else if let Ok(named) = Words::read("left unfinished") {
        let told = vec![told];
        exceptions.insert(0, Exception { named, told });
    }
}
