//! The answers of one trip, each with the time it took: what questions, trends and counts of steps
//! are made from.

use crate::checklist::{PlannedAsk, StepKey};
use crate::record::Verified;
use crate::rig::InstrumentKind;
use crate::rules::{Limit, Outcome};
use crate::units::{Quantity, Typed};
use crate::walk::{Event, Given, Moment, Round, Walk};

/// An answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Answered {
    /// The line of the journal, from 1.
    pub line: usize,
    /// The step, with its part.
    pub key: StepKey,
    /// Its name on screens.
    pub name: String,
    /// The section it belongs to, by index.
    pub section: usize,
    /// Whether a bare look is not enough for it.
    pub critical: bool,
    /// When it was given.
    pub at: Moment,
    /// Milliseconds since the line before it, in which the work was done.
    pub took_ms: u64,
    /// Who did the work.
    pub doer: String,
    /// Why it was asked.
    pub round: Round,
    /// What it came to.
    pub outcome: Outcome,
    /// Whether a later answer of the walk took its place.
    pub replaced: bool,
    /// What was found.
    pub what: What,
}

/// What was found.
#[derive(Clone, Debug, PartialEq)]
pub enum What {
    /// A state, by its id, and what it says.
    Seen {
        /// Its id.
        state: String,
        /// Whether another person looked.
        second: bool,
    },
    /// A reading.
    Read {
        /// As typed.
        typed: Typed,
        /// What it was read with.
        instrument: String,
        /// What that is.
        kind: InstrumentKind,
        /// The smallest mark or digit of that instrument, where the rig file has it.
        mark: Option<Quantity>,
        /// The limit that decided, else the one it lies nearest to.
        limit: Option<Limit>,
    },
}

/// The answers of a trip that can be walked again, in the order of its journal.
pub fn answered(trip: &Verified, walk: &Walk) -> Vec<Answered> {
    let mut before = trip.at();
    let mut answers = Vec::new();
    for (entry, line) in trip.entries().iter().zip(2..) {
        if let Event::Answered {
            step,
            doer,
            round,
            given,
        } = &entry.event
            && let Some((planned, state)) = walk.plan().index(step).and_then(|at| walk.step(at))
        {
            answers.push(Answered {
                line,
                key: step.clone(),
                name: planned.name(),
                section: planned.section,
                critical: planned.step.critical,
                at: entry.at.clone(),
                took_ms: entry.at.since(before),
                doer: doer.to_string(),
                round: *round,
                outcome: given.outcome(),
                replaced: state.answers.last().is_some_and(|last| last.at != entry.at),
                what: what(given, &planned.ask, walk),
            });
        }
        before = &entry.at;
    }
    answers
}

fn what(given: &Given, ask: &PlannedAsk, walk: &Walk) -> What {
    match given {
        Given::Seen { state, by, .. } => What::Seen {
            state: state.clone(),
            second: by.is_some(),
        },
        Given::Read {
            typed,
            instrument,
            judgement,
        } => {
            let known = walk.plan().rig().instrument(instrument);
            let asked = match ask {
                PlannedAsk::Reading { ask, .. } => Some(ask.instrument),
                PlannedAsk::Sighting(_) | PlannedAsk::Independent(_) => None,
            };
            let kind = known.map(|known| known.kind).or(asked);
            let limit = judgement.deciding().or_else(|| judgement.nearest());
            What::Read {
                typed: typed.clone(),
                instrument: instrument.clone(),
                kind: kind.unwrap_or(InstrumentKind::Count),
                mark: known.map(|known| known.step.clone()),
                limit: limit.cloned(),
            }
        }
    }
}
