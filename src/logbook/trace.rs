//! Every reading that relied on one instrument, and what would hold of it if the instrument was
//! more wrong than its rig file says.
//!
//! What was judged stays as it was judged. A gauge that turns out to read wrong does not change a
//! record; it tells a barn which readings to take again.

use crate::logbook::readings::readings;
use crate::record::{Id, Verified};
use crate::rig::Instrument;
use crate::rules::{Judgement, Limit, judge_within};
use crate::units::{Dimension, Exact, Quantity, Typed, Unit, parse_quantity};
use crate::walk::Walk;
use chrono::{DateTime, FixedOffset};
use std::fmt;

/// One reading taken with an instrument.
#[derive(Clone, Debug, PartialEq)]
pub struct Use {
    /// The trip.
    pub trip: Id,
    /// The laptop.
    pub device: Id,
    /// The trip's number there.
    pub seq: u64,
    /// The line of the journal, from 1.
    pub line: usize,
    /// The rig the instrument is kept with.
    pub rig: String,
    /// The instrument, as the rig file of that day has it.
    pub instrument: Instrument,
    /// The step, with its part.
    pub step: String,
    /// The step's name on screens.
    pub name: String,
    /// When it was read; of a walk on paper, when it was walked.
    pub at: DateTime<FixedOffset>,
    /// Who did the work.
    pub doer: String,
    /// The reading.
    pub typed: Typed,
    /// As it was judged.
    pub judgement: Judgement,
    /// Whether a later answer of the same walk took its place.
    pub replaced: bool,
}

/// How wrong an instrument is thought to have been.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WiderError(Vec<Quantity>);

/// Why a text says no error.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotAnError {
    /// It is no amount of anything that is measured.
    Nothing(String),
    /// It is less than nothing.
    Negative(String),
}

/// A reading judged again.
#[derive(Clone, Debug, PartialEq)]
pub struct Rejudged {
    /// How wrong it is taken to have been.
    pub error: Quantity,
    /// What it then comes to.
    pub judgement: Judgement,
}

/// The readings of a walk that were taken with this instrument, by its id or its name.
pub fn uses(walk: &Walk, trip: &Verified, instrument: &str) -> Vec<Use> {
    let begun = trip.begun();
    let rig = walk.plan().rig();
    let called = instrument.trim().to_lowercase();
    let is_it =
        |one: &&Instrument| one.id.to_lowercase() == called || one.name.to_lowercase() == called;
    let read = readings(walk, trip).filter_map(|read| {
        Some(Use {
            trip: begun.trip.clone(),
            device: begun.device.clone(),
            seq: begun.seq,
            line: read.line,
            rig: rig.id.clone(),
            instrument: rig.instrument(read.instrument).filter(is_it)?.clone(),
            step: read.key.to_string(),
            name: read.planned.name(),
            at: walk.paper().copied().unwrap_or(read.at.wall),
            doer: read.doer.to_string(),
            typed: read.typed.clone(),
            judgement: read.judgement.clone(),
            replaced: read.replaced,
        })
    });
    read.collect()
}

impl WiderError {
    /// Reads `2 psi`, or `6 %` for a share of each reading.
    ///
    /// # Errors
    /// [`NotAnError`] with what was typed.
    pub fn read(text: &str) -> Result<Self, NotAnError> {
        let meant = |dimension| parse_quantity(text, dimension).ok();
        let meant: Vec<Quantity> = Dimension::ALL.into_iter().filter_map(meant).collect();
        if meant.is_empty() {
            Err(NotAnError::Nothing(text.to_owned()))
        } else if meant.iter().any(|error| error.value.is_negative()) {
            Err(NotAnError::Negative(text.to_owned()))
        } else {
            Ok(Self(meant))
        }
    }

    /// The error at a reading, in its unit; nothing where the one says nothing of the other.
    fn at(&self, reading: &Quantity) -> Option<Quantity> {
        let same = |error: &&Quantity| error.dimension() == reading.dimension();
        if let Some(error) = self.0.iter().find(same) {
            return error.difference_in(reading.unit);
        }
        let share = self.0.iter().find(|error| error.unit == Unit::Percent)?;
        let part = share.value.over(&Exact::whole(100))?;
        Some(Quantity::new(
            &reading.value.magnitude() * &part,
            reading.unit,
        ))
    }
}

