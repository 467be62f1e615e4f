//! Readings, sightings and doubted readings.

use super::judgement;
use super::quantity;
use super::word::{maybe_words, named, step, text, token, word, words};
use crate::checklist::StepKey;
use crate::record::json::Text;
use crate::record::strict::{self, Spelt};
use crate::record::{Body, JsonFault, Unreadable};
use crate::rules::{Doubt, Judgement, Verdict};
use crate::units::Typed;
use crate::walk::{Event, Given, Round, Words};
use serde::{Deserialize, Serialize};

pub(super) const READING: &str = "reading";
pub(super) const SIGHTING: &str = "sighting";
pub(super) const DOUBTED: &str = "doubted";

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct Reading<'a> {
    #[serde(borrow)]
    step: Text<'a>,
    doer: Text<'a>,
    round: Text<'a>,
    typed: Text<'a>,
    means: Text<'a>,
    instrument: Text<'a>,
    judgement: judgement::Stored<'a>,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct Sighting<'a> {
    #[serde(borrow)]
    step: Text<'a>,
    doer: Text<'a>,
    round: Text<'a>,
    state: Text<'a>,
    verdict: Text<'a>,
    by: Option<Text<'a>>,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct Doubted<'a> {
    #[serde(borrow)]
    step: Text<'a>,
    typed: Text<'a>,
    means: Text<'a>,
    instrument: Text<'a>,
    low: Text<'a>,
    high: Text<'a>,
    perhaps: Option<Text<'a>>,
}

pub(super) fn write(
    step: &StepKey,
    doer: &Words,
    round: Round,
    given: &Given,
) -> (&'static str, Result<Body, JsonFault>) {
    let (step, doer) = (step.as_str().into(), doer.as_str().into());
    let round = word(&round, &Round::WORDS).into();
    match given {
        Given::Read {
            typed,
            instrument,
            judgement,
        } => {
            let body = Reading {
                step,
                doer,
                round,
                typed: typed.text().into(),
                means: quantity::write(typed.quantity()).into(),
                instrument: instrument.as_str().into(),
                judgement: judgement::write(judgement),
            };
            (READING, Body::write(&body))
        }
        Given::Seen { state, verdict, by } => {
            let body = Sighting {
                step,
                doer,
                round,
                state: state.as_str().into(),
                verdict: verdict.word().into(),
                by: text(by.as_ref()),
            };
            (SIGHTING, Body::write(&body))
        }
    }
}

pub(super) fn reading(body: Spelt<'_>) -> Result<Event, Unreadable> {
    let stored: Reading<'_> = strict::body(body)?;
    let typed = quantity::typed(&stored.typed, &stored.means)?;
    let judgement = judgement::read(stored.judgement)?;
    if !holds(&judgement, &typed) {
        return Err(Unreadable::Contradiction(
            "the reading lies outside the values it may stand for",
        ));
    }
    Ok(Event::Answered {
        step: step(&stored.step)?,
        doer: words("doer", &stored.doer)?,
        round: named("round", &stored.round, &Round::WORDS)?,
        given: Given::Read {
            typed,
            instrument: token("instrument", &stored.instrument)?,
            judgement,
        },
    })
}

pub(super) fn sighting(body: Spelt<'_>) -> Result<Event, Unreadable> {
    let stored: Sighting<'_> = strict::body(body)?;
    Ok(Event::Answered {
        step: step(&stored.step)?,
        doer: words("doer", &stored.doer)?,
        round: named("round", &stored.round, &Round::WORDS)?,
        given: Given::Seen {
            state: token("state", &stored.state)?,
            verdict: named("verdict", &stored.verdict, &Verdict::WORDS)?,
            by: maybe_words("by", stored.by.as_ref())?,
        },
    })
}

pub(super) fn write_doubted(
    step: &StepKey,
    typed: &Typed,
    instrument: &str,
    doubt: &Doubt,
) -> Result<Body, JsonFault> {
    Body::write(&Doubted {
        step: step.as_str().into(),
        typed: typed.text().into(),
        means: quantity::write(typed.quantity()).into(),
        instrument: instrument.into(),
        low: quantity::write(&doubt.low).into(),
        high: quantity::write(&doubt.high).into(),
        perhaps: doubt.perhaps.map(|unit| quantity::unit_word(unit).into()),
    })
}

pub(super) fn doubted(body: Spelt<'_>) -> Result<Event, Unreadable> {
    let stored: Doubted<'_> = strict::body(body)?;
    let typed = quantity::typed(&stored.typed, &stored.means)?;
    let perhaps = stored.perhaps.as_ref();
    let doubt = Doubt {
        reading: typed.quantity().clone(),
        low: quantity::read("low", &stored.low)?,
        high: quantity::read("high", &stored.high)?,
        perhaps: perhaps
            .map(|unit| quantity::unit("perhaps", unit))
            .transpose()?,
    };
    Ok(Event::Doubted {
        step: step(&stored.step)?,
        typed,
        instrument: token("instrument", &stored.instrument)?,
        doubt,
    })
}

fn holds(judgement: &Judgement, typed: &Typed) -> bool {
    let reading = typed.quantity();
    let (low, high) = (&judgement.band.low, &judgement.band.high);
    reading.compare(low).is_some_and(std::cmp::Ordering::is_ge)
        && reading.compare(high).is_some_and(std::cmp::Ordering::is_le)
}
