//! Rows on their way out, in either form.

use crate::cli::logbook::table::Form;
use crate::logbook::table::{Cell, Column};
use crate::walk::unprintable;
use serde::Serializer;
use serde::ser::SerializeMap;
use serde_json::value::RawValue;
use std::io::{self, Write};

/// Rows on their way out.
pub(super) struct Rows<'o> {
    columns: &'static [Column],
    to: To<'o>,
}

enum To<'o> {
    Csv(Box<csv::Writer<&'o mut dyn Write>>),
    Json(&'o mut dyn Write),
}

impl<'o> Rows<'o> {
    pub(super) fn begin(
        columns: &'static [Column],
        form: Form,
        out: &'o mut dyn Write,
    ) -> io::Result<Self> {
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

    pub(super) fn all(&mut self, rows: &[Vec<Cell>]) -> io::Result<()> {
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

    pub(super) fn end(self) -> io::Result<()> {
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
        rows.all(&[vec![Cell::Text(words.to_owned()), number]])
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
