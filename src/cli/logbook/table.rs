//! `hames logbook table`: the records as rows, one trip in hand at a time.

use crate::cli::Status;
use crate::cli::args::TableOf;
use crate::cli::clerk::Plans;
use crate::cli::logbook::questions::Gathered;
use crate::cli::logbook::shelf::{Kept, Stopped, kept};
use crate::logbook::table::{Cell, Column, Seen, Table};
use crate::record::Finding;
use crate::walk::unprintable;
use crate::world::{Machine, World};
use chrono::{DateTime, FixedOffset};
use serde::Serializer;
use serde::ser::SerializeMap;
use serde_json::value::RawValue;
use std::io::{self, Write};
use std::path::PathBuf;

/// How rows are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Form {
    /// Comma-separated, by RFC 4180, with the names of the columns first.
    Csv,
    /// One JSON object a line.
    Json,
}

impl TableOf {
    const fn table(self) -> Table {
        match self {
            Self::Trips => Table::Trips,
            Self::Steps => Table::Steps,
            Self::Readings => Table::Readings,
            Self::Instruments => Table::Instruments,
            Self::Questions => Table::Questions,
        }
    }
}

/// Writes a table. The first failure is of the folders, the second of the output.
pub(super) fn table(
    of: TableOf,
    form: Form,
    places: &[PathBuf],
    out: &mut dyn Write,
) -> Result<io::Result<Status>, Stopped> {
    let now = Some(Machine::this().now().wall);
    Ok(write(of.table(), form, places, now, out)?.map(|()| Status::Fine))
}

/// Writes every row of a table. The clock of whoever asks is one thing known to the questions.
pub(super) fn write(
    table: Table,
    form: Form,
    places: &[PathBuf],
    now: Option<DateTime<FixedOffset>>,
    out: &mut dyn Write,
) -> Result<io::Result<()>, Stopped> {
    let mut rows = Rows::begin(table.columns(), form, out);
    if table == Table::Questions {
        let asked = Gathered::from(places)?.asked(now);
        return Ok(rows.and_then(|mut rows| {
            rows.all(asked.rows())?;
            rows.end()
        }));
    }
    let mut plans = Plans::default();
    for kept in kept(places)? {
        if let Ok(rows) = &mut rows {
            if let Err(error) = rows.all(of_trip(table, &kept, &mut plans)) {
                return Ok(Err(error));
            }
        }
    }
    Ok(rows.and_then(Rows::end))
}

/// The rows of one trip. One that cannot be read at all has its row among the trips and no other.
fn of_trip(table: Table, kept: &Kept, plans: &mut Plans) -> Vec<Vec<Cell>> {
    let (device, number) = kept.place();
    let seen = Seen {
        finding: Finding::Unreadable,
        faults: 1,
        device: &device,
        number,
        trip: None,
        walk: None,
    };
    match kept.read(plans) {
        Ok(read) => table.rows(&Seen {
            finding: read.finding(),
            faults: read.faults().len(),
            trip: read.trip(),
            walk: read.walk().ok().as_ref(),
            ..seen
        }),
        Err(_) => table.rows(&seen),
    }
}

/// Rows on their way out.
struct Rows<'o> {
    columns: &'static [Column],
    to: To<'o>,
}

