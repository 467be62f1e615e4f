//! Readings, sightings and doubted readings.

use super::judgement;
use super::quantity;
use super::word::{maybe_words, named, step, text, token, word, words};
use crate::checklist::StepKey;
use crate::record::strict;
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
struct Reading {
    step: String,
    doer: String,
    round: String,
    typed: String,
    means: String,
    instrument: String,
    judgement: judgement::Stored,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct Sighting {
    step: String,
    doer: String,
    round: String,
    state: String,
    verdict: String,
    by: Option<String>,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct Doubted {
    step: String,
    typed: String,
    means: String,
    instrument: String,
    low: String,
    high: String,
    perhaps: Option<String>,
}

pub(super) fn write(
    step: &StepKey,
    doer: &Words,
    round: Round,
    given: &Given,
) -> (&'static str, Result<Body, JsonFault>) {
    let (step, doer) = (step.to_string(), doer.to_string());
    let round = word(&round, &Round::WORDS);
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
                typed: typed.text().to_owned(),
                means: quantity::write(typed.quantity()),
                instrument: instrument.clone(),
                judgement: judgement::write(judgement),
            };
            (READING, Body::write(&body))
        }
        Given::Seen { state, verdict, by } => {
            let body = Sighting {
                step,
                doer,
                round,
                state: state.clone(),
                verdict: verdict.word().to_owned(),
                by: text(by.as_ref()),
            };
            (SIGHTING, Body::write(&body))
        }
    }
}

pub(super) fn reading(body: &Body) -> Result<Event, Unreadable> {
    let stored: Reading = strict::body(body)?;
    let typed = quantity::typed(&stored.typed, &stored.means)?;
    let judgement = judgement::read(&stored.judgement)?;
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

pub(super) fn sighting(body: &Body) -> Result<Event, Unreadable> {
    let stored: Sighting = strict::body(body)?;
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
        step: step.to_string(),
        typed: typed.text().to_owned(),
        means: quantity::write(typed.quantity()),
        instrument: instrument.to_owned(),
        low: quantity::write(&doubt.low),
        high: quantity::write(&doubt.high),
        perhaps: doubt
            .perhaps
            .map(|unit| quantity::unit_word(unit).to_owned()),
    })
}

pub(super) fn doubted(body: &Body) -> Result<Event, Unreadable> {
    let stored: Doubted = strict::body(body)?;
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
