//! One row an instrument on a walk it was used on.

use crate::logbook::readings::readings;
use crate::logbook::table::{
    Cell, Column, Kind, Seen, decimal, if_any, normal, normal_unit, table, text, unit, whole,
};
use crate::record::Begun;
use crate::rig::Instrument;
use crate::units::Quantity;
use std::collections::BTreeMap;

/// An instrument, and how many readings of a trip relied on it.
struct Row<'a> {
    seen: &'a Seen<'a>,
    begun: &'a Begun,
    instrument: &'a Instrument,
    readings: usize,
}

table! {
    row: &Row<'_>;
    "finding", Text, "", "what verification finds of the trip" => text(&row.seen.finding);
    "device", Text, "", "the laptop its folder lies under" => text(row.seen.device);
    "number", Whole, "", "its number on that laptop" => Cell::Whole(row.seen.number);
    "trip", Text, "", "the id of the trip" => text(&row.begun.trip);
    "rig", Text, "", "the id of the rig it is kept with" => text(&row.begun.rig.id);
    "instrument", Text, "", "its id" => text(&row.instrument.id);
    "name", Text, "", "what people call it" => text(&row.instrument.name);
    "kind", Text, "", "what it is" => text(row.instrument.kind.word());
    "readings", Whole, "", "how many readings of the trip were taken with it" => whole(row.readings);
    "span_low", Decimal, "", "the lowest value on its scale" => span(row, |(low, _)| decimal(low));
    "span_high", Decimal, "", "the highest" => span(row, |(_, high)| decimal(high));
    "span_unit", Text, "", "their unit" => span(row, |(low, _)| unit(low));
    "span_low_si", Decimal, "", "the lowest in the metric unit of its kind" =>
        span(row, |(low, _)| normal(low));
    "span_high_si", Decimal, "", "the highest in that unit" => span(row, |(_, high)| normal(high));
    "span_unit_si", Text, "", "that unit" => span(row, |(low, _)| normal_unit(low));
    "mark", Decimal, "", "its smallest mark or digit" => decimal(&row.instrument.step);
    "mark_unit", Text, "", "the unit of that" => unit(&row.instrument.step);
    "error", Text, "", "how wrong it may be, by its rig file: grade, share of the reading or amount" =>
        text(&row.instrument.error.to_string());
    "calibrated", Date, "", "when it was last calibrated" =>
        if_any(row.instrument.calibrated, Cell::Date);
}

pub(super) fn rows(seen: &Seen<'_>) -> Vec<Vec<Cell>> {
    let Some((trip, walk)) = seen.trip.zip(seen.walk) else {
        return Vec::new();
    };
    let mut used: BTreeMap<&str, usize> = BTreeMap::new();
    for read in readings(walk, trip) {
        *used.entry(read.instrument).or_insert(0) += 1;
    }
    let row = |(id, readings)| {
        let instrument = walk.plan().rig().instrument(id)?;
        Some(cells(&Row {
            seen,
            begun: trip.begun(),
            instrument,
            readings,
        }))
    };
    used.into_iter().filter_map(row).collect()
}

fn span(row: &Row<'_>, cell: impl FnOnce(&(Quantity, Quantity)) -> Cell) -> Cell {
    if_any(row.instrument.span.as_ref(), cell)
}