enum To<'o> {
    Csv(Box<csv::Writer<&'o mut dyn Write>>),
    Json(&'o mut dyn Write),
}

impl<'o> Rows<'o> {
    fn begin(columns: &'static [Column], form: Form, out: &'o mut dyn Write) -> io::Result<Self> {
        let to = match form {
            Form::Json => To::Json(out),
            Form::Csv => {
                let mut writer = csv::Writer::from_writer(out);
                writer.write_record(columns.iter().map(|column| column.name))?;
                To::Csv(Box::new(writer))
            }
        };
        Ok(Self { columns, to })
    }

    fn all(&mut self, rows: Vec<Vec<Cell>>) -> io::Result<()> {
        rows.iter().try_for_each(|row| self.one(row))
    }

    fn one(&mut self, row: &[Cell]) -> io::Result<()> {
        match &mut self.to {
            To::Csv(writer) => Ok(writer.write_record(row.iter().map(for_csv))?),
            To::Json(out) => {
                object(self.columns, row, &mut **out)?;
                writeln!(out)
            }
        }
    }

    fn end(self) -> io::Result<()> {
        match self.to {
            To::Csv(mut writer) => writer.flush(),
            To::Json(_) => Ok(()),
        }
    }
}

fn object(columns: &[Column], row: &[Cell], out: &mut dyn Write) -> io::Result<()> {
    let mut json = serde_json::Serializer::new(out);
    let mut map = (&mut json).serialize_map(Some(row.len()))?;
    for (column, cell) in columns.iter().zip(row) {
        match cell {
            Cell::Whole(number) => map.serialize_entry(column.name, number)?,
            Cell::Flag(flag) => map.serialize_entry(column.name, flag)?,
            Cell::Nothing => map.serialize_entry(column.name, &None::<u64>)?,
            // The digits as they are, and not through a float.
            Cell::Decimal(_) => {
                map.serialize_entry(column.name, &RawValue::from_string(plain(cell))?)?;
            }
            Cell::Text(_) | Cell::Time(_) | Cell::Date(_) => {
                map.serialize_entry(column.name, &plain(cell))?;
            }
        }
    }
    Ok(map.end()?)
}

/// A cell as plain characters: nothing in it moves a cursor, hides or turns the writing.
fn plain(cell: &Cell) -> String {
    match cell {
        Cell::Text(text) if text.chars().any(unprintable) => text.escape_debug().to_string(),
        Cell::Text(text) => text.clone(),
        Cell::Whole(number) => number.to_string(),
        Cell::Decimal(number) => number.to_string(),
        Cell::Time(at) => at.to_rfc3339_opts(chrono::SecondsFormat::Millis, false),
        Cell::Date(day) => day.to_string(),
        Cell::Flag(flag) => flag.to_string(),
        Cell::Nothing => String::new(),
    }
}

/// The same for a spreadsheet, which takes a text that begins so for a formula and runs it.
fn for_csv(cell: &Cell) -> String {
    let text = plain(cell);
    let formula = text.starts_with(['=', '+', '-', '@']);
    if formula && matches!(cell, Cell::Text(_)) {
        format!("'{text}")
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::logbook::table::Kind;
    use crate::units::Exact;

    const COLUMNS: &[Column] = &[
        Column {
            name: "words",
            kind: Kind::Text,
            unit: "",
            meaning: "",
        },
        Column {
            name: "number",
            kind: Kind::Decimal,
            unit: "",
            meaning: "",
        },
    ];

    fn written(form: Form, words: &str, number: Cell) -> String {
        let mut out = Vec::new();
        let mut rows = Rows::begin(COLUMNS, form, &mut out).unwrap();
        rows.all(vec![vec![Cell::Text(words.to_owned()), number]])
            .unwrap();
        rows.end().unwrap();
        let text = String::from_utf8(out).unwrap();
        text.trim_start_matches("words,number\n").to_owned()
    }

    #[test]
    fn hostile_words_stay_words_in_both_forms() {
        let number = || Cell::Decimal(Exact::parse_decimal("-6.50").unwrap());
        for (words, csv, json) in [
            ("left, rear", "\"left, rear\",-6.5\n", "left, rear"),
            (
                "the \"old\" one",
                "\"the \"\"old\"\" one\",-6.5\n",
                "the \\\"old\\\" one",
            ),
            ("=1+1", "'=1+1,-6.5\n", "=1+1"),
            ("-", "'-,-6.5\n", "-"),
            ("a\u{1b}[2Jb", "a\\u{1b}[2Jb,-6.5\n", "a\\\\u{1b}[2Jb"),
            ("a\nb", "a\\nb,-6.5\n", "a\\\\nb"),
            ("a\u{202e}b", "a\\u{202e}b,-6.5\n", "a\\\\u{202e}b"),
        ] {
            assert_eq!(written(Form::Csv, words, number()), csv, "{words:?}");
            let object = format!("{{\"words\":\"{json}\",\"number\":-6.5}}\n");
            assert_eq!(written(Form::Json, words, number()), object, "{words:?}");
        }
        assert_eq!(written(Form::Csv, "a", Cell::Nothing), "a,\n");
        assert_eq!(
            written(Form::Json, "a", Cell::Nothing),
            "{\"words\":\"a\",\"number\":null}\n"
        );
    }
}
