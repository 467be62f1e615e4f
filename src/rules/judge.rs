//! A reading, the limits of its step and the error of its instrument give an outcome.

use crate::rig::{ErrorRule, GaugeGrade, Instrument};
use crate::rules::{Limit, Verdict};
use crate::units::{Exact, Quantity};
use std::cmp::Ordering;

/// What a reading comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Outcome {
    /// A verdict that holds anywhere in the reading's error band.
    Judged(Verdict),
    /// A limit lies inside the error band: measure again with a finer instrument.
    Again,
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
}

/// Judges a reading, exactly. Without an instrument the band is the reading itself.
///
/// Limits the verdict would not change by are not allowed to ask for a second measurement: a band
/// that lies wholly beyond a stop is a stop, wherever a note or fix lies inside it.
pub fn judge(reading: &Quantity, instrument: Option<&Instrument>, limits: &[Limit]) -> Judgement {
    let error = instrument.map(|instrument| error_at(instrument, reading));
    let band = band(reading, error.as_ref());
    let held: Vec<Held> = limits.iter().map(|limit| hold(&band, limit)).collect();
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

/// How wrong this instrument may be at this reading, in the reading's unit.
pub(crate) fn error_at(instrument: &Instrument, reading: &Quantity) -> Quantity {
    let none = Quantity::new(Exact::zero(), reading.unit);
    match &instrument.error {
        ErrorRule::Fixed(error) => error.in_unit(reading.unit).unwrap_or(none),
        ErrorRule::OfReading(share) => {
            Quantity::new(&reading.value.magnitude() * share, reading.unit)
        }
        ErrorRule::Grade(grade) => {
            let Some((low, high)) = &instrument.span else {
                return none;
            };
            let Some((low, high)) = low.in_unit(reading.unit).zip(high.in_unit(reading.unit))
            else {
                return none;
            };
            let span = &high.value - &low.value;
            let percent = grade_percent(*grade, &low.value, &span, &reading.value);
            Quantity::new(&span * &percent, reading.unit)
        }
    }
}

/// The share of span a graded gauge may be wrong by at this value: ASME B40.100 allows more in the
/// first and last quarter of the scale than in its middle half.
fn grade_percent(grade: GaugeGrade, low: &Exact, span: &Exact, value: &Exact) -> Exact {
    let quarter = &(span * &Exact::ratio(1, 4).unwrap_or_else(Exact::zero)) + low;
    let three_quarters = &(span * &Exact::ratio(3, 4).unwrap_or_else(Exact::zero)) + low;
    let middle = quarter <= *value && *value <= three_quarters;
    let percent = match (grade, middle) {
        (GaugeGrade::A | GaugeGrade::OneA, true) | (GaugeGrade::OneA, false) => 1,
        (GaugeGrade::A, false) | (GaugeGrade::B, true) => 2,
        (GaugeGrade::B, false) => 3,
    };
    Exact::ratio(percent, 100).unwrap_or_else(Exact::zero)
}

fn band(reading: &Quantity, error: Option<&Quantity>) -> Band {
    let zero = Quantity::new(Exact::zero(), reading.unit);
    let error = error.unwrap_or(&zero);
    Band {
        low: Quantity::new(&reading.value - &error.value, reading.unit),
        high: Quantity::new(&reading.value + &error.value, reading.unit),
    }
}

fn hold(band: &Band, limit: &Limit) -> Held {
    let takes = |end: &Quantity| {
        end.compare(&limit.bound)
            .is_some_and(|order: Ordering| limit.side.takes(order))
    };
    let (low, high) = (takes(&band.low), takes(&band.high));
    Held {
        limit: limit.clone(),
        crossed: low && high,
        inside: low != high,
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
