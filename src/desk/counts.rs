//! What could not be judged and was read again: why, and which answer counts in the end.

use crate::checklist::Plan;
use crate::desk::told;
use crate::rules::{Judgement, Outcome};
use crate::units::{Quantity, Unit};
use crate::walk::{Event, Given};

/// Why a reading could not be judged, behind what was read: in its own unit.
pub(super) fn not_judged(judgement: &Judgement, unit: Unit) -> String {
    const SHORT: &str = "too near its limit to be judged";
    let shown = |at: &Quantity| told::shown(&at.in_unit(unit).unwrap_or(at.clone()));
    let (low, high) = (&judgement.band.low, &judgement.band.high);
    let Some(limit) = judgement.deciding().filter(|_| low != high) else {
        return SHORT.to_owned();
    };
    format!(
        "{SHORT} ({} {} {}), for with the instrument's error it is {} to {}",
        limit.verdict.word(),
        limit.side.word().replace('-', " "),
        shown(&limit.bound),
        shown(low),
        shown(high)
    )
}

/// Which answer to a step counts, where one could not be judged or was taken back: nothing where
/// the lines of the step say that by themselves.
pub(super) fn counts<'e>(events: impl Iterator<Item = &'e Event>, plan: &Plan) -> Option<String> {
    let (mut unclear, mut last) = (false, None);
    for event in events {
        match event {
            Event::Answered { step, given, .. } => {
                unclear |= given.outcome() == Outcome::Again;
                last = Some((step, given));
            }
            Event::Corrected { .. } => (unclear, last) = (true, None),
            _ => {}
        }
    }
    Some(match last.filter(|_| unclear) {
        Some((_, Given::Read { judgement, .. })) if judgement.outcome == Outcome::Again => {
            "None counts: it was not measured again in this walk.".to_owned()
        }
        Some((step, given)) => format!("What counts: {}.", told::found(plan, step, given)),
        None if unclear => "None counts: it was not answered afresh in this walk.".to_owned(),
        None => return None,
    })
}
