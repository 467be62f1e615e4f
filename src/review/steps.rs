//! Which steps of the checklists give trouble to those who walk them: where answers are taken
//! back, put off, typed twice or measured again, the list may ask badly.

use crate::rules::{Outcome, Verdict};
use crate::walk::{Entry, Event, Round, Walk};
use std::cmp::{Ordering, Reverse};
use std::collections::BTreeMap;

/// What a step gave rise to, over all its parts and walks.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct StepCounts {
    /// The checklist, by its id.
    pub checklist: String,
    /// The step, by its id.
    pub step: String,
    /// Its name, as the last walk that was read has it.
    pub name: String,
    /// How often it was answered for the first time on a walk.
    pub answered: u64,
    /// Answers taken back.
    pub taken_back: u64,
    /// Times it was put off.
    pub put_off: u64,
    /// Values that looked like a slip and had to be typed once more.
    pub typed_twice: u64,
    /// Readings that lay too near a limit for their instrument.
    pub measured_again: u64,
    /// Notes that were explained and lived with.
    pub lived_with: u64,
    /// Times the walk was stopped at it because something was not clear.
    pub not_clear: u64,
    /// First answers that had something to put right or to stop for: what the step is there for.
    pub found: u64,
    /// Milliseconds from its opening to its answer, each time.
    took_ms: Vec<u64>,
}

/// The counts of every step.
#[derive(Clone, Debug, Default)]
pub struct Steps {
    counts: BTreeMap<(String, String), StepCounts>,
    trips: u64,
}

impl Steps {
    /// Takes in a walk with what happened on it.
    pub fn take(&mut self, walk: &Walk, entries: &[Entry]) {
        self.trips += 1;
        let checklist = &walk.plan().checklist().id;
        let mut open = None;
        for entry in entries {
            let step = match &entry.event {
                Event::Opened { step }
                | Event::Doubted { step, .. }
                | Event::Answered { step, .. }
                | Event::Remarked { step, .. }
                | Event::Deferred { step, .. }
                | Event::Corrected { step, .. } => step,
                Event::Unsure { .. } => match open {
                    Some((step, _)) => step,
                    None => continue,
                },
                _ => continue,
            };
            let planned = walk.plan().index(step).and_then(|at| walk.step(at));
            let Some((planned, _)) = planned else {
                continue;
            };
            let key = (checklist.clone(), planned.step.id.clone());
            let counts = self.counts.entry(key).or_insert_with(|| StepCounts {
                checklist: checklist.clone(),
                step: planned.step.id.clone(),
                ..StepCounts::default()
            });
            counts.name.clone_from(&planned.step.name);
            match &entry.event {
                Event::Opened { step } => open = Some((step, &entry.at)),
                Event::Doubted { .. } => counts.typed_twice += 1,
                Event::Remarked { .. } => counts.lived_with += 1,
                Event::Deferred { .. } => counts.put_off += 1,
                Event::Corrected { .. } => counts.taken_back += 1,
                Event::Unsure { .. } => counts.not_clear += 1,
                Event::Answered { round, given, .. } => {
                    counts.answered += u64::from(*round == Round::First);
                    let outcome = given.outcome();
                    let first = *round == Round::First;
                    counts.measured_again += u64::from(first && outcome == Outcome::Again);
                    let found = matches!(outcome, Outcome::Judged(Verdict::Fix | Verdict::Stop));
                    counts.found += u64::from(*round == Round::First && found);
                    if let Some((_, at)) = open.take() {
                        counts.took_ms.push(entry.at.since(at));
                    }
                }
                _ => {}
            }
        }
    }

    /// How many trips were taken in.
    pub const fn trips(&self) -> u64 {
        self.trips
    }

    /// Every step that was answered, that with the most trouble for its answers first.
    pub fn by_trouble(&self) -> Vec<&StepCounts> {
        let answered = self.counts.values().filter(|one| one.answered > 0);
        let mut steps: Vec<&StepCounts> = answered.collect();
        steps.sort_by(|one, other| other.more_trouble(one));
        steps
    }
}

impl StepCounts {
    /// Everything that a step which asks well has seldom.
    pub const fn trouble(&self) -> u64 {
        self.taken_back
            + self.put_off
            + self.typed_twice
            + self.measured_again
            + self.lived_with
            + self.not_clear
    }

    /// The middle of the milliseconds from its opening to its answer.
    pub fn usual_ms(&self) -> Option<u64> {
        let mut took = self.took_ms.clone();
        took.sort_unstable();
        took.get(took.len() / 2).copied()
    }

    /// By trouble for an answer, exactly; then by trouble.
    fn more_trouble(&self, other: &Self) -> Ordering {
        let of = |one: &Self, other: &Self| u128::from(one.trouble()) * u128::from(other.answered);
        of(self, other)
            .cmp(&of(other, self))
            .then(self.trouble().cmp(&other.trouble()))
            .then(Reverse(&self.step).cmp(&Reverse(&other.step)))
    }
}
