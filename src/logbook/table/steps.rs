//! One row a step of a walk, as it stood at its end.

use crate::checklist::PlannedStep;
use crate::logbook::table::{Cell, Column, Kind, Seen, if_any, part, table, text, whole};
use crate::record::Begun;
use crate::walk::{Given, Status, StepState, Walk};

/// A step of a trip that can be walked again.
struct Row<'a> {
    seen: &'a Seen<'a>,
    begun: &'a Begun,
    walk: &'a Walk,
    index: usize,
    planned: &'a PlannedStep,
    state: &'a StepState,
}

table! {
    row: &Row<'_>;
    "finding", Text, "", "what verification finds of the trip" => text(&row.seen.finding);
    "device", Text, "", "the laptop its folder lies under" => text(row.seen.device);
    "number", Whole, "", "its number on that laptop" => Cell::Whole(row.seen.number);
    "trip", Text, "", "the id of the trip" => text(&row.begun.trip);
    "rig", Text, "", "the id of the rig" => text(&row.begun.rig.id);
    "checklist", Text, "", "the id of the checklist" => text(&row.begun.checklist.id);
    "section", Text, "", "the id of the section" => section(row);
    "step", Text, "", "the id of the step" => text(row.planned.key.step());
    "part", Text, "", "the part of the rig it is about, where it is repeated" =>
        part(row.planned.key.as_str());
    "name", Text, "", "its name on screens" => text(&row.planned.name());
    "critical", Flag, "", "whether a bare look is not enough" => Cell::Flag(row.planned.step.critical);
    "status", Text, "", "where it stands: done, left-out, waiting, open, doubted, bad, note-owed or deferred" =>
        text(status(row));
    "verdict", Text, "", "what its last answer came to: ok, note, fix, stop or measure-again" =>
        if_any(row.state.answers.last(), |answer| text(answer.given.outcome().word()));
    "answers", Whole, "", "how often it was answered" => whole(row.state.answers.len());
    "found", Text, "", "the last reading as typed, or the id of what was seen last" =>
        if_any(row.state.answers.last(), |answer| text(found(&answer.given)));
    "doer", Text, "", "who did the work for the last answer" =>
        if_any(row.state.answers.last(), |answer| text(&answer.doer));
    "seen_by", Text, "", "the second person who looked, where one did" => seen_by(row);
    "at", Time, "", "when it was last answered; of a walk on paper, when that was walked" =>
        if_any(row.state.answers.last(), |answer| {
            Cell::Time(row.walk.paper().copied().unwrap_or(answer.at.wall))
        });
    "remark", Text, "", "what was said to explain a note" =>
        if_any(row.state.remark.as_ref(), text);
}

pub(super) fn rows(seen: &Seen<'_>) -> Vec<Vec<Cell>> {
    let Some((trip, walk)) = seen.trip.zip(seen.walk) else {
        return Vec::new();
    };
    let steps = walk.plan().steps().iter().zip(walk.steps());
    let row = |(index, (planned, state))| {
        cells(&Row {
            seen,
            begun: trip.begun(),
            walk,
            index,
            planned,
            state,
        })
    };
    (0..).zip(steps).map(row).collect()
}

fn section(row: &Row<'_>) -> Cell {
    let section = row.walk.plan().sections().get(row.planned.section);
    if_any(section, |section| text(&section.id))
}

fn status(row: &Row<'_>) -> &'static str {
    if row.walk.left_out(row.index).is_some() {
        return "left-out";
    }
    match &row.state.status {
        Status::Waiting(_) => "waiting",
        Status::Open(_) => "open",
        Status::Doubted(..) => "doubted",
        Status::Bad { .. } => "bad",
        Status::NoteOwed => "note-owed",
        Status::Done(_) => "done",
        Status::Deferred { .. } => "deferred",
    }
}

fn found(given: &Given) -> &str {
    match given {
        Given::Read { typed, .. } => typed.text(),
        Given::Seen { state, .. } => state,
    }
}

fn seen_by(row: &Row<'_>) -> Cell {
    match row.state.answers.last().map(|answer| &answer.given) {
        Some(Given::Seen { by: Some(by), .. }) => text(by),
        _ => Cell::Nothing,
    }
}
