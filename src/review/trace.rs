//! A trip brought down to what questions ask of it: what was answered, in which order, how long
//! after what, and what was read.

use crate::checklist::{Haul, PlannedAsk, PlannedStep, StepKey};
use crate::figures::Fact;
use crate::record::{Id, Verified};
use crate::rig::{InstrumentKind, Rig};
use crate::rules::{Outcome, Side, Verdict};
use crate::units::Quantity;
use crate::walk::{Entry, Event, Given, Moment, Round, Walk};
use chrono::{DateTime, FixedOffset};
use std::fmt;
use std::time::Duration;

/// A trip, named so that a person finds it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Named {
    /// The trip.
    pub trip: Id,
    /// The laptop.
    pub device: Id,
    /// The trip's number there.
    pub seq: u64,
    /// When it began, by the laptop's clock or by the paper it was entered from.
    pub at: DateTime<FixedOffset>,
    /// Who signed it, or who read where nobody has.
    pub who: String,
}

/// A trip as questions see it.
#[derive(Clone, Debug, PartialEq)]
pub struct Trace {
    /// Which.
    pub of: Named,
    /// The rig's id.
    pub rig: String,
    /// How it belongs to the day's haul.
    pub haul: Haul,
    /// Whether it was entered from paper.
    pub from_paper: bool,
    /// Whether anything was found on it: a note, a thing to put right, a thing that stops a rig.
    pub found: bool,
    /// What was answered, in order.
    pub acts: Vec<Act>,
}

/// One answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Act {
    /// The step, with its part.
    pub key: StepKey,
    /// Its name on screens.
    pub name: String,
    /// When it was typed.
    pub at: DateTime<FixedOffset>,
    /// Milliseconds since the answer before it, or since the walk began; what the walk stood on
    /// hold is taken off.
    pub took_ms: u64,
    /// Milliseconds it takes one person at the least, where the list says so.
    pub least_ms: Option<u64>,
    /// Who was at the keys.
    pub actor: String,
    /// Who did the work.
    pub doer: String,
    /// Whether it is the first answer to its step.
    pub first: bool,
    /// What was given.
    pub what: What,
}

/// What an answer was.
#[derive(Clone, Debug, PartialEq)]
pub enum What {
    /// Something was looked at.
    Seen,
    /// Another person looked.
    SeenBySecond,
    /// Something was read.
    Read(Measured),
}

/// A reading.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured {
    /// What was read.
    pub value: Quantity,
    /// With what.
    pub kind: InstrumentKind,
    /// The smallest mark or digit of that, where the rig file has it.
    pub mark: Option<Quantity>,
    /// What it tells the steps behind it.
    pub tells: Option<Fact>,
    /// The limits it was held against.
    pub limits: Vec<(Side, Quantity)>,
}

impl Trace {
    /// A trip that can be walked again.
    pub fn of((trip, walk): (&Verified, &Walk)) -> Self {
        let begun = trip.begun();
        let sealed = trip.sealed();
        let who = sealed.map_or_else(
            || begun.reader.to_string(),
            |sealed| sealed.seal.name.to_string(),
        );
        let of = Named {
            trip: begun.trip.clone(),
            device: begun.device.clone(),
            seq: begun.seq,
            at: walk.paper().copied().unwrap_or(trip.at().wall),
            who,
        };
        Self::new(of, walk, (trip.at(), trip.entries()))
    }

    /// A walk with what happened on it since it began.
    pub fn new(of: Named, walk: &Walk, (began, entries): (&Moment, &[Entry])) -> Self {
        let plan = walk.plan();
        Self {
            of,
            rig: plan.rig().id.clone(),
            haul: plan.checklist().haul,
            from_paper: walk.paper().is_some(),
            found: found(entries),
            acts: acts((began, entries), walk),
        }
    }

    /// The temperature of the air that was read on it.
    pub fn air(&self) -> Option<&Quantity> {
        let told = |read: &&Measured| read.tells == Some(Fact::AirTemperature);
        let mut read = self.acts.iter().filter_map(Act::read);
        read.rfind(told).map(|read| &read.value)
    }
}

impl Act {
    /// What was read.
    pub fn read(&self) -> Option<&Measured> {
        match &self.what {
            What::Read(read) => Some(read),
            What::Seen | What::SeenBySecond => None,
        }
    }

    /// Whether one person was at the keys and another at the rig.
    pub fn is_helped(&self) -> bool {
        self.actor != self.doer
    }
}

impl fmt::Display for Named {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "trip {} of {} ({}, {})",
            self.seq,
            self.device,
            self.who.escape_debug(),
            self.at.format("%Y-%m-%d %H:%M")
        )
    }
}

fn found(entries: &[Entry]) -> bool {
    entries.iter().any(|entry| match &entry.event {
        Event::Answered { given, .. } => given.outcome() != Outcome::Judged(Verdict::Ok),
        Event::Noted { .. } | Event::Unsure { .. } => true,
        _ => false,
    })
}

fn acts((began, entries): (&Moment, &[Entry]), walk: &Walk) -> Vec<Act> {
    let (mut before, mut stood) = (began, 0);
    let mut acts = Vec::new();
    for entry in entries {
        match &entry.event {
            Event::Resumed { stood_ms, .. } | Event::Settled { stood_ms, .. } => stood += stood_ms,
            Event::Answered {
                step,
                doer,
                round,
                given,
            } => {
                let planned = walk.plan().index(step).and_then(|at| walk.step(at));
                if let Some((planned, _)) = planned {
                    acts.push(Act {
                        key: step.clone(),
                        name: planned.name(),
                        at: entry.at.wall,
                        took_ms: entry.at.since(before).saturating_sub(stood),
                        least_ms: planned.step.least.map(millis),
                        actor: entry.actor.to_string(),
                        doer: doer.to_string(),
                        first: *round == Round::First,
                        what: what(given, planned, walk.plan().rig()),
                    });
                }
                (before, stood) = (&entry.at, 0);
            }
            _ => {}
        }
    }
    acts
}

fn millis(least: Duration) -> u64 {
    u64::try_from(least.as_millis()).unwrap_or(u64::MAX)
}

fn what(given: &Given, planned: &PlannedStep, rig: &Rig) -> What {
    match given {
        Given::Seen { by: Some(_), .. } => What::SeenBySecond,
        Given::Seen { .. } => What::Seen,
        Given::Read {
            typed,
            instrument,
            judgement,
        } => {
            let known = rig.instrument(instrument);
            let asked = match &planned.ask {
                PlannedAsk::Reading { ask, .. } => ask.instrument,
                PlannedAsk::Sighting(_) | PlannedAsk::Independent(_) => InstrumentKind::Count,
            };
            let limits = judgement.held.iter().map(|held| &held.limit);
            What::Read(Measured {
                value: typed.quantity().clone(),
                kind: known.map_or(asked, |known| known.kind),
                mark: known.map(|known| known.step.clone()),
                tells: planned.step.tells(),
                limits: limits
                    .map(|limit| (limit.side, limit.bound.clone()))
                    .collect(),
            })
        }
    }
}
