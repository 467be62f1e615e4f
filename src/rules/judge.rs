//! A reading, the limits of its step and the error of its instrument give an outcome.

use crate::rig::Instrument;
use crate::rules::error::error_at;
use crate::rules::{Limit, Verdict};
use crate::units::{Exact, Quantity};

/// What a reading comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Outcome {
    /// A verdict that holds anywhere in the reading's error band.
    Judged(Verdict),
    /// A limit lies inside the error band: measure again with a finer instrument.
    Again,
}

impl Outcome {
    /// The word used in records.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Judged(verdict) => verdict.word(),
            Self::Again => "measure-again",
        }
    }

    /// Whether the step has to be answered afresh.
    pub fn is_open(self) -> bool {
        match self {
            Self::Judged(verdict) => verdict.blocks(),
            Self::Again => true,
        }
    }
}

/// The values a reading may stand for, given its instrument's error.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Band {
    /// Lowest.
    pub low: Quantity,
    /// Highest.
    pub high: Quantity,
}

/// A limit, and where the band lies against it.
#[derive(Clone, Debug, PartialEq)]
pub struct Held {
    /// The limit.
    pub limit: Limit,
    /// Whether the whole band is beyond it.
    pub crossed: bool,
    /// Whether it lies inside the band.
    pub inside: bool,
}

/// The outcome of a reading with everything it rests on.
#[derive(Clone, Debug, PartialEq)]
pub struct Judgement {
    /// What it comes to.
    pub outcome: Outcome,
    /// The values the reading may stand for.
    pub band: Band,
    /// Every limit of the step, as held against the band.
    pub held: Vec<Held>,
    /// Which of `held` decided: the worst one crossed, or the first inside the band.
    pub decided_by: Option<usize>,
}

impl Judgement {
    /// The limit that decided, where one did.
    pub fn deciding(&self) -> Option<&Limit> {
        self.decided_by
            .and_then(|at| self.held.get(at))
            .map(|held| &held.limit)
    }

    /// The limit the reading lies nearest to: where none decided, the one that would next.
    pub fn nearest(&self) -> Option<&Limit> {
        let away = |end: &Quantity, bound: &Quantity| Some(end.minus(bound)?.value.magnitude());
        let away = |limit: &Limit| {
            let low = away(&self.band.low, &limit.bound)?;
            Some(low.min(away(&self.band.high, &limit.bound)?))
        };
        let limits = self.held.iter().map(|held| &held.limit);
        let known = limits.filter_map(|limit| Some((away(limit)?, limit)));
        known
            .min_by(|(one, _), (other, _)| one.cmp(other))
            .map(|(_, limit)| limit)
    }
}

/// Judges a reading, exactly. Without an instrument the band is the reading itself.
///
/// Limits the verdict would not change by are not allowed to ask for a second measurement: a band
/// that lies wholly beyond a stop is a stop, wherever a note or fix lies inside it. An instrument
/// that does not measure such a reading proves nothing, so every limit may lie inside its band.
pub fn judge(reading: &Quantity, instrument: Option<&Instrument>, limits: &[Limit]) -> Judgement {
    let error = match instrument {
        Some(instrument) => error_at(instrument, reading),
        None => Some(Quantity::new(Exact::zero(), reading.unit)),
    };
    judge_within(reading, error.as_ref(), limits)
}

/// Judges a reading that may be wrong by so much, or, where nobody knows by how much, by anything.
pub fn judge_within(reading: &Quantity, error: Option<&Quantity>, limits: &[Limit]) -> Judgement {
    let band = band(reading, error);
    let held: Vec<Held> = limits
        .iter()
        .map(|limit| match error {
            Some(_) => hold(&band, limit),
            None => unknown(limit),
        })
        .collect();
    let crossed = worst(&held, |held| held.crossed);
    let inside = worst(&held, |held| held.inside);
    let verdict_of = |at: Option<usize>| {
        at.and_then(|at| held.get(at))
            .map_or(Verdict::Ok, |held| held.limit.verdict)
    };
    let (outcome, decided_by) = if verdict_of(inside) > verdict_of(crossed) {
        (Outcome::Again, inside)
    } else {
        (Outcome::Judged(verdict_of(crossed)), crossed)
    };
    Judgement {
        outcome,
        band,
        held,
        decided_by,
    }
}

fn band(reading: &Quantity, error: Option<&Quantity>) -> Band {
    let zero = Quantity::new(Exact::zero(), reading.unit);
    let error = error.unwrap_or(&zero);
    Band {
        low: Quantity::new(&reading.value - &error.value, reading.unit),
        high: Quantity::new(&reading.value + &error.value, reading.unit),
    }
}

/// Where the band lies against a limit.
fn hold(band: &Band, limit: &Limit) -> Held {
    let takes = |end: &Quantity| Some(limit.side.takes(end.compare(&limit.bound)?));
    let Some((low, high)) = takes(&band.low).zip(takes(&band.high)) else {
        return unknown(limit);
    };
    Held {
        limit: limit.clone(),
        crossed: low && high,
        inside: low != high,
    }
}

/// A limit the band cannot be held against: it may lie anywhere, so it counts as inside.
fn unknown(limit: &Limit) -> Held {
    Held {
        limit: limit.clone(),
        crossed: false,
        inside: true,
    }
}

/// The first of the worst limits that `which` picks.
fn worst(held: &[Held], which: impl Fn(&Held) -> bool) -> Option<usize> {
    let mut found: Option<(usize, Verdict)> = None;
    for (at, held) in held.iter().enumerate().filter(|(_, held)| which(held)) {
        if found.is_none_or(|(_, verdict)| held.limit.verdict > verdict) {
            found = Some((at, held.limit.verdict));
        }
    }
    found.map(|(at, _)| at)
}
