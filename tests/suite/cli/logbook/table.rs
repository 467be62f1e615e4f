//! The tables, held to the page that tells their columns.

use crate::architecture::root;
use crate::cli::demo::sealed;
use crate::harness::home::trip;
use hames::logbook::table::{Kind, Table};
use serde_json::Value;
use std::fmt::Write;
use std::fs;
use std::path::Path;

fn written(table: Table) -> String {
    let mut text = "| column | type | unit | meaning |\n|---|---|---|---|\n".to_owned();
    for column in table.columns() {
        let (name, kind) = (column.name, column.kind.word());
        let unit = if column.unit.is_empty() {
            "–"
        } else {
            column.unit
        };
        writeln!(text, "| `{name}` | {kind} | {unit} | {} |", column.meaning).unwrap();
    }
    text
}

#[test]
fn the_page_of_tables_tells_every_column_there_is() {
    let page = fs::read_to_string(root().join("docs/tables.md")).unwrap();
    let prose: Vec<&str> = page.lines().filter(|line| !line.starts_with('|')).collect();
    let mut prose = prose.join("\n") + "\n";
    while prose.contains("\n\n\n") {
        prose = prose.replace("\n\n\n", "\n\n");
    }
    let mut parts = prose.split("\n## ");
    let mut made = parts.next().unwrap().to_owned();
    let mut known = Vec::new();
    for part in parts {
        let word = part.lines().next().unwrap();
        let (_, table) = Table::WORDS
            .into_iter()
            .find(|(one, _)| *one == word)
            .unwrap();
        known.push(word);
        write!(made, "\n## {}\n\n{}", part.trim_end(), written(table)).unwrap();
    }
    assert_eq!(known, Table::WORDS.map(|(word, _)| word));
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join("tables.md");
    fs::write(&path, &made).unwrap();
    assert!(
        page == made,
        "a table has changed; take the new page with: cp {} docs/tables.md",
        path.display()
    );
}

fn is_kind(kind: Kind, value: &Value) -> bool {
    match kind {
        _ if value.is_null() => true,
        Kind::Text => value.is_string(),
        Kind::Whole => value.is_u64(),
        Kind::Decimal => value.is_number(),
        // The offset is told by a word that is the same wherever the test is run.
        Kind::Time => value.as_str().is_some_and(|text| {
            let (day, rest) = text.split_at(10);
            day.len() == 10 && rest.starts_with('T') && rest.contains('.')
        }),
        Kind::Date => value == "DATE",
        Kind::Flag => value.is_boolean(),
    }
}

#[test]
fn every_cell_is_of_its_columns_type_and_both_forms_tell_the_same_rows() {
    let home = sealed();
    let mut readings = Vec::new();
    for (word, table) in Table::WORDS {
        let command = format!("logbook table {word} --logbook share/hames/demo");
        let json = home.hames(&format!("{command} --json")).run();
        assert_eq!((json.status, json.err.as_str()), (0, ""), "{word}");
        let rows: Vec<Value> = json
            .out
            .lines()
            .map(|line| serde_json::from_str(line).unwrap())
            .collect();
        for row in &rows {
            let row = row.as_object().unwrap();
            assert_eq!(row.len(), table.columns().len());
            for column in table.columns() {
                let value = &row[column.name];
                assert!(
                    is_kind(column.kind, value),
                    "{word}.{}: {value}",
                    column.name
                );
            }
        }
        let csv = home.hames(&command).run();
        let mut lines = csv.out.lines();
        let names: Vec<&str> = table.columns().iter().map(|column| column.name).collect();
        assert_eq!(lines.next(), Some(names.join(",").as_str()));
        assert_eq!(lines.count(), rows.len(), "{word}");
        if table == Table::Readings {
            readings = rows;
        }
    }
    let one = readings
        .iter()
        .find(|row| row["instrument"] == "gauge-100")
        .unwrap();
    assert_eq!(one["unit_si"], "kPa");
    assert_eq!(one["finding"], "not-countersigned");
    assert!(one["value"].as_f64() >= one["low"].as_f64(), "{one}");
}

#[test]
fn a_trip_that_cannot_be_relied_on_has_its_row_among_the_trips_and_no_other() {
    let home = sealed();
    let path = trip(&home.demo(), 1).join("trip.jsonl");
    let journal = fs::read_to_string(&path).unwrap();
    fs::write(&path, journal.replacen("Tobias", "Tobios", 1)).unwrap();
    let trips = home
        .hames("logbook table trips --logbook share/hames/demo")
        .run();
    assert_eq!(trips.status, 0);
    let row = trips.out.lines().nth(1).unwrap();
    assert!(row.starts_with("altered,"), "{row}");
    assert!(row.contains(",LAPTOP,1,,"), "{row}");
    let readings = home
        .hames("logbook table readings --logbook share/hames/demo")
        .run();
    assert_eq!(readings.out.lines().count(), 1, "{}", readings.out);
}
