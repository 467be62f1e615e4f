//! What the steps of a walk were found to be: at its end, and not well at any time.

use crate::checklist::{Ask, PlannedStep, Test};
use crate::haul::Found;
use crate::rules::{Carried, Outcome, Verdict};
use crate::walk::{Answer, Given, Round, Status, StepState, Walk, Words};

/// Something that was found not to be well on a walk, put right on it or not.
#[derive(Clone, Debug, PartialEq)]
pub struct Flagged {
    /// The worst that the step was found to be, the first time.
    pub found: Found,
    /// Whether the same step was found well at the end of the walk.
    pub well_at_end: bool,
}

/// Everything a walk found that was not well, in the order of its list. An answer that was taken
/// back since is told too.
pub fn flagged(walk: &Walk) -> Vec<Flagged> {
    let steps = walk.plan().steps().iter().zip(walk.steps());
    let flagged = steps.filter_map(|(planned, state)| {
        let judged = state.answers.iter().filter_map(judged);
        // The first of the worst.
        let (worst, verdict) = judged.rev().max_by_key(|(_, verdict)| *verdict)?;
        (verdict != Verdict::Ok).then(|| Flagged {
            found: told(planned, state, (worst, verdict)),
            well_at_end: state.status == Status::Done(Verdict::Ok),
        })
    });
    flagged.collect()
}

/// What a step was last found to be, where that stands: an answer taken back does not, nor one
/// that came to no verdict. What a note left to later walks is told by what it left.
pub(super) fn found(planned: &PlannedStep, state: &StepState) -> Option<Found> {
    let taken_back = matches!(
        state.status,
        Status::Waiting(Round::Correction)
            | Status::Open(Round::Correction)
            | Status::Doubted(Round::Correction, _)
    );
    let (answer, verdict) = judged(state.answers.last().filter(|_| !taken_back)?)?;
    if verdict == Verdict::Note && planned.leaves(&answer.given).is_some() {
        return None;
    }
    Some(told(planned, state, (answer, verdict)))
}

fn judged(answer: &Answer) -> Option<(&Answer, Verdict)> {
    match answer.given.outcome() {
        Outcome::Judged(verdict) => Some((answer, verdict)),
        Outcome::Again => None,
    }
}

fn told(planned: &PlannedStep, state: &StepState, (answer, verdict): (&Answer, Verdict)) -> Found {
    let (found, limit) = match &answer.given {
        Given::Read {
            typed, judgement, ..
        } => (typed.to_string(), judgement.deciding().cloned()),
        Given::Seen { state, .. } => (seen(planned, state), None),
    };
    Found {
        step: planned.key.clone(),
        name: planned.name(),
        found,
        verdict,
        limit,
        who: by(answer).clone(),
        at: answer.at.wall,
        remark: state.remark.clone(),
        only_for: only_for(planned),
    }
}

/// What was left before, where the step stands for that alone.
fn only_for(planned: &PlannedStep) -> Option<Carried> {
    match planned.step.when.as_ref()?.test {
        Test::Carried { what, .. } => Some(Carried {
            what,
            part: planned.item.as_ref().map(|item| item.id.clone()),
        }),
        _ => None,
    }
}

/// What a state's id stands for, in words.
fn seen(planned: &PlannedStep, id: &str) -> String {
    let words = match &planned.step.ask {
        Ask::Sighting(ask) | Ask::Independent(ask) => {
            ask.states.iter().find(|state| state.id == *id)
        }
        Ask::Reading(_) => None,
    };
    words.map_or_else(|| id.to_owned(), |state| state.seen.clone())
}

/// Who read or saw it.
pub(super) fn by(answer: &Answer) -> &Words {
    match &answer.given {
        Given::Seen { by: Some(who), .. } => who,
        _ => &answer.doer,
    }
}
