//! Version 3: line 0 of a drill, and the lines there are in drills alone. Frozen: what is stored
//! with it must stay readable as it is.
//!
//! Line 0 has the fields of version 2, and behind them the drill. Whatever happens on the walk of a
//! drill is said as on any walk, in version 1.

use super::v1::begun::{KIND, StoredPinned, read_pinned, write_pinned};
use super::v1::quantity;
use super::v1::word::{named, step, token, word, words};
use super::v2;
use crate::drill::{Drilled, Stage, Vantage};
use crate::record::strict::{self, Spelt, field};
use crate::record::{Begun, BegunDrill, Body, Digest, Id, Said, Unreadable, Version};
use crate::rules::Verdict;
use serde::{Deserialize, Serialize};

const LOOKED: &str = "looked";
const USED: &str = "used";
const CALLED: &str = "called";
const RETURNED: &str = "returned";
const LEARNED: &str = "learned";

/// What comes behind the fields of version 2 stands behind them as stored.
#[derive(Deserialize, Serialize)]
struct Stored {
    #[serde(flatten)]
    v2: v2::Stored,
    drill: StoredDrill,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct StoredDrill {
    scenario: StoredPinned,
    sights: String,
    seed: u64,
    stage: String,
    examiner: Option<String>,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct Looked {
    step: String,
    from: String,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct Used {
    step: String,
    instrument: String,
    showed: String,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct Called {
    step: String,
    verdict: String,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct Returned {
    step: String,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct Learned {
    words: String,
}

/// The kind and body of line 0.
pub(super) fn begin(begun: &Begun, drill: &BegunDrill) -> Result<(Id, Body), Unreadable> {
    if let Some(odd) = begun.odd_answers().or_else(|| begun.odd_drill()) {
        return Err(Unreadable::Contradiction(odd));
    }
    let stored = Stored {
        v2: v2::stored(begun),
        drill: StoredDrill {
            scenario: write_pinned(&drill.scenario),
            sights: drill.sights.to_string(),
            seed: drill.seed,
            stage: drill.stage.word().to_owned(),
            examiner: drill.examiner.as_ref().map(ToString::to_string),
        },
    };
    kept(KIND, &stored)
}

/// The kind and body of what there is in drills alone.
pub(super) fn write(drilled: &Drilled) -> Result<(Id, Body), Unreadable> {
    match drilled {
        Drilled::Looked(step, from) => kept(
            LOOKED,
            &Looked {
                step: step.to_string(),
                from: from.word().to_owned(),
            },
        ),
        Drilled::Used {
            step,
            instrument,
            showed,
        } => kept(
            USED,
            &Used {
                step: step.to_string(),
                instrument: instrument.clone(),
                showed: quantity::write(showed),
            },
        ),
        Drilled::Called(step, verdict) => kept(
            CALLED,
            &Called {
                step: step.to_string(),
                verdict: word(verdict, &Verdict::WORDS),
            },
        ),
        Drilled::Returned(step) => {
            let step = step.to_string();
            kept(RETURNED, &Returned { step })
        }
        Drilled::Learned(words) => {
            let words = words.to_string();
            kept(LEARNED, &Learned { words })
        }
    }
}

fn kept(kind: &str, body: &impl Serialize) -> Result<(Id, Body), Unreadable> {
    let body = Body::write(body).map_err(Unreadable::Json)?;
    Ok((field("kind", kind, |text| Id::read(text).ok())?, body))
}

/// What a body of this kind says.
pub(super) fn read(kind: &Id, body: Spelt<'_>) -> Result<Said, Unreadable> {
    if kind.as_str() == KIND {
        return begun(strict::body(body)?).map(|begun| Said::Begun(Box::new(begun)));
    }
    let drilled = match kind.as_str() {
        LOOKED => {
            let stored: Looked = strict::body(body)?;
            let from = named("from", &stored.from, &Vantage::WORDS)?;
            Drilled::Looked(step(&stored.step)?, from)
        }
        USED => {
            let stored: Used = strict::body(body)?;
            Drilled::Used {
                step: step(&stored.step)?,
                instrument: token("instrument", &stored.instrument)?,
                showed: quantity::read("showed", &stored.showed)?,
            }
        }
        CALLED => {
            let stored: Called = strict::body(body)?;
            let verdict = named("verdict", &stored.verdict, &Verdict::WORDS)?;
            Drilled::Called(step(&stored.step)?, verdict)
        }
        RETURNED => {
            let stored: Returned = strict::body(body)?;
            Drilled::Returned(step(&stored.step)?)
        }
        LEARNED => {
            let stored: Learned = strict::body(body)?;
            Drilled::Learned(words("words", &stored.words)?)
        }
        _ => return Err(Unreadable::Kind(Version::V3, kind.clone())),
    };
    Ok(Said::Drilled(Box::new(drilled)))
}

fn begun(stored: Stored) -> Result<Begun, Unreadable> {
    let drill = BegunDrill {
        scenario: read_pinned("scenario", &stored.drill.scenario)?,
        sights: field("sights", &stored.drill.sights, |text| {
            Digest::read(text).ok()
        })?,
        seed: stored.drill.seed,
        stage: named("stage", &stored.drill.stage, &Stage::WORDS)?,
        examiner: match stored.drill.examiner {
            Some(name) => Some(words("examiner", &name)?),
            None => None,
        },
    };
    let begun = Begun {
        drill: Some(drill),
        ..v2::meant(stored.v2)?
    };
    match begun.odd_drill() {
        Some(odd) => Err(Unreadable::Contradiction(odd)),
        None => Ok(begun),
    }
}
