//! One walk of a rig, brought down to what later walks need of it.

use crate::checklist::{Ending, Haul, PlannedStep};
use crate::due::{Done, OdometerRead};
use crate::figures::Fact;
use crate::haul::Found;
use crate::haul::found::{by, found};
use crate::rules::{Carried, Carry, Verdict};
use crate::units::Quantity;
use crate::walk::{Change, Ended, Entry, Event, Status, StepState, Turn, Walk, Words, hands};
use chrono::{DateTime, FixedOffset};
use std::collections::{BTreeMap, BTreeSet};

/// One walk of a rig.
#[derive(Clone, Debug, PartialEq)]
pub struct Past {
    /// The trip.
    pub trip: String,
    /// The rig, by its id.
    pub rig: String,
    /// The title of the checklist.
    pub list: String,
    /// How the walk belongs to the day's haul.
    pub haul: Haul,
    /// When anything last happened on it; of one from paper, when it was walked.
    pub at: DateTime<FixedOffset>,
    /// The odometer: as read on the walk, else as it was typed when it began.
    pub odometer: Option<OdometerRead>,
    /// As what it ended, if it did.
    pub ended: Option<Ended>,
    /// Whether it was gone through, so that it is practice for whoever walked it.
    pub(super) went_through: bool,
    /// Whether somebody signed for it. What nobody signed for leaves, and closes nothing.
    pub signed: bool,
    /// Whose hands it was in.
    pub(super) hands: Vec<Words>,
    /// What it left and closed, in order.
    pub(super) turns: Vec<Turned>,
    /// What its steps were last found to be.
    pub(super) found: Vec<Found>,
    /// The services it counts as.
    pub(super) served: Vec<Done>,
}

/// What of a trip its walk does not know.
#[derive(Clone, Debug, PartialEq)]
pub struct Told {
    /// The trip.
    pub trip: String,
    /// The odometer typed when it began.
    pub odometer: Option<Quantity>,
    /// Whether somebody signed for it.
    pub signed: bool,
    /// Who read and typed as it began, and who did the work.
    pub began_with: [Words; 2],
}

/// Something left or closed.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Turned {
    pub(super) change: Change,
    pub(super) at: DateTime<FixedOffset>,
    /// The parts its step is repeated for, once all of them were found well: the whole rig was
    /// gone round.
    pub(super) round: Option<BTreeSet<String>>,
}

impl Past {
    /// What a walk at its end, or as far as it has come, means to later ones.
    pub fn of(walk: &Walk, entries: &[Entry], told: Told) -> Self {
        let plan = walk.plan();
        let facts = walk.facts();
        let [reader, doer] = &told.began_with;
        let at = |wall: DateTime<FixedOffset>| walk.paper().copied().unwrap_or(wall);
        let who = walk.steps().iter().zip(plan.steps());
        let who = who.filter(|(_, planned)| planned.step.tells() == Some(Fact::Odometer));
        let who = who
            .filter_map(|(state, _)| state.answers.last())
            .next_back();
        let odometer = facts.get(Fact::Odometer).cloned().or(told.odometer);
        let odometer = odometer.map(|shown| OdometerRead {
            shown,
            on: at(who.map_or(walk.last().wall, |answer| answer.at.wall)).date_naive(),
            by: who.map_or(reader, by).to_string(),
        });
        let done = walk.ended() == Some(Ended::Complete) && told.signed;
        let steps = || plan.steps().iter().zip(walk.steps());
        let serves = |(planned, state): (&PlannedStep, &StepState)| {
            let what = planned.step.serves?;
            let answer = state.answers.last()?;
            let well = matches!(state.status, Status::Done(Verdict::Ok));
            well.then(|| Done {
                what,
                item: planned.item.as_ref().map(|item| item.id.clone()),
                on: at(answer.at.wall).date_naive(),
                odometer: odometer.as_ref().map(|read| read.shown.clone()),
                by: by(answer).to_string(),
                trip: told.trip.clone(),
            })
        };
        let found = |(planned, state)| {
            let found = found(planned, state)?;
            Some(Found {
                at: at(found.at),
                ..found
            })
        };
        Self {
            rig: plan.rig().id.clone(),
            list: plan.checklist().title.clone(),
            haul: plan.checklist().haul,
            at: at(walk.last().wall),
            ended: walk.ended(),
            went_through: walk.went_through(),
            signed: told.signed,
            hands: hands((reader, doer), entries).cloned().collect(),
            turns: turns(walk, entries)
                .into_iter()
                .map(|turned| Turned {
                    at: at(turned.at),
                    ..turned
                })
                .collect(),
            found: steps().filter_map(found).collect(),
            served: steps().filter(|_| done).filter_map(serves).collect(),
            trip: told.trip,
            odometer,
        }
    }

