//! One row a reading, those that were replaced among them.

use crate::logbook::readings::{Reading, readings};
use crate::logbook::table::{
    Cell, Column, Kind, Seen, decimal, if_any, normal, normal_unit, part, table, text, unit, whole,
};
use crate::record::Begun;
use crate::rules::Limit;
use crate::units::Quantity;
use crate::walk::{Round, Walk};

/// A reading of a trip that can be walked again.
struct Row<'a> {
    seen: &'a Seen<'a>,
    begun: &'a Begun,
    walk: &'a Walk,
    read: Reading<'a>,
}

table! {
    row: &Row<'_>;
    "finding", Text, "", "what verification finds of the trip" => text(&row.seen.finding);
    "device", Text, "", "the laptop its folder lies under" => text(row.seen.device);
    "number", Whole, "", "its number on that laptop" => Cell::Whole(row.seen.number);
    "trip", Text, "", "the id of the trip" => text(&row.begun.trip);
    "line", Whole, "", "the line of the journal, from 1" => whole(row.read.line);
    "rig", Text, "", "the id of the rig" => text(&row.begun.rig.id);
    "checklist", Text, "", "the id of the checklist" => text(&row.begun.checklist.id);
    "step", Text, "", "the id of the step" => text(row.read.key.step());
    "part", Text, "", "the part of the rig it is about, where it is repeated" =>
        part(row.read.key.as_str());
    "name", Text, "", "its name on screens" => text(&row.read.planned.name());
    "at", Time, "", "when it was read; of a walk on paper, when that was walked" =>
        Cell::Time(row.walk.paper().copied().unwrap_or(row.read.at.wall));
    "doer", Text, "", "who did the work" => text(row.read.doer);
    "typed_by", Text, "", "who was at the keys" => text(row.read.actor);
    "round", Text, "", "why it was asked: first, measured-again, put-right, re-look or correction" =>
        text(round(row.read.round));
    "replaced", Flag, "", "whether a later answer of the walk took its place" =>
        Cell::Flag(row.read.replaced);
    "typed", Text, "", "the reading as typed" => text(row.read.typed.text());
    "value", Decimal, "", "its number" => decimal(row.read.typed.quantity());
    "unit", Text, "", "its unit" => unit(row.read.typed.quantity());
    "low", Decimal, "", "the least it may stand for, in its unit" =>
        same_unit(row, &row.read.judgement.band.low);
    "high", Decimal, "", "the most it may stand for, in its unit" =>
        same_unit(row, &row.read.judgement.band.high);
    "value_si", Decimal, "", "the number in the metric unit of its kind" =>
        normal(row.read.typed.quantity());
    "low_si", Decimal, "", "the least, in that unit" => normal(&row.read.judgement.band.low);
    "high_si", Decimal, "", "the most, in that unit" => normal(&row.read.judgement.band.high);
    "unit_si", Text, "", "that unit" => normal_unit(row.read.typed.quantity());
    "instrument", Text, "", "the id of the instrument" => text(row.read.instrument);
    "outcome", Text, "", "ok, note, fix, stop or measure-again" =>
        text(row.read.judgement.outcome.word());
    "limit_verdict", Text, "", "what lies beyond the limit that decided, else beyond the nearest one" =>
        limit(row, |limit| text(limit.verdict.word()));
    "limit_side", Text, "", "on which side of it: below, at-or-below, above or at-or-above" =>
        limit(row, |limit| text(limit.side.word()));
    "limit", Decimal, "", "that limit" => limit(row, |limit| decimal(&limit.bound));
    "limit_unit", Text, "", "its unit" => limit(row, |limit| unit(&limit.bound));
    "limit_si", Decimal, "", "that limit in the metric unit" => limit(row, |limit| normal(&limit.bound));
    "authority", Text, "", "whose word it is: plate, law, barn or default" =>
        limit(row, |limit| text(limit.basis.authority.word()));
    "source", Text, "", "where that word stands" => limit(row, |limit| text(&limit.basis.source));
}

pub(super) fn rows(seen: &Seen<'_>) -> Vec<Vec<Cell>> {
    let Some((trip, walk)) = seen.trip.zip(seen.walk) else {
        return Vec::new();
    };
    let row = |read| {
        cells(&Row {
            seen,
            begun: trip.begun(),
            walk,
            read,
        })
    };
    readings(walk, trip).map(row).collect()
}

fn same_unit(row: &Row<'_>, end: &Quantity) -> Cell {
    let unit = row.read.typed.quantity().unit;
    if_any(end.in_unit(unit), |end| decimal(&end))
}

fn limit(row: &Row<'_>, cell: impl FnOnce(&Limit) -> Cell) -> Cell {
    let judgement = row.read.judgement;
    if_any(judgement.deciding().or_else(|| judgement.nearest()), cell)
}

fn round(round: Round) -> &'static str {
    let known = Round::WORDS.iter().find(|(_, one)| *one == round);
    known.map_or("", |(word, _)| word)
}
