//! Trips as rows of a report: each with how it weighs in words, and whether a manager has looked.

use crate::record::counted;
use crate::report::page::{Row, Table};
use crate::review::{Glance, Weight};
use serde::Serialize;

/// A trip.
#[derive(Clone, Debug, Serialize)]
pub(super) struct TripTold {
    trip: String,
    /// As commands name it: `barn-laptop/7`.
    named: String,
    pub(super) at: String,
    rig: String,
    checklist: String,
    who: String,
    with: Vec<String>,
    ended: &'static str,
    weight: &'static str,
    counts: String,
    pub(super) finding: &'static str,
    pub(super) stands: String,
    #[serde(skip)]
    title: String,
    #[serde(skip)]
    shown_at: String,
    #[serde(skip)]
    pub(super) weighs: Weight,
    #[serde(skip)]
    pub(super) is_open: bool,
    #[serde(skip)]
    pub(super) is_signed: bool,
}

impl TripTold {
    pub(super) fn of(glance: &Glance) -> Self {
        Self {
            trip: glance.trip.to_string(),
            named: glance.named(),
            at: glance.at.to_rfc3339(),
            rig: glance.rig.clone(),
            checklist: glance.checklist.clone(),
            who: glance.who.clone(),
            with: glance.others.clone(),
            ended: glance.ended_as(),
            weight: glance.weight().key(),
            counts: glance.counts.to_string(),
            finding: glance.finding.word(),
            stands: glance.stands(),
            title: glance.title.clone(),
            shown_at: glance.at.format("%-d %b %Y %H:%M").to_string(),
            weighs: glance.weight(),
            is_open: glance.is_open(),
            is_signed: glance.signed,
        }
    }

    fn row(&self, rigs: Rigs) -> Row {
        let people = std::iter::once(&self.who).chain(&self.with);
        let people: Vec<&str> = people.map(String::as_str).collect();
        Row {
            strong: self.weighs >= Weight::Stopped,
            cells: of(
                rigs,
                vec![
                    self.shown_at.clone(),
                    self.rig.clone(),
                    self.title.clone(),
                    format!("{}, {}", self.weight, self.ended),
                    self.counts.clone(),
                    people.join(", "),
                    self.stands.clone(),
                    self.named.clone(),
                ],
            ),
        }
    }
}

/// Of how many rigs the trips of a table are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Rigs {
    /// Of one, which is no column then.
    One,
    /// Of any.
    Several,
}

/// The most rows of a table, and of how many rigs they are.
#[derive(Clone, Copy, Debug)]
pub(super) struct Most(pub(super) usize, pub(super) Rigs);

/// The heads of a table, the rig's second.
const HEADS: [&str; 8] = [
    "Walked",
    "Rig",
    "List",
    "Worst, ended",
    "Counts",
    "Who",
    "Stands",
    "Trip",
];

/// The columns without the rig's, where all are of one.
fn of<T>(rigs: Rigs, mut columns: Vec<T>) -> Vec<T> {
    if rigs == Rigs::One {
        columns.remove(1);
    }
    columns
}

/// A table of these trips, which come in order of time: at most so many, the newest first, and how
/// many are left out.
pub(super) fn table<'t>(
    caption: &str,
    trips: impl IntoIterator<Item = &'t TripTold>,
    Most(most, rigs): Most,
) -> Option<Table> {
    let all: Vec<&TripTold> = trips.into_iter().collect();
    if all.is_empty() {
        return None;
    }
    let more = match all.len().saturating_sub(most) {
        0 => String::new(),
        some => format!(" The newest {most}; {some} more are in the JSON of this report."),
    };
    Some(Table {
        caption: format!("{caption}{more}"),
        heads: of(rigs, HEADS.to_vec()),
        rows: all
            .into_iter()
            .rev()
            .take(most)
            .map(|trip| trip.row(rigs))
            .collect(),
    })
}

/// How many trips weigh how much, as a sentence.
pub(super) fn weights(trips: &[TripTold]) -> String {
    let [clear, noted, fixed, stopped, doubtful] = by_weight(trips);
    format!(
        "{}: {clear} with nothing beyond a limit, {noted} noted or unfinished, {fixed} with \
         something put right, {stopped} with something that stops a rig, {doubtful} whose record is \
         in question.",
        counted(trips.len(), "trip")
    )
}

/// How many trips weigh how much, the lightest first.
pub(super) fn by_weight<'t>(trips: impl IntoIterator<Item = &'t TripTold>) -> [usize; 5] {
    let mut counts = [0; 5];
    for trip in trips {
        for (count, weight) in counts.iter_mut().zip(Weight::ALL) {
            *count += usize::from(weight == trip.weighs);
        }
    }
    counts
}

#[cfg(test)]
mod tests {
    use super::*;

    fn walked(seq: usize) -> TripTold {
        TripTold {
            trip: String::new(),
            named: format!("barn-laptop/{seq}"),
            at: String::new(),
            rig: "juniper".to_owned(),
            checklist: String::new(),
            who: "Tobias Fenn".to_owned(),
            with: Vec::new(),
            ended: "complete",
            weight: "clear",
            counts: String::new(),
            finding: "intact",
            stands: String::new(),
            title: String::new(),
            shown_at: String::new(),
            weighs: Weight::Clear,
            is_open: true,
            is_signed: true,
        }
    }

    #[test]
    fn of_trips_that_do_not_all_fit_the_newest_are_shown_and_the_newest_comes_first() {
        let trips: Vec<TripTold> = (1..=14).map(walked).collect();
        let shown = table("Open.", &trips, Most(12, Rigs::One)).unwrap();
        let named: Vec<&str> = shown
            .rows
            .iter()
            .filter_map(|row| row.cells.last().map(String::as_str))
            .collect();
        let newest: Vec<&str> = trips
            .iter()
            .rev()
            .take(12)
            .map(|trip| trip.named.as_str())
            .collect();
        assert_eq!(named, newest);
        assert!(
            shown
                .caption
                .ends_with(" The newest 12; 2 more are in the JSON of this report.")
        );
    }
}
