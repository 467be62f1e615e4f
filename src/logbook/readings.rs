//! The readings of a walk, each with its step and whether it still stands.

use crate::checklist::{PlannedStep, StepKey};
use crate::record::Verified;
use crate::rules::Judgement;
use crate::units::Typed;
use crate::walk::{Entry, Event, Given, Moment, Round, Walk, Words};

/// One reading.
#[derive(Clone, Copy, Debug)]
pub struct Reading<'a> {
    /// The line of the journal, from 1.
    pub line: usize,
    /// When it was typed.
    pub at: &'a Moment,
    /// Who was at the keys.
    pub actor: &'a Words,
    /// The step, with its part.
    pub key: &'a StepKey,
    /// The step as it is laid on the rig.
    pub planned: &'a PlannedStep,
    /// Who did the work.
    pub doer: &'a Words,
    /// Why it was asked.
    pub round: Round,
    /// The reading as typed.
    pub typed: &'a Typed,
    /// The id of the instrument.
    pub instrument: &'a str,
    /// What it came to.
    pub judgement: &'a Judgement,
    /// Whether a later answer of the same walk took its place.
    pub replaced: bool,
}

/// Every reading of a trip, in the order of its journal.
pub fn readings<'a>(walk: &'a Walk, trip: &'a Verified) -> impl Iterator<Item = Reading<'a>> {
    readings_in(walk, trip.entries())
}

/// The same of a walk that is no record, such as one that was invented.
pub fn readings_in<'a>(walk: &'a Walk, entries: &'a [Entry]) -> impl Iterator<Item = Reading<'a>> {
    let entries = entries.iter().zip(2..);
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