impl Use {
    /// The reading judged with this error, or with the one it was judged with where that is wider.
    /// Nothing where the error is of another kind of quantity.
    pub fn with(&self, error: &WiderError) -> Option<Rejudged> {
        let reading = self.typed.quantity();
        let wider = error.at(reading)?;
        let band = &self.judgement.band;
        let known = [reading.minus(&band.low)?, band.high.minus(reading)?];
        let known = known
            .into_iter()
            .map(|side| side.value)
            .max()
            .unwrap_or_else(Exact::zero);
        let error = Quantity::new(wider.value.max(known), reading.unit);
        let limits: Vec<Limit> = self
            .judgement
            .held
            .iter()
            .map(|held| held.limit.clone())
            .collect();
        let judgement = judge_within(reading, Some(&error), &limits);
        Some(Rejudged { error, judgement })
    }
}

impl Rejudged {
    /// Whether what was said of the reading still stands.
    pub fn holds(&self, before: &Judgement) -> bool {
        self.judgement.outcome == before.outcome
    }
}

impl fmt::Display for NotAnError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Nothing(text) => write!(
                f,
                "“{}” is no error an instrument could have. Write it with its unit, such as \
                 '2 psi', or as a share of each reading, such as '6 %'.",
                text.escape_debug()
            ),
            Self::Negative(text) => write!(
                f,
                "“{}” is less than nothing. An error reaches to both sides; write how far.",
                text.escape_debug()
            ),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rig::Rig;
    use crate::rig::demo::JUNIPER;
    use crate::rules::{Authority, Basis, Side, Verdict, judge};

    /// A reading of the gauge at 65 psi, judged by a fix below and a stop far below.
    fn reading(typed: &str) -> Use {
        let rig = Rig::read(JUNIPER).unwrap();
        let instrument = rig.instrument("gauge-100").unwrap().clone();
        let limit = |verdict, side, bound: &str| Limit {
            verdict,
            side,
            bound: parse_quantity(bound, Dimension::Pressure).unwrap(),
            derivation: None,
            basis: Basis {
                authority: Authority::Plate,
                source: "sidewall".to_owned(),
            },
            branch: None,
        };
        let limits = [
            limit(Verdict::Fix, Side::Below, "60 psi"),
            limit(Verdict::Stop, Side::Below, "50 psi"),
        ];
        let typed = Typed::read(typed, Dimension::Pressure).unwrap();
        let judgement = judge(typed.quantity(), Some(&instrument), &limits);
        Use {
            trip: Id::read("9f").unwrap(),
            device: Id::read("a").unwrap(),
            seq: 1,
            line: 2,
            rig: rig.id,
            instrument,
            step: "tire-cold/left-front".to_owned(),
            name: "Tire".to_owned(),
            at: "2026-11-20T06:10:00-05:00".parse().unwrap(),
            doer: "Tobias Fenn".to_owned(),
            typed,
            judgement,
            replaced: false,
        }
    }

    /// What it was, and what it would be.
    fn again(typed: &str, error: &str) -> Option<(String, String, String)> {
        let read = reading(typed);
        let again = read.with(&WiderError::read(error).unwrap())?;
        let told = (
            read.judgement.outcome.word().to_owned(),
            again.judgement.outcome.word().to_owned(),
            again.error.to_string(),
        );
        assert_eq!(again.holds(&read.judgement), told.0 == told.1);
        Some(told)
    }

    #[test]
    fn a_wider_error_reaches_limits_that_were_clear_to_the_last_digit() {
        let told = |before: &str, after: &str, error: &str| {
            Some((before.to_owned(), after.to_owned(), error.to_owned()))
        };
        // The gauge is wrong by 2 psi in its middle half.
        assert_eq!(again("65 psi", "5 psi"), told("ok", "ok", "5 psi"));
        assert_eq!(
            again("65 psi", "5.01 psi"),
            told("ok", "measure-again", "5.01 psi")
        );
        assert_eq!(
            again("55 psi", "6 psi"),
            told("fix", "measure-again", "6 psi")
        );
        assert_eq!(
            again("61 psi", "3 psi"),
            told("measure-again", "measure-again", "3 psi")
        );
    }

    #[test]
    fn an_error_smaller_than_the_known_one_changes_nothing_and_one_in_another_unit_is_exact() {
        assert_eq!(again("65 psi", "1 psi").unwrap().2, "2 psi");
        assert_eq!(again("65 psi", "0.5 bar").unwrap().1, "measure-again");
        assert_eq!(again("60 psi", "10 %").unwrap().2, "6 psi");
        assert_eq!(again("65 psi", "2 ft-lb"), None);
    }

    #[test]
    fn what_is_no_error_is_refused() {
        assert!(matches!(
            WiderError::read("wide"),
            Err(NotAnError::Nothing(_))
        ));
        assert!(matches!(
            WiderError::read("-2 psi"),
            Err(NotAnError::Negative(_))
        ));
    }
}
