//! One row a question or a mark of a clock.

use crate::logbook::table::{Cell, Column, Kind, if_any, normal, table, text, whole};
use crate::logbook::{ClockMark, Question, Spot, unanswered};
use crate::record::{Finding, Id, Statements};
use chrono::{DateTime, FixedOffset};
use std::collections::HashMap;

/// What there is to ask of a whole logbook, with what verification finds of each trip.
#[derive(Clone, Debug, Default)]
pub struct Asked {
    /// The questions, in the order of the ways.
    pub questions: Vec<Question>,
    /// The marks of clocks, by laptop, trip and line.
    pub marks: Vec<ClockMark>,
    /// What managers asked when they looked at a trip, and what still stands.
    pub open: Vec<OpenQuestion>,
    /// What verification finds of each trip.
    pub findings: HashMap<Id, Finding>,
}

/// What a manager asked about a trip, and nobody has answered yet.
#[derive(Clone, Debug)]
pub struct OpenQuestion {
    /// The laptop.
    pub device: Id,
    /// The trip's number there.
    pub seq: u64,
    /// The trip.
    pub trip: Id,
    /// When it was asked, by the manager's clock.
    pub at: DateTime<FixedOffset>,
    /// Who asked.
    pub by: String,
    /// In which statement.
    pub statement: u64,
    /// The words.
    pub question: String,
}

impl OpenQuestion {
    /// Every one that still stands.
    pub fn all(statements: &Statements) -> Vec<Self> {
        let open = unanswered(statements).into_iter();
        open.map(|one| Self {
            device: one.says.device.clone(),
            seq: one.says.seq,
            trip: one.says.trip.clone(),
            at: one.by.clock.moment(),
            by: one.by.name.to_string(),
            statement: one.by.number,
            question: one.question().unwrap_or_default().to_owned(),
        })
        .collect()
    }
}

/// One of all.
enum Row<'a> {
    Question(&'a Asked, &'a Question, &'a Spot, &'a Spot),
    Open(&'a Asked, &'a OpenQuestion),
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
    "at", Time, "", "when, by the laptop's clock or by the paper; of a manager's question when it was asked" => Cell::Time(row.at());
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
    "asked_by", Text, "", "the manager who asked, of a question that one asked about the trip" =>
        row.open(|open| text(&open.by));
    "statement", Whole, "", "the number of the statement of that manager" =>
        row.open(|open| Cell::Whole(open.statement));
}

impl Asked {
    /// Every row: the questions about odometers, those of managers, then the marks.
    pub fn rows(&self) -> Vec<Vec<Cell>> {
        let questions = self.questions.iter().map(|question| {
            let (earlier, later) = question.spots();
            Row::Question(self, question, earlier, later)
        });
        let open = self.open.iter().map(|open| Row::Open(self, open));
        let marks = self.marks.iter().map(|mark| Row::Mark(self, mark));
        questions
            .chain(open)
            .chain(marks)
            .map(|row| cells(&row))
            .collect()
    }
}

fn finding(row: &Row<'_>, trip: &Id) -> Cell {
    let asked = match row {
        Row::Question(asked, ..) | Row::Open(asked, _) | Row::Mark(asked, _) => asked,
    };
    if_any(asked.findings.get(trip), text)
}

impl Row<'_> {
    fn trip(&self) -> &Id {
        match self {
            Self::Question(_, _, _, later) => &later.trip,
            Self::Open(_, open) => &open.trip,
            Self::Mark(_, mark) => &mark.trip,
        }
    }

    fn device(&self) -> &Id {
        match self {
            Self::Question(_, _, _, later) => &later.device,
            Self::Open(_, open) => &open.device,
            Self::Mark(_, mark) => &mark.device,
        }
    }

    fn number(&self) -> u64 {
        match self {
            Self::Question(_, _, _, later) => later.seq,
            Self::Open(_, open) => open.seq,
            Self::Mark(_, mark) => mark.seq,
        }
    }

    fn at(&self) -> DateTime<FixedOffset> {
        match self {
            Self::Question(_, _, _, later) => later.at,
            Self::Open(_, open) => open.at,
            Self::Mark(_, mark) => mark.at,
        }
    }

    fn about(&self) -> &'static str {
        match self {
            Self::Question(_, question, ..) => question.word(),
            Self::Open(..) => "asked",
            Self::Mark(_, mark) => mark.word(),
        }
    }

    fn is_doubtful(&self) -> bool {
        match self {
            Self::Question(..) | Self::Open(..) => true,
            Self::Mark(_, mark) => mark.is_doubtful(),
        }
    }

    fn told(&self) -> String {
        match self {
            Self::Question(_, question, ..) => question.to_string(),
            Self::Open(_, open) => open.question.clone(),
            Self::Mark(_, mark) => mark.to_string(),
        }
    }

    fn question(&self, cell: impl FnOnce(&Question, &Spot) -> Cell) -> Cell {
        match self {
            Self::Question(_, question, earlier, _) => cell(question, earlier),
            Self::Open(..) | Self::Mark(..) => Cell::Nothing,
        }
    }

    fn later(&self, cell: impl FnOnce(&Spot) -> Cell) -> Cell {
        match self {
            Self::Question(_, _, _, later) => cell(later),
            Self::Open(..) | Self::Mark(..) => Cell::Nothing,
        }
    }

    fn open(&self, cell: impl FnOnce(&OpenQuestion) -> Cell) -> Cell {
        match self {
            Self::Open(_, open) => cell(open),
            Self::Question(..) | Self::Mark(..) => Cell::Nothing,
        }
    }

    fn mark(&self, cell: impl FnOnce(&ClockMark) -> Cell) -> Cell {
        match self {
            Self::Question(..) | Self::Open(..) => Cell::Nothing,
            Self::Mark(_, mark) => cell(mark),
        }
    }
}
