//! What in a record is not as expected, put together by step, for whoever signs that it was looked
//! at.

use crate::checklist::{Plan, StepKey};
use crate::desk::{Weight, told};
use crate::record::Verified;
use crate::walk::{Entry, Event, Given, Round, Words};

/// One thing to look at.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Exception {
    /// What it is called where it is said to have been looked at: by the lines of the journal and
    /// the step, and nothing of what was read there or by whom, which may be pruned one day.
    pub named: Words,
    /// What happened, in words, each with its time.
    pub told: Vec<String>,
}

/// Everything out of limits, put off, corrected, noted, held, handed over, looked at again or by
/// a second person: what happened to a step is one thing, and anything else is one for itself.
pub fn exceptions(trip: &Verified, plan: &Plan) -> Vec<Exception> {
    exceptions_among(trip.entries(), plan)
}

/// The same among the entries of a walk, in order and none left out.
pub fn exceptions_among(entries: &[Entry], plan: &Plan) -> Vec<Exception> {
    let mut groups: Vec<Group<'_>> = Vec::new();
    for (line, entry) in (2..).zip(entries) {
        let step = step_of(&entry.event);
        let known = groups
            .iter()
            .position(|group| group.step.is_some() && group.step == step);
        match known.and_then(|at| groups.get_mut(at)) {
            Some(group) => group.lines.push((line, entry)),
            None => groups.push(Group {
                step,
                lines: vec![(line, entry)],
            }),
        }
    }
    let exceptional = groups
        .iter()
        .filter(|group| group.lines.iter().any(|(_, entry)| is_one(entry, plan)));
    exceptional
        .filter_map(|group| group.exception(plan))
        .collect()
}

/// The lines of a step, or the one line of what belongs to none.
struct Group<'a> {
    step: Option<&'a StepKey>,
    lines: Vec<(usize, &'a Entry)>,
}

impl Group<'_> {
    fn exception(&self, plan: &Plan) -> Option<Exception> {
        let told = |(_, entry): &(usize, &Entry)| {
            let (what, _) = told::happened(&entry.event, plan);
            format!("{}  {what}", entry.at.wall.format("%H:%M"))
        };
        let opened = |entry: &Entry| matches!(entry.event, Event::Opened { .. });
        let shown = self.lines.iter().filter(|(_, entry)| !opened(entry));
        let numbers: Vec<String> = shown.clone().map(|(line, _)| line.to_string()).collect();
        let numbers = match numbers.as_slice() {
            [only] => format!("line {only}"),
            [first, .., last] => format!("lines {first} to {last}"),
            [] => return None,
        };
        let of = self.step.map(|step| format!(", {step}"));
        Some(Exception {
            named: Words::read(&(numbers + &of.unwrap_or_default())).ok()?,
            told: shown.map(told).collect(),
        })
    }
}

fn is_one(entry: &Entry, plan: &Plan) -> bool {
    let again = match &entry.event {
        Event::Answered { round, given, .. } => {
            let second = matches!(given, Given::Seen { by: Some(_), .. });
            *round != Round::First || second
        }
        _ => false,
    };
    again || told::happened(&entry.event, plan).1 == Weight::Exception
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
