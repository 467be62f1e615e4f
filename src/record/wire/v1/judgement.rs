//! A reading's outcome with every limit it was held against.

use super::quantity;
use super::word::{named, token, word};
use crate::record::Unreadable;
use crate::record::json::Text;
use crate::rules::{Authority, Band, Basis, Held, Judgement, Limit, Outcome, Side, Verdict};
use crate::units::Quantity;
use serde::{Deserialize, Serialize};

const AGAIN: &str = "measure-again";

/// The outcome, the values the reading may stand for, the limits, and which of them decided.
#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Stored<'a> {
    #[serde(borrow)]
    outcome: Text<'a>,
    low: Text<'a>,
    high: Text<'a>,
    limits: Vec<StoredLimit<'a>>,
    decided: Option<usize>,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct StoredLimit<'a> {
    #[serde(borrow)]
    verdict: Text<'a>,
    side: Text<'a>,
    bound: Text<'a>,
    derivation: Option<Text<'a>>,
    authority: Text<'a>,
    source: Text<'a>,
    branch: Option<Text<'a>>,
    stands: Text<'a>,
}

/// How a limit stands to the values: (crossed, inside).
const STANDS: [(&str, (bool, bool)); 3] = [
    ("clear", (false, false)),
    ("crossed", (true, false)),
    ("inside", (false, true)),
];

pub(super) fn write(judgement: &Judgement) -> Stored<'_> {
    Stored {
        outcome: match judgement.outcome {
            Outcome::Judged(verdict) => verdict.word(),
            Outcome::Again => AGAIN,
        }
        .into(),
        low: quantity::write(&judgement.band.low).into(),
        high: quantity::write(&judgement.band.high).into(),
        limits: judgement.held.iter().map(write_limit).collect(),
        decided: judgement.decided_by,
    }
}

pub(super) fn read(stored: Stored<'_>) -> Result<Judgement, Unreadable> {
    let band = Band {
        low: quantity::read("low", &stored.low)?,
        high: quantity::read("high", &stored.high)?,
    };
    let held: Vec<Held> = stored
        .limits
        .into_iter()
        .map(read_limit)
        .collect::<Result<_, _>>()?;
    let judgement = Judgement {
        outcome: match &*stored.outcome {
            AGAIN => Outcome::Again,
            verdict => Outcome::Judged(named("outcome", verdict, &Verdict::WORDS)?),
        },
        band,
        held,
        decided_by: stored.decided,
    };
    if follows(&judgement) {
        Ok(judgement)
    } else {
        Err(Unreadable::Contradiction(
            "the verdict does not follow from the limits beside it",
        ))
    }
}

fn write_limit(held: &Held) -> StoredLimit<'_> {
    let limit = &held.limit;
    StoredLimit {
        verdict: limit.verdict.word().into(),
        side: limit.side.word().into(),
        bound: quantity::write(&limit.bound).into(),
        derivation: limit.derivation.as_deref().map(Text::from),
        authority: limit.basis.authority.word().into(),
        source: limit.basis.source.as_str().into(),
        branch: limit.branch.as_deref().map(Text::from),
        stands: word(&(held.crossed, held.inside), &STANDS).into(),
    }
}

fn read_limit(stored: StoredLimit<'_>) -> Result<Held, Unreadable> {
    let (crossed, inside) = named("stands", &stored.stands, &STANDS)?;
    let branch = stored.branch.as_ref();
    Ok(Held {
        limit: Limit {
            verdict: named("verdict", &stored.verdict, &Verdict::WORDS)?,
            side: named("side", &stored.side, &Side::WORDS)?,
            bound: quantity::read("bound", &stored.bound)?,
            derivation: stored.derivation.map(Text::into_string),
            basis: Basis {
                authority: named("authority", &stored.authority, &Authority::WORDS)?,
                source: stored.source.into_string(),
            },
            branch: branch.map(|id| token("branch", id)).transpose()?,
        },
        crossed,
        inside,
    })
}

/// Whether every limit stands as its bound says, and the outcome is that of the limit which
/// decided, with none worse crossed. So a record cannot call good what its own figures call bad.
fn follows(judgement: &Judgement) -> bool {
    let stands = |held: &Held| {
        let takes = |end: &Quantity| {
            let order = end.compare(&held.limit.bound)?;
            Some(held.limit.side.takes(order))
        };
        match (takes(&judgement.band.low), takes(&judgement.band.high)) {
            (Some(low), Some(high)) => {
                held.crossed == (low && high) && held.inside == (low != high)
            }
            _ => false,
        }
    };
    let worst = |which: fn(&Held) -> bool| {
        let which = judgement.held.iter().filter(|held| which(held));
        which
            .map(|held| held.limit.verdict)
            .max()
            .unwrap_or(Verdict::Ok)
    };
    let (crossed, inside) = (worst(|held| held.crossed), worst(|held| held.inside));
    let outcome = if inside > crossed {
        Outcome::Again
    } else {
        Outcome::Judged(crossed)
    };
    let decided = match judgement.decided_by {
        None => outcome == Outcome::Judged(Verdict::Ok),
        Some(at) => judgement.held.get(at).is_some_and(|held| match outcome {
            Outcome::Again => held.inside && held.limit.verdict == inside,
            Outcome::Judged(verdict) => held.crossed && held.limit.verdict == verdict,
        }),
    };
    judgement.held.iter().all(stands) && judgement.outcome == outcome && decided
}
