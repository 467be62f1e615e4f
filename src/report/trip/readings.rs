//! What was read and seen: every reading with its limit and whose word that is; what was seen and
//! was ok, by section; what nobody came to.

use crate::desk::ReadingBeside;
use crate::rules::{Outcome, Verdict};
use crate::walk::{Given, Round, Status, Walk};
use serde::Serialize;

/// A reading.
#[derive(Clone, Debug, Serialize)]
pub(super) struct ReadingTold {
    pub(super) line: usize,
    pub(super) step: String,
    pub(super) name: String,
    pub(super) typed: String,
    pub(super) outcome: &'static str,
    pub(super) replaced: bool,
    /// The instrument, by its id.
    pub(super) instrument: String,
    pub(super) limit: Option<LimitTold>,
    pub(super) earlier: Vec<EarlierTold>,
}

/// The limit that decided, else the nearest.
#[derive(Clone, Debug, Serialize)]
pub(in crate::report) struct LimitTold {
    pub(in crate::report) bound: String,
    pub(in crate::report) authority: &'static str,
    pub(in crate::report) source: String,
}

#[derive(Clone, Debug, Serialize)]
pub(super) struct EarlierTold {
    pub(super) at: String,
    pub(super) typed: String,
    pub(super) outcome: &'static str,
}

/// What was seen in a section and was ok.
#[derive(Clone, Debug, Serialize)]
pub(super) struct SeenTold {
    pub(super) section: String,
    pub(super) ok: Vec<String>,
}

impl ReadingTold {
    pub(super) fn of(read: &ReadingBeside) -> Self {
        let earlier = read.earlier.iter().map(|one| EarlierTold {
            at: one.at.to_rfc3339(),
            typed: one.typed.to_string(),
            outcome: Outcome::word(one.outcome),
        });
        Self {
            line: read.line,
            step: read.step.clone(),
            name: read.name.clone(),
            typed: read.typed.to_string(),
            outcome: read.outcome,
            replaced: read.replaced,
            instrument: read.tool.clone(),
            limit: read.limit.as_ref().map(|limit| LimitTold {
                bound: limit.bound.clone(),
                authority: limit.basis.authority.word(),
                source: limit.basis.source.clone(),
            }),
            earlier: earlier.collect(),
        }
    }
}

/// What was seen at the first look and was ok, by section. Everything else is among the exceptions.
pub(super) fn seen(walk: &Walk) -> Vec<SeenTold> {
    let sections = walk.plan().sections().iter().enumerate();
    let seen = sections.map(|(at, section)| {
        let steps = walk.plan().steps().iter().zip(walk.steps());
        let own = steps.filter(|(planned, _)| planned.section == at);
        let ok = own.filter_map(|(planned, state)| {
            let [only] = state.answers.as_slice() else {
                return None;
            };
            let seen = matches!(only.given, Given::Seen { .. });
            let ok = state.status == Status::Done(Verdict::Ok);
            (seen && ok && only.round == Round::First).then(|| planned.name())
        });
        SeenTold {
            section: section.title.clone(),
            ok: ok.collect(),
        }
    });
    seen.filter(|section| !section.ok.is_empty()).collect()
}
