//! What in a record is not as expected, put together by step, for whoever signs that it was looked
//! at.

use crate::checklist::{Plan, PlannedStep, StepKey};
use crate::desk::{counts, told};
use crate::record::Verified;
use crate::rules::{Outcome, Verdict};
use crate::walk::{Ended, Entry, Event, Given, Round, Words};

/// One thing to look at.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Exception {
    /// What it is called where it is said to have been looked at: by the lines of the journal and
    /// the step, and nothing of what was read there or by whom, which may be pruned one day.
    pub named: Words,
    /// What happened, in words, each with its time.
    pub told: Vec<String>,
}

impl Exception {
    /// The step it is about, where it is about one of this plan.
    pub fn step<'p>(&self, plan: &'p Plan) -> Option<&'p PlannedStep> {
        let (_, key) = self.named.as_str().split_once(", ")?;
        let mut steps = plan.steps().iter();
        steps.find(|planned| planned.key.to_string() == key)
    }
}

/// How much an exception matters, the gravest first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Gravity {
    /// Something that stops a rig.
    Stops,
    /// Something to put right.
    ToFix,
    /// Put off.
    PutOff,
    /// Taken back.
    Corrected,
    /// Something was not clear, noted, lived with, or the walk did not end as it should.
    Noted,
    /// Too near a limit to be judged, and measured again.
    Again,
    /// Left for a while, or given into other hands.
    Left,
    /// Looked at again, or by a second person, and ok.
    OkAgain,
}

/// Everything out of limits, put off, corrected, noted, held, handed over, looked at again or by
/// a second person, the gravest first. What happened to a step is one thing, so is an absence; all
/// that was ok when it was looked at again is one as well, and anything else is one for itself.
pub fn exceptions(trip: &Verified, plan: &Plan) -> Vec<Exception> {
    exceptions_among(trip.entries(), plan)
}

/// The same among the entries of a walk, in order and none left out.
pub fn exceptions_among(entries: &[Entry], plan: &Plan) -> Vec<Exception> {
    let mut groups: Vec<Group<'_>> = Vec::new();
    for (line, entry) in (2..).zip(entries) {
        let step = step_of(&entry.event);
        let ends = is_end_of_absence(&entry.event);
        let known = groups.iter().rposition(|group| match step {
            Some(_) => group.step == step,
            None => ends && group.is_absence(),
        });
        match known.and_then(|at| groups.get_mut(at)) {
            Some(group) => group.lines.push((line, entry)),
            None => groups.push(Group {
                step,
                lines: vec![(line, entry)],
            }),
        }
    }
    let grave = groups
        .into_iter()
        .filter_map(|group| Some((group.gravity()?, group)));
    let (again, mut others): (Vec<_>, Vec<_>) =
        grave.partition(|(gravity, _)| *gravity == Gravity::OkAgain);
    others.sort_by_key(|(gravity, _)| *gravity);
    let others = others.iter().filter_map(|(_, group)| group.exception(plan));
    others.chain(ok_again(&again, plan)).collect()
}

/// The lines of a step, of an absence, or the one line of anything else.
struct Group<'a> {
    step: Option<&'a StepKey>,
    lines: Vec<(usize, &'a Entry)>,
}

