//! Who signed: printed name, role, time and meaning, of the people, the laptop and the managers.

use crate::desk::lasted;
use crate::logbook::Answers;
use crate::record::{Digest, Opinion, Says, Sealed, Statements, Verified, counted};
use serde::Serialize;

/// Day and time, with the zone of the clock.
const SHOWN: &str = "%Y-%m-%d %H:%M %:z";

/// The seal.
#[derive(Clone, Debug, Serialize)]
pub(super) struct SealTold {
    pub(super) receipt: String,
    pub(super) hash: String,
    pub(super) lines: u64,
    pub(super) ok: u64,
    pub(super) note: u64,
    pub(super) fix: u64,
    pub(super) stop: u64,
    pub(super) signatures: Vec<SignatureTold>,
}

/// A signature.
#[derive(Clone, Debug, Serialize)]
pub(super) struct SignatureTold {
    pub(super) name: String,
    pub(super) role: String,
    pub(super) at: String,
    pub(super) meaning: String,
}

/// What a manager signed of the trip.
#[derive(Clone, Debug, Serialize)]
pub(super) struct CountersignTold {
    #[serde(flatten)]
    pub(super) signature: SignatureTold,
    pub(super) opinion: &'static str,
    pub(super) statement: u64,
    pub(super) opened: usize,
    pub(super) took_ms: Option<u64>,
    pub(super) words: Option<String>,
    /// What was answered to it in later walks.
    pub(super) answers: Vec<String>,
}

impl SealTold {
    pub(super) fn of(sealed: &Sealed) -> Self {
        let seal = &sealed.seal;
        let at = seal.wall.moment().format(SHOWN).to_string();
        let device = format!(
            "The record is as it was kept on this laptop, as its trip {}.",
            seal.seq
        );
        Self {
            receipt: sealed.receipt().to_string(),
            hash: sealed.hash.to_string(),
            lines: seal.lines,
            ok: seal.counts.ok,
            note: seal.counts.note,
            fix: seal.counts.fix,
            stop: seal.counts.stop,
            signatures: vec![
                SignatureTold {
                    name: seal.name.to_string(),
                    role: seal.role.to_string(),
                    at: at.clone(),
                    meaning: seal.meaning.clone(),
                },
                SignatureTold {
                    name: sealed.device.name.to_string(),
                    role: "device".to_owned(),
                    at,
                    meaning: device,
                },
            ],
        }
    }
}

/// What managers said of the trip, in the order of their words.
pub(super) fn said(
    trip: &Verified,
    statements: &Statements,
    answers: &Answers,
) -> Vec<CountersignTold> {
    let seal = trip.sealed().map(|sealed| sealed.hash);
    let said = statements.counting().filter_map(|stated| {
        let statement = stated.statement();
        let Says::Countersigned(says) = &statement.says else {
            return None;
        };
        (Some(says.seal) == seal).then(|| CountersignTold {
            signature: SignatureTold {
                name: statement.name.to_string(),
                role: "manager".to_owned(),
                at: statement.wall.moment().format(SHOWN).to_string(),
                meaning: statement.says.meaning().to_owned(),
            },
            opinion: match says.opinion {
                Opinion::Agreed => "agreed",
                Opinion::Asked => "asked",
            },
            statement: statement.number,
            opened: says.opened.len(),
            took_ms: says.took_ms,
            words: says.remarks.as_ref().map(ToString::to_string),
            answers: answered(answers, &stated.hash()),
        })
    });
    said.collect()
}

/// What was answered to a statement.
fn answered(answers: &Answers, statement: &Digest) -> Vec<String> {
    let all = answers.to(statement);
    all.iter().map(ToString::to_string).collect()
}

impl SignatureTold {
    /// `Wren Ashdown, driver, 2026-11-03 07:41 -05:00: Every step was …`.
    pub(super) fn told(&self) -> String {
        format!(
            "{}, {}, {}: {}",
            self.name, self.role, self.at, self.meaning
        )
    }
}

impl CountersignTold {
    /// Who signed what, then what they said to the trip.
    pub(super) fn told(&self) -> String {
        let said = match self.opinion {
            "agreed" => "it may stand",
            _ => "it may stand once a question is answered",
        };
        let took = self.took_ms;
        let took = took.map(|ms| format!("after {} of looking, ", lasted(ms)));
        let words = self.words.as_ref().map(|words| format!(" “{words}”"));
        format!(
            "{} Said: {said} (statement {}, {}{} opened).{}",
            self.signature.told(),
            self.statement,
            took.unwrap_or_default(),
            counted(self.opened, "exception"),
            words.unwrap_or_default(),
        )
    }
}
