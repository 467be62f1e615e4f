//! One row a trip.

use crate::logbook::table::{
    Cell, Column, Kind, Seen, decimal, if_any, normal, table, text, unit, whole,
};
use crate::record::{Begun, Counts, Seal, Verified};
use crate::units::Quantity;

table! {
    seen: &Seen<'_>;
    "finding", Text, "", "what verification finds of the trip" => text(&seen.finding);
    "faults", Whole, "", "how many things verification tells of it" => whole(seen.faults);
    "clock_marks", Whole, "", "how many marks of the clock are in it; each has its row among the questions" =>
        whole(seen.clock_marks);
    "device", Text, "", "the laptop its folder lies under" => text(seen.device);
    "number", Whole, "", "its number on that laptop" => Cell::Whole(seen.number);
    "trip", Text, "", "the id of the trip" => begun(seen, |begun| text(&begun.trip));
    "mode", Text, "", "real, demo or drill" => begun(seen, |begun| text(&begun.mode));
    "rig", Text, "", "the id of the rig" => begun(seen, |begun| text(&begun.rig.id));
    "truck", Text, "", "what the rig file calls the truck" =>
        if_any(seen.walk, |walk| text(&walk.plan().rig().truck.name));
    "checklist", Text, "", "the id of the checklist" => begun(seen, |begun| text(&begun.checklist.id));
    "program", Text, "", "the program that kept the record" => begun(seen, |begun| text(&begun.program));
    "begun", Time, "", "when the record was begun, by the laptop's clock" =>
        if_any(seen.trip, |trip| Cell::Time(trip.at().wall));
    "sealed", Time, "", "when it was signed, by the laptop's clock" =>
        seal(seen, |seal| Cell::Time(seal.wall.moment()));
    "walked_on_paper", Time, "", "when it was walked, where it was entered from paper" =>
        begun(seen, |begun| if_any(begun.paper, |paper| Cell::Time(paper.moment())));
    "haul", Text, "", "the id of the trip that began its haul" =>
        begun(seen, |begun| if_any(begun.haul.as_ref(), text));
    "part", Text, "", "begins, during, ends or apart: how the walk belongs to a haul" =>
        if_any(seen.walk, |walk| text(walk.plan().checklist().haul.word()));
    "outcome", Text, "", "how the walk ended" => seal(seen, |seal| text(seal.outcome.word()));
    "reader", Text, "", "who read and typed at the beginning" => begun(seen, |begun| text(&begun.reader));
    "doer", Text, "", "who did the work at the beginning" => begun(seen, |begun| text(&begun.doer));
    "signed_by", Text, "", "the name of who signed" => seal(seen, |seal| text(&seal.name));
    "signer", Text, "", "the id of who signed" => seal(seen, |seal| text(&seal.person));
    "role", Text, "", "the role signed in" => seal(seen, |seal| text(&seal.role));
    "receipt", Text, "", "the short code of the seal" =>
        if_any(seen.trip.and_then(Verified::sealed), |sealed| text(&sealed.receipt()));
    "seal", Text, "", "the hash of the seal" =>
        if_any(seen.trip.and_then(Verified::sealed), |sealed| text(&sealed.hash));
    "crew", Text, "", "the hash of the crew file in force" => begun(seen, |begun| text(&begun.crew));
    "lines", Whole, "", "how many lines the journal has" =>
        if_any(seen.trip, |trip| whole(trip.lines().len()));
    "ok", Whole, "", "answers inside every limit" => count(seen, |counts| counts.ok);
    "note", Whole, "", "answers with something to know" => count(seen, |counts| counts.note);
    "fix", Whole, "", "answers to be put right" => count(seen, |counts| counts.fix);
    "stop", Whole, "", "answers that keep the rig off the road" => count(seen, |counts| counts.stop);
    "odometer", Decimal, "", "the odometer typed at the beginning" => odometer(seen, decimal);
    "odometer_unit", Text, "", "its unit" => odometer(seen, unit);
    "odometer_m", Decimal, "m", "the same in metres" => odometer(seen, normal);
}

pub(super) fn rows(seen: &Seen<'_>) -> Vec<Vec<Cell>> {
    vec![cells(seen)]
}

fn begun(seen: &Seen<'_>, cell: impl FnOnce(&Begun) -> Cell) -> Cell {
    if_any(seen.trip, |trip| cell(trip.begun()))
}

fn seal(seen: &Seen<'_>, cell: impl FnOnce(&Seal) -> Cell) -> Cell {
    let sealed = seen.trip.and_then(Verified::sealed);
    if_any(sealed, |sealed| cell(&sealed.seal))
}

/// Of a trip nobody signed it is counted as far as it came.
fn count(seen: &Seen<'_>, which: impl FnOnce(&Counts) -> u64) -> Cell {
    if_any(seen.trip, |trip| {
        Cell::Whole(which(&Counts::of(trip.entries())))
    })
}

fn odometer(seen: &Seen<'_>, cell: impl FnOnce(&Quantity) -> Cell) -> Cell {
    begun(seen, |begun| {
        if_any(begun.odometer.as_ref(), |read| cell(read.quantity()))
    })
}
