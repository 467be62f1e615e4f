//! One trip opened by whoever looks it over: first what is not as expected, then how it went, then
//! every reading against its limit and against what the rig showed before.

use crate::desk::{Exception, Tale, told};
use crate::logbook::readings;
use crate::record::{Opinion, Verified};
use crate::review::{Earlier, Past, Stretch, timeline};
use crate::rules::{Basis, Limit};
use crate::units::{Quantity, Typed};
use crate::walk::Walk;
use std::fmt;

/// How many earlier readings stand beside each.
const EARLIER: usize = 4;

/// Digits behind the point where a limit is told in the unit of a reading.
const PLACES: usize = 3;

/// A trip, opened.
#[derive(Clone, Debug, PartialEq)]
pub struct OpenedTrip {
    /// Its record, told: what it is, what verification found, who signed.
    pub tale: Tale,
    /// What managers said of it, each with printed name, time and number of the statement.
    pub said: Vec<String>,
    /// What managers whose key is here said of it and need not say again.
    pub already: Vec<String>,
    /// The words that none of them can say of it: each said so and need not again.
    pub refused: Vec<Opinion>,
    /// What is asked about it, in words.
    pub asked: Vec<String>,
    /// What is not as expected.
    pub exceptions: Vec<Exception>,
    /// How it went.
    pub timeline: Vec<Stretch>,
    /// Its readings, in order.
    pub readings: Vec<ReadingBeside>,
}

/// A reading beside its limit and those before it.
#[derive(Clone, Debug, PartialEq)]
pub struct ReadingBeside {
    /// The line of the journal, from 1.
    pub line: usize,
    /// The step, with its part, as records name it.
    pub step: String,
    /// Its name on screens.
    pub name: String,
    /// As typed.
    pub typed: Typed,
    /// What it was read with: the instrument's name, else its id.
    pub instrument: String,
    /// What it came to, in a word.
    pub outcome: &'static str,
    /// The same, and why, where it could not be judged.
    pub came_to: String,
    /// The instrument's id.
    pub tool: String,
    /// The limit that decided, else the nearest one, in the reading's unit.
    pub limit: Option<HeldTo>,
    /// Whether a later answer of the walk took its place.
    pub replaced: bool,
    /// What stood at the end of earlier trips of the rig, the newest first.
    pub earlier: Vec<Earlier>,
}

/// A limit that a reading was held to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HeldTo {
    /// `fix below 62.5 psi`.
    pub bound: String,
    /// Whose word it is.
    pub basis: Basis,
}

impl OpenedTrip {
    /// A trip that can be walked again, with its record told and what is said and asked of it.
    pub fn of(
        (trip, walk): (&Verified, &Walk),
        (tale, said, asked): (Tale, Vec<String>, Vec<String>),
        exceptions: Vec<Exception>,
        past: Option<&Past>,
    ) -> Self {
        Self {
            tale,
            said,
            already: Vec::new(),
            refused: Vec::new(),
            asked,
            exceptions,
            timeline: timeline(walk, (trip.at(), trip.entries())),
            readings: beside((trip, walk), past),
        }
    }
}

impl ReadingBeside {
    /// In words: the reading first, then its limit and those before it.
    pub fn told(&self) -> Vec<String> {
        let replaced = if self.replaced {
            "; a later answer counts in its place"
        } else {
            ""
        };
        let read = format!(
            "{}: {} ({}), {}{replaced}",
            self.name, self.typed, self.instrument, self.came_to
        );
        let limit = self.limit.iter().map(|limit| format!("Limit: {limit}."));
        let earlier = self.earlier.iter();
        let earlier: Vec<String> = earlier
            .map(|one| format!("{} on {}", one.typed, one.at.format("%-d %b %Y")))
            .collect();
        let before = (!earlier.is_empty()).then(|| format!("Before: {}.", earlier.join(", ")));
        std::iter::once(read).chain(limit).chain(before).collect()
    }
}

fn beside((trip, walk): (&Verified, &Walk), past: Option<&Past>) -> Vec<ReadingBeside> {
    let began = walk.paper().unwrap_or(&trip.at().wall);
    let beside = readings(walk, trip).map(|read| {
        let judgement = read.judgement;
        let limit = judgement.deciding().or_else(|| judgement.nearest());
        let tool = walk.plan().rig().instrument(read.instrument);
        let began = (&trip.begun().trip, began);
        let earlier = past.map(|past| past.before(read.key, began, EARLIER));
        let earlier = earlier.into_iter().flatten();
        ReadingBeside {
            line: read.line,
            step: read.key.to_string(),
            name: read.planned.name(),
            typed: read.typed.clone(),
            instrument: tool.map_or_else(|| read.instrument.to_owned(), |tool| tool.name.clone()),
            tool: read.instrument.to_owned(),
            outcome: told::outcome_word(judgement.outcome),
            came_to: told::came_to(judgement, read.typed),
            limit: limit.map(|limit| held_to(limit, read.typed.quantity())),
            replaced: read.replaced,
            earlier: earlier.cloned().collect(),
        }
    });
    beside.collect()
}

fn held_to(limit: &Limit, reading: &Quantity) -> HeldTo {
    let bound = limit.bound.in_unit(reading.unit);
    let bound = bound.unwrap_or_else(|| limit.bound.clone());
    let side = limit.side.word().replace('-', " ");
    HeldTo {
        bound: format!("{} {side} {}", limit.verdict.word(), bound.shown(PLACES)),
        basis: limit.basis.clone(),
    }
}

impl fmt::Display for HeldTo {
    /// `fix below 62.5 psi, by plate: tire label`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}, by {}", self.bound, self.basis)
    }
}