    /// What the odometer showed.
    pub(super) fn shown(&self) -> Option<&Quantity> {
        self.odometer.as_ref().map(|read| &read.shown)
    }
}

/// What a walk left and closed. What an answer did is taken back with it. A branch that ends the
/// walk leaves its own at the end.
fn turns(walk: &Walk, entries: &[Entry]) -> Vec<Turned> {
    let mut answers: BTreeMap<&str, usize> = BTreeMap::new();
    let mut groups: Vec<Vec<Change>> = Vec::new();
    for entry in entries {
        match &entry.event {
            Event::Answered { step, .. } => {
                answers.insert(step.as_str(), groups.len());
            }
            Event::Corrected { step, .. } => {
                let last = answers.get(step.as_str());
                if let Some(changes) = last.and_then(|at| groups.get_mut(*at)) {
                    changes.clear();
                }
            }
            _ => {}
        }
        groups.push(walk.changes(entry));
    }
    groups.push(at_the_end(walk));
    let mut rounds = Rounds::default();
    let changes = groups.into_iter().flatten();
    changes
        .map(|change| Turned {
            round: rounds.take(walk, &change),
            at: change.at.wall,
            change,
        })
        .collect()
}

/// What the branches leave that cannot be worked through, because the walk ends with them.
fn at_the_end(walk: &Walk) -> Vec<Change> {
    let steps = walk.plan().steps().iter().zip(walk.steps());
    let left = steps.filter_map(|(planned, state)| {
        let Status::Bad { branch, .. } = &state.status else {
            return None;
        };
        let branch = walk.plan().branch(branch)?;
        Some(Change {
            at: walk.last().clone(),
            carried: Carried {
                what: branch
                    .leaves
                    .filter(|_| branch.ends == Ending::NotFitToGo)?,
                part: planned.item.as_ref().map(|item| item.id.clone()),
            },
            turn: Turn::Left,
            step: planned.key.to_string(),
            doer: walk.doer().clone(),
        })
    });
    left.filter(|_| walk.ended().is_some()).collect()
}

/// The parts found well so far, by step and by what that closes.
#[derive(Default)]
struct Rounds(BTreeMap<(String, Carry), BTreeSet<String>>);

impl Rounds {
    /// Takes a change in; the parts, once its step has gone round all of them.
    fn take(&mut self, walk: &Walk, change: &Change) -> Option<BTreeSet<String>> {
        let what = change.carried.what;
        let part = change.carried.part.clone()?;
        if change.turn == Turn::Left {
            self.0.retain(|(_, of), _| *of != what);
            return None;
        }
        let (step, _) = change.step.split_once('/')?;
        let mut steps = walk.plan().steps().iter();
        let each = steps.find(|planned| planned.step.id == step)?.step.each?;
        let well = self.0.entry((step.to_owned(), what)).or_default();
        well.insert(part);
        let items = each.items(walk.plan().rig());
        let all: BTreeSet<String> = items.into_iter().map(|item| item.id).collect();
        (*well == all).then_some(all)
    }
}
