//! Tables for the usual query engines: one type a column, no value inside another, the number
//! beside its unit, and in each row what verification finds of its trip.
//!
//! A column and how its cells come about stand in one line, so that neither is without the other.

mod instruments;
mod normal;
mod questions;
mod readings;
mod steps;
mod trips;

pub use questions::{Asked, OpenQuestion};

use crate::record::{Finding, Verified};
use crate::units::{Exact, Quantity};
use crate::walk::Walk;
use chrono::{DateTime, FixedOffset, NaiveDate};

/// A table there is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Table {
    /// One row a trip.
    Trips,
    /// One row a step of a walk, as it stood at its end.
    Steps,
    /// One row a reading, those that were replaced among them.
    Readings,
    /// One row an instrument on a walk it was used on.
    Instruments,
    /// One row a question or a mark of a clock.
    Questions,
}

/// A column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Column {
    /// Its name.
    pub name: &'static str,
    /// What its cells are.
    pub kind: Kind,
    /// Their unit, where all have one.
    pub unit: &'static str,
    /// What they say.
    pub meaning: &'static str,
}

/// What the cells of a column are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A text.
    Text,
    /// A whole number.
    Whole,
    /// A decimal number.
    Decimal,
    /// A moment with its offset.
    Time,
    /// A day.
    Date,
    /// True or false.
    Flag,
}

/// One value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Cell {
    /// A text.
    Text(String),
    /// A whole number.
    Whole(u64),
    /// A decimal number, exact.
    Decimal(Exact),
    /// A moment.
    Time(DateTime<FixedOffset>),
    /// A day.
    Date(NaiveDate),
    /// True or false.
    Flag(bool),
    /// Nothing is known or said.
    Nothing,
}

/// One trip as far as it could be read.
#[derive(Clone, Copy, Debug)]
pub struct Seen<'a> {
    /// What verification finds of it.
    pub finding: Finding,
    /// How many things it tells of.
    pub faults: usize,
    /// How many marks its laptop's clock has in it.
    pub clock_marks: usize,
    /// The laptop it lies under.
    pub device: &'a str,
    /// Its number there.
    pub number: u64,
    /// The trip, where its bytes can be relied on.
    pub trip: Option<&'a Verified>,
    /// Its walk, where that can be walked again.
    pub walk: Option<&'a Walk>,
}

impl Table {
    /// Every table with its word.
    pub const WORDS: [(&'static str, Self); 5] = [
        ("trips", Self::Trips),
        ("steps", Self::Steps),
        ("readings", Self::Readings),
        ("instruments", Self::Instruments),
        ("questions", Self::Questions),
    ];

    /// The word.
    pub fn word(self) -> &'static str {
        let known = Self::WORDS.iter().find(|(_, table)| *table == self);
        known.map_or("", |(word, _)| word)
    }

    /// Its columns, in the order of every row.
    pub const fn columns(self) -> &'static [Column] {
        match self {
            Self::Trips => trips::COLUMNS,
            Self::Steps => steps::COLUMNS,
            Self::Readings => readings::COLUMNS,
            Self::Instruments => instruments::COLUMNS,
            Self::Questions => questions::COLUMNS,
        }
    }

    /// The rows of one trip. Questions are about several, and come from [`Asked::rows`].
    pub fn rows(self, seen: &Seen<'_>) -> Vec<Vec<Cell>> {
        match self {
            Self::Trips => trips::rows(seen),
            Self::Steps => steps::rows(seen),
            Self::Readings => readings::rows(seen),
            Self::Instruments => instruments::rows(seen),
            Self::Questions => Vec::new(),
        }
    }
}

impl Kind {
    /// The word in the page on tables.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Text => "text",
            Self::Whole => "whole number",
            Self::Decimal => "decimal",
            Self::Time => "time",
            Self::Date => "day",
            Self::Flag => "true or false",
        }
    }
}

impl Cell {
    /// What kind of cell it is; nothing where it is empty, which every column may be.
    pub const fn kind(&self) -> Option<Kind> {
        match self {
            Self::Text(_) => Some(Kind::Text),
            Self::Whole(_) => Some(Kind::Whole),
            Self::Decimal(_) => Some(Kind::Decimal),
            Self::Time(_) => Some(Kind::Time),
            Self::Date(_) => Some(Kind::Date),
            Self::Flag(_) => Some(Kind::Flag),
            Self::Nothing => None,
        }
    }
}

/// The columns of a table and the cells of a row of it, in one list.
macro_rules! table {
    ($row:ident: $of:ty; $( $name:literal, $kind:ident, $unit:literal, $meaning:literal => $cell:expr; )*) => {
        pub(super) const COLUMNS: &[Column] = &[$(
            Column { name: $name, kind: Kind::$kind, unit: $unit, meaning: $meaning }
        ),*];

        fn cells($row: $of) -> Vec<Cell> {
            vec![$( $cell ),*]
        }
    };
}
use table;

fn text<T: ToString + ?Sized>(text: &T) -> Cell {
    Cell::Text(text.to_string())
}

fn if_any<T>(value: Option<T>, cell: impl FnOnce(T) -> Cell) -> Cell {
    value.map_or(Cell::Nothing, cell)
}

fn whole(count: usize) -> Cell {
    u64::try_from(count).map_or(Cell::Nothing, Cell::Whole)
}

fn decimal(quantity: &Quantity) -> Cell {
    Cell::Decimal(quantity.value.clone())
}

fn unit(quantity: &Quantity) -> Cell {
    text(quantity.unit.symbol())
}

/// The number in the one unit all of its kind are told in.
fn normal(quantity: &Quantity) -> Cell {
    let unit = normal::unit(quantity.dimension());
    if_any(quantity.in_unit(unit), |same| Cell::Decimal(same.value))
}

/// That unit.
fn normal_unit(quantity: &Quantity) -> Cell {
    text(normal::unit(quantity.dimension()).symbol())
}

/// The part of a step's key behind the stroke.
fn part(key: &str) -> Cell {
    if_any(key.split_once('/'), |(_, part)| text(part))
}
