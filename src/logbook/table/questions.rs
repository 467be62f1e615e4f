//! One row a question or a mark of a clock.

use crate::logbook::table::{Cell, Column, Kind, if_any, normal, table, text, whole};
use crate::logbook::{ClockMark, Question, Spot};
use crate::record::{Finding, Id};
use std::collections::HashMap;

/// What there is to ask of a whole logbook, with what verification finds of each trip.
#[derive(Clone, Debug, Default)]
pub struct Asked {
    /// The questions, in the order of the ways.
    pub questions: Vec<Question>,
    /// The marks of clocks, by laptop, trip and line.
    pub marks: Vec<ClockMark>,
    /// What verification finds of each trip.
    pub findings: HashMap<Id, Finding>,
}

/// One of both.
enum Row<'a> {
    Question(&'a Asked, &'a Question, &'a Spot, &'a Spot),
    Mark(&'a Asked, &'a ClockMark),
}

table! {
    row: &Row<'_>;
    "finding", Text, "", "what verification finds of the trip" => finding(row, row.trip());
    "device", Text, "", "the laptop that kept it" => text(row.device());
    "number", Whole, "", "its number on that laptop" => Cell::Whole(row.number());
    "trip", Text, "", "the id of the trip" => text(row.trip());
    "line", Whole, "", "the line of the journal, of a mark of a clock" => row.mark(|mark| whole(mark.line));
    "about", Text, "", "what it is about, in a word" => text(row.about());
    "doubtful", Flag, "", "whether it is a question, and no mere account of how a walk went" =>
        Cell::Flag(row.is_doubtful());
    "at", Time, "", "when, by the laptop's clock or by the paper" => Cell::Time(row.at());
    "truck", Text, "", "what the rig file calls the truck" => row.question(|question, _| text(question.truck()));
    "who", Text, "", "who signed" => row.later(|spot| text(&spot.who));
    "read", Text, "", "the odometer as typed" => row.later(|spot| text(&spot.read));
    "read_m", Decimal, "m", "the same in metres" => row.later(|spot| normal(&spot.means));
    "earlier_finding", Text, "", "what verification finds of the trip that was before it" =>
        row.question(|_, earlier| finding(row, &earlier.trip));
    "earlier_device", Text, "", "the laptop that kept that one" => row.question(|_, earlier| text(&earlier.device));
    "earlier_number", Whole, "", "its number there" => row.question(|_, earlier| Cell::Whole(earlier.seq));
    "earlier_trip", Text, "", "its id" => row.question(|_, earlier| text(&earlier.trip));
    "earlier_at", Time, "", "when that was" => row.question(|_, earlier| Cell::Time(earlier.at));
    "earlier_who", Text, "", "who signed it" => row.question(|_, earlier| text(&earlier.who));
    "earlier_read", Text, "", "the odometer as typed there" => row.question(|_, earlier| text(&earlier.read));
    "earlier_read_m", Decimal, "m", "the same in metres" => row.question(|_, earlier| normal(&earlier.means));
    "question", Text, "", "the question, or what the clock shows, in words" => text(&row.told());
}

impl Asked {
    /// Every row: the questions, then the marks.
    pub fn rows(&self) -> Vec<Vec<Cell>> {
        let questions = self.questions.iter().map(|question| {
            let (earlier, later) = question.spots();
            Row::Question(self, question, earlier, later)
        });
        let marks = self.marks.iter().map(|mark| Row::Mark(self, mark));
        questions.chain(marks).map(|row| cells(&row)).collect()
    }
}

fn finding(row: &Row<'_>, trip: &Id) -> Cell {
    let asked = match row {
        Row::Question(asked, ..) | Row::Mark(asked, _) => asked,
    };
    if_any(asked.findings.get(trip), text)
}

impl Row<'_> {
    fn trip(&self) -> &Id {
        match self {
            Self::Question(_, _, _, later) => &later.trip,
            Self::Mark(_, mark) => &mark.trip,
        }
    }

    fn device(&self) -> &Id {
        match self {
            Self::Question(_, _, _, later) => &later.device,
            Self::Mark(_, mark) => &mark.device,
        }
    }

    fn number(&self) -> u64 {
        match self {
            Self::Question(_, _, _, later) => later.seq,
            Self::Mark(_, mark) => mark.seq,
        }
    }

    fn at(&self) -> chrono::DateTime<chrono::FixedOffset> {
        match self {
            Self::Question(_, _, _, later) => later.at,
            Self::Mark(_, mark) => mark.at,
        }
    }

    fn about(&self) -> &'static str {
        match self {
            Self::Question(_, question, ..) => question.word(),
            Self::Mark(_, mark) => mark.word(),
        }
    }

    fn is_doubtful(&self) -> bool {
        match self {
            Self::Question(..) => true,
            Self::Mark(_, mark) => mark.is_doubtful(),
        }
    }

    fn told(&self) -> String {
        match self {
            Self::Question(_, question, ..) => question.to_string(),
            Self::Mark(_, mark) => mark.to_string(),
        }
    }

    fn question(&self, cell: impl FnOnce(&Question, &Spot) -> Cell) -> Cell {
        match self {
            Self::Question(_, question, earlier, _) => cell(question, earlier),
            Self::Mark(..) => Cell::Nothing,
        }
    }

    fn later(&self, cell: impl FnOnce(&Spot) -> Cell) -> Cell {
        match self {
            Self::Question(_, _, _, later) => cell(later),
            Self::Mark(..) => Cell::Nothing,
        }
    }

    fn mark(&self, cell: impl FnOnce(&ClockMark) -> Cell) -> Cell {
        match self {
            Self::Question(..) => Cell::Nothing,
            Self::Mark(_, mark) => cell(mark),
        }
    }
}
