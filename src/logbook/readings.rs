//! The readings of a walk, each with its step and whether it still stands.

use crate::checklist::{PlannedStep, StepKey};
use crate::record::Verified;
use crate::rules::Judgement;
use crate::units::Typed;
use crate::walk::{Event, Given, Moment, Round, Walk, Words};

/// One reading.
#[derive(Clone, Copy, Debug)]
pub(super) struct Reading<'a> {
    /// The line of the journal, from 1.
    pub(super) line: usize,
    pub(super) at: &'a Moment,
    pub(super) actor: &'a Words,
    pub(super) key: &'a StepKey,
    pub(super) planned: &'a PlannedStep,
    pub(super) doer: &'a Words,
    pub(super) round: Round,
    pub(super) typed: &'a Typed,
    pub(super) instrument: &'a str,
    pub(super) judgement: &'a Judgement,
    /// Whether a later answer of the same walk took its place.
    pub(super) replaced: bool,
}

/// Every reading of a trip, in the order of its journal.
pub(super) fn readings<'a>(
    walk: &'a Walk,
    trip: &'a Verified,
) -> impl Iterator<Item = Reading<'a>> {
    let entries = trip.entries().iter().zip(2..);
    entries.filter_map(|(entry, line)| {
        let Event::Answered {
            step,
            doer,
            round,
            given,
        } = &entry.event
        else {
            return None;
        };
        let Given::Read {
            typed,
            instrument,
            judgement,
        } = given
        else {
            return None;
        };
        let (planned, state) = walk.step(walk.plan().index(step)?)?;
        Some(Reading {
            line,
            at: &entry.at,
            actor: &entry.actor,
            key: step,
            planned,
            doer,
            round: *round,
            typed,
            instrument,
            judgement,
            replaced: state.answers.last().is_some_and(|last| last.at != entry.at),
        })
    })
}