impl Group<'_> {
    /// How much it matters; nothing where it is as expected.
    fn gravity(&self) -> Option<Gravity> {
        self.lines
            .iter()
            .filter_map(|(_, entry)| gravity(entry))
            .min()
    }

    /// Whether it is an absence that has not ended yet.
    fn is_absence(&self) -> bool {
        let [(_, entry)] = self.lines.as_slice() else {
            return false;
        };
        matches!(entry.event, Event::Held { .. } | Event::Unsure { .. })
    }

    /// The lines that tell something.
    fn shown(&self) -> impl Iterator<Item = (usize, &Entry)> {
        let opened = |entry: &Entry| matches!(entry.event, Event::Opened { .. });
        let lines = self.lines.iter().filter(move |(_, entry)| !opened(entry));
        lines.map(|(line, entry)| (*line, *entry))
    }

    fn told(&self, plan: &Plan) -> impl Iterator<Item = String> {
        self.shown().map(|(_, entry)| {
            let (what, _) = told::happened(&entry.event, plan);
            format!("{}  {what}", entry.at.wall.format("%H:%M"))
        })
    }

    /// Which of the answers to the step counts, where that is not plain.
    fn counts(&self, plan: &Plan) -> Option<String> {
        counts::counts(self.lines.iter().map(|(_, entry)| &entry.event), plan)
    }

    fn exception(&self, plan: &Plan) -> Option<Exception> {
        let of = self.step.map(|step| format!(", {step}"));
        Some(Exception {
            named: named(self.shown().map(|(line, _)| line), &of.unwrap_or_default())?,
            told: self.told(plan).chain(self.counts(plan)).collect(),
        })
    }
}

/// What was looked at again, or by a second person, and was ok: one thing, each step by its last
/// line.
fn ok_again(groups: &[(Gravity, Group<'_>)], plan: &Plan) -> Option<Exception> {
    if let [(_, only)] = groups {
        return only.exception(plan);
    }
    let lines = groups.iter().flat_map(|(_, group)| group.shown());
    let mut lines: Vec<usize> = lines.map(|(line, _)| line).collect();
    lines.sort_unstable();
    let last = groups
        .iter()
        .filter_map(|(_, group)| group.told(plan).last());
    Some(Exception {
        named: named(lines.into_iter(), ", ok again")?,
        told: last.collect(),
    })
}

/// What an exception is called where it is said to have been looked at.
fn named(lines: impl Iterator<Item = usize>, of: &str) -> Option<Words> {
    let lines: Vec<usize> = lines.collect();
    let numbers = match lines.as_slice() {
        [only] => format!("line {only}"),
        [first, .., last] => format!("lines {first} to {last}"),
        [] => return None,
    };
    Words::read(&(numbers + of)).ok()
}

fn gravity(entry: &Entry) -> Option<Gravity> {
    match &entry.event {
        Event::Opened { .. } | Event::SectionClosed { .. } => None,
        Event::Answered { round, given, .. } => {
            let second = matches!(given, Given::Seen { by: Some(_), .. });
            match given.outcome() {
                Outcome::Judged(Verdict::Stop) => Some(Gravity::Stops),
                Outcome::Judged(Verdict::Fix) => Some(Gravity::ToFix),
                Outcome::Again => Some(Gravity::Again),
                Outcome::Judged(Verdict::Note) => Some(Gravity::Noted),
                Outcome::Judged(Verdict::Ok) => {
                    (*round != Round::First || second).then_some(Gravity::OkAgain)
                }
            }
        }
        Event::PutRight { .. } => Some(Gravity::ToFix),
        Event::Deferred { .. } => Some(Gravity::PutOff),
        Event::Corrected { .. } => Some(Gravity::Corrected),
        Event::Doubted { .. }
        | Event::Remarked { .. }
        | Event::Noted { .. }
        | Event::Unsure { .. }
        | Event::Settled { .. } => Some(Gravity::Noted),
        Event::Held { .. } | Event::Resumed { .. } | Event::HandedOver { .. } => {
            Some(Gravity::Left)
        }
        Event::Ended { outcome, .. } => match outcome {
            Ended::Complete => None,
            Ended::NotFitToGo => Some(Gravity::Stops),
            Ended::Incomplete | Ended::Abandoned => Some(Gravity::Noted),
        },
    }
}

const fn is_end_of_absence(event: &Event) -> bool {
    matches!(event, Event::Resumed { .. } | Event::Settled { .. })
}

fn step_of(event: &Event) -> Option<&StepKey> {
    match event {
        Event::Opened { step }
        | Event::Doubted { step, .. }
        | Event::Answered { step, .. }
        | Event::Remarked { step, .. }
        | Event::PutRight { step, .. }
        | Event::Deferred { step, .. }
        | Event::Corrected { step, .. } => Some(step),
        _ => None,
    }
}
