//! The formulas against publications, worked examples and an independent model.
//!
//! Every file of `tests/vectors/mechanics` is a table of rows: a formula's name, its inputs, what
//! must come out, how nearly, and where that is written. They go through the public door, as
//! `hames figure NAME` does. A row that must be refused says so by `refused`, a part of the
//! sentence.

use hames::cli::figure::{pages, reckon};
use serde::Deserialize;
use serde_json::Value;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Table {
    about: String,
    within: f64,
    rows: Vec<Row>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    id: String,
    of: String,
    formula: String,
    inputs: Value,
    #[serde(default)]
    outputs: Value,
    #[serde(default)]
    refused: Option<String>,
    #[serde(default)]
    within: Option<f64>,
    source: String,
}

/// Every table with its file's name.
fn tables() -> Vec<(String, Table)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/vectors/mechanics");
    let mut paths: Vec<_> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    paths.sort();
    paths
        .into_iter()
        .map(|path| {
            let name = path.file_stem().unwrap().to_string_lossy().into_owned();
            let table = serde_json::from_str(&fs::read_to_string(&path).unwrap())
                .unwrap_or_else(|fault| panic!("{name}: {fault}"));
            (name, table)
        })
        .collect()
}

#[test]
fn every_row_of_every_table_comes_out_as_its_source_says() {
    let mut wrong = Vec::new();
    for (name, table) in tables() {
        for row in &table.rows {
            let within = row.within.unwrap_or(table.within);
            if let Err(why) = held(row, within) {
                wrong.push(format!(
                    "{name}/{} ({}; {}): {why}",
                    row.id, row.of, row.source
                ));
            }
        }
    }
    assert!(wrong.is_empty(), "\n{}\n", wrong.join("\n"));
}

#[test]
fn every_row_names_its_source_and_has_an_id_of_its_own() {
    let mut ids = BTreeSet::new();
    for (name, table) in tables() {
        assert!(!table.about.is_empty(), "{name}");
        for row in &table.rows {
            assert!(!row.source.is_empty(), "{name}/{}", row.id);
            assert!(ids.insert(row.id.clone()), "{name}/{} stands twice", row.id);
        }
    }
    assert!(ids.len() >= 400, "{} rows", ids.len());
}

#[test]
fn every_formula_has_a_name_of_its_own_and_a_full_page() {
    let mut names = BTreeSet::new();
    for page in pages() {
        assert!(names.insert(page.name), "{} stands twice", page.name);
        for (part, text) in [
            ("title", page.title),
            ("situation", page.situation),
            ("formula", page.formula),
            ("holds", page.holds),
            ("assumes", page.assumes),
            ("never", page.never),
            ("source", page.source),
        ] {
            assert!(!text.trim().is_empty(), "{} has no {part}", page.name);
        }
        assert!(!page.symbols.is_empty(), "{} has no symbols", page.name);
    }
}

fn held(row: &Row, within: f64) -> Result<(), String> {
    let reckoned = reckon(&row.formula, &row.inputs.to_string());
    match (&row.refused, reckoned) {
        (None, Ok(found)) => agree("", &row.outputs, &found, within),
        (Some(part), Err(not)) if not.to_string().contains(part) => Ok(()),
        (Some(part), Err(not)) => Err(format!("refused, but not for “{part}”: {not}")),
        (Some(_), Ok(found)) => Err(format!("must be refused, but found {found}")),
        (None, Err(not)) => Err(not.to_string()),
    }
}

/// Whether everything that is expected was found.
fn agree(path: &str, expected: &Value, found: &Value, within: f64) -> Result<(), String> {
    match (expected, found) {
        (Value::Object(expected), Value::Object(found)) => {
            for (key, value) in expected {
                let there = found.get(key).ok_or(format!("{path}{key} is missing"))?;
                agree(&format!("{path}{key} "), value, there, within)?;
            }
            Ok(())
        }
        (Value::Array(expected), Value::Array(found)) => {
            if expected.len() != found.len() {
                return Err(format!("{path}has {} values", found.len()));
            }
            for (at, (value, there)) in expected.iter().zip(found).enumerate() {
                agree(&format!("{path}[{at}] "), value, there, within)?;
            }
            Ok(())
        }
        (Value::Number(expected), Value::Number(found)) => {
            let (expected, found) = (expected.as_f64().unwrap(), found.as_f64().unwrap());
            let nearly = (expected - found).abs() <= within * expected.abs() + 1e-8;
            nearly
                .then_some(())
                .ok_or(format!("{path}should be {expected}, but is {found}"))
        }
        _ if expected == found => Ok(()),
        _ => Err(format!("{path}should be {expected}, but is {found}")),
    }
}
