//! Version 2 of line 0. Frozen: what is stored with it must stay readable as it is.
//!
//! It has the fields of version 1, and behind them the haul, what earlier walks left open, when the
//! walk was walked where it is entered from paper, and answers where there are any. One that has none of these is version
//! 1: what can be said in both is said in the lower.

use super::v1::begun::{self as v1, KIND};
use super::v1::word::{named, token, word, words};
use crate::record::strict::{self, Spelt, field};
use crate::record::{Answered, Begun, Body, Digest, Id, Left, Said, Unreadable, Version, Wall};
use crate::rules::{Carried, Carry};
use serde::{Deserialize, Serialize};

/// What comes behind the fields of version 1 stands behind them as stored, and nothing else may:
/// a body written again has to give the same bytes.
#[derive(Deserialize, Serialize)]
pub(super) struct Stored {
    #[serde(flatten)]
    v1: v1::Stored,
    haul: Option<String>,
    carried: Vec<StoredLeft>,
    paper: Option<StoredPaper>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    answers: Vec<StoredAnswer>,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct StoredLeft {
    what: String,
    part: Option<String>,
    since: String,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct StoredPaper {
    walked: String,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct StoredAnswer {
    question: String,
    by: String,
    words: String,
}

/// The kind and body of line 0.
pub(super) fn write(begun: &Begun) -> Result<(Id, Body), Unreadable> {
    if let Some(odd) = begun.odd_answers() {
        return Err(Unreadable::Contradiction(odd));
    }
    let body = Body::write(&stored(begun)).map_err(Unreadable::Json)?;
    Ok((id("kind", KIND)?, body))
}

/// The fields as stored; version 3 begins with the same.
pub(super) fn stored(begun: &Begun) -> Stored {
    Stored {
        v1: v1::stored(begun),
        haul: begun.haul.as_ref().map(ToString::to_string),
        carried: begun.carried.iter().map(write_left).collect(),
        paper: begun.paper.map(|walked| StoredPaper {
            walked: walked.to_string(),
        }),
        answers: begun.answers.iter().map(write_answer).collect(),
    }
}

/// What a body of this kind says.
pub(super) fn read(kind: &Id, body: Spelt<'_>) -> Result<Said, Unreadable> {
    if kind.as_str() != KIND {
        return Err(Unreadable::Kind(Version::V2, kind.clone()));
    }
    let begun = meant(strict::body(body)?)?;
    if begun.needs_version_2() {
        Ok(Said::Begun(Box::new(begun)))
    } else {
        Err(Unreadable::Contradiction(
            "it holds nothing that version 1 has no room for, and is written in version 2",
        ))
    }
}

/// What the fields mean. What version 2 does not hold is not there.
pub(super) fn meant(stored: Stored) -> Result<Begun, Unreadable> {
    let begun = Begun {
        haul: stored.haul.map(|haul| id("haul", &haul)).transpose()?,
        carried: stored
            .carried
            .iter()
            .map(read_left)
            .collect::<Result<_, _>>()?,
        paper: stored
            .paper
            .map(|paper| field("walked", &paper.walked, Wall::read))
            .transpose()?,
        answers: stored
            .answers
            .iter()
            .map(read_answer)
            .collect::<Result<_, _>>()?,
        ..v1::meant(stored.v1)?
    };
    match begun.odd_answers() {
        Some(odd) => Err(Unreadable::Contradiction(odd)),
        None => Ok(begun),
    }
}

fn write_answer(answer: &Answered) -> StoredAnswer {
    StoredAnswer {
        question: answer.question.to_string(),
        by: answer.by.to_string(),
        words: answer.words.to_string(),
    }
}

fn read_answer(stored: &StoredAnswer) -> Result<Answered, Unreadable> {
    let digest = |text: &str| Digest::read(text).ok();
    Ok(Answered {
        question: field("question", &stored.question, digest)?,
        by: words("by", &stored.by)?,
        words: words("words", &stored.words)?,
    })
}

fn write_left(left: &Left) -> StoredLeft {
    StoredLeft {
        what: word(&left.carried.what, &Carry::WORDS),
        part: left.carried.part.clone(),
        since: left.since.to_string(),
    }
}

fn read_left(stored: &StoredLeft) -> Result<Left, Unreadable> {
    let part = stored.part.as_ref().map(|part| token("part", part));
    Ok(Left {
        carried: Carried {
            what: named("what", &stored.what, &Carry::WORDS)?,
            part: part.transpose()?,
        },
        since: id("since", &stored.since)?,
    })
}

fn id(name: &'static str, text: &str) -> Result<Id, Unreadable> {
    field(name, text, |text| Id::read(text).ok())
}
