//! Whoever asks after one trip, by its folder, by its receipt or in a table, is told what the whole
//! logbook tells of it.

use super::damage::damages;
use super::making::{Barn, Files, Left, lay};
use crate::harness::home::Home;
use hames::record::{Finding, Opinion};
use serde_json::Value;
use std::collections::BTreeMap;

/// One damage in so many is enough here; of those about keys and histories, more.
const ONE_IN: usize = 9;

/// So many trips of each finding are asked after one by one.
const OF_EACH: usize = 3;

/// What the program says, one JSON object a line, and its status.
fn told(home: &Home, arguments: &str) -> (i32, Vec<Value>) {
    let output = home.hames(arguments).start().wait_with_output().unwrap();
    let text = String::from_utf8(output.stdout).unwrap();
    let lines = text.lines().map(|line| serde_json::from_str(line).unwrap());
    (output.status.code().unwrap(), lines.collect())
}

fn status(word: &str) -> i32 {
    let row = Finding::TABLE.iter().find(|(known, ..)| *known == word);
    i32::from(row.unwrap().1)
}

/// The findings of the trips of this logbook, the same whoever asks.
#[track_caller]
fn alike(files: &Files, what: &str) -> Vec<String> {
    let home = Home::new();
    lay(files, &home.path("book"));
    let (_, whole) = told(&home, "verify --json book");
    let trips: Vec<&Value> = whole.iter().filter(|line| line["kind"] == "trip").collect();
    let words: Vec<String> = trips
        .iter()
        .map(|trip| trip["finding"].as_str().unwrap().to_owned())
        .collect();

    let (_, rows) = told(&home, "logbook table trips --json --logbook book");
    let rows: Vec<&str> = rows
        .iter()
        .map(|row| row["finding"].as_str().unwrap())
        .collect();
    assert_eq!(rows, words, "{what}: the table");

    let mut asked: BTreeMap<&str, usize> = BTreeMap::new();
    for (trip, word) in trips.iter().zip(&words) {
        let so_many = asked.entry(word).or_default();
        *so_many += 1;
        if *so_many > OF_EACH {
            continue;
        }
        let path = trip["path"].as_str().unwrap();
        let (ends, one) = told(&home, &format!("verify --json {path}"));
        assert_eq!(one[0]["finding"], **word, "{what}: {path}");
        let Some(receipt) = trip["receipt"].as_str() else {
            continue;
        };
        let (by_receipt, found) = told(&home, &format!("logbook receipt --json {receipt} book"));
        let found: Vec<&Value> = found
            .iter()
            .map(|line| &line["trip"])
            .filter(|found| found["path"] == path)
            .collect();
        assert_eq!(found.len(), 1, "{what}: {receipt}");
        assert_eq!(found[0]["finding"], **word, "{what}: {receipt}");
        assert_eq!(by_receipt, ends, "{what}: {receipt}");
        if found[0]["beside"] == Value::Array(Vec::new()) {
            assert_eq!(ends, status(word), "{what}: {path}");
        }
    }
    words
}

#[test]
fn a_trip_has_one_finding_whether_the_logbook_a_table_or_its_receipt_is_asked() {
    let keys = ["revoked-signer", "outside-bracket", "fork", "truncated"];
    let mut of_keys: BTreeMap<&str, usize> = BTreeMap::new();
    let some = damages().enumerate().filter(|(at, damage)| {
        let so_many = of_keys.entry(damage.word).or_default();
        *so_many += 1;
        at % ONE_IN == 0 || keys.contains(&damage.word) && *so_many <= OF_EACH
    });
    let mut words: Vec<String> = Vec::new();
    for (_, damage) in some {
        words.extend(alike(&(damage.make)(), damage.what));
    }
    for word in keys.iter().chain(&["altered", "not-countersigned"]) {
        assert!(words.iter().any(|one| one == word), "{word}");
    }
}

#[test]
fn a_receipt_says_who_countersigned_and_how_much_the_trip_holds() {
    let mut barn = Barn::founded();
    for _ in 0..2 {
        barn.walk(0, "wren.ashdown", Left::Sealed);
    }
    barn.countersign(0, Opinion::Agreed);
    barn.countersign(1, Opinion::Asked);
    assert_eq!(alike(&barn.files, "whole"), ["intact", "not-countersigned"]);
    let home = Home::new();
    lay(&barn.files, &home.path("book"));
    let (_, whole) = told(&home, "verify --json book");
    let receipts: Vec<&str> = whole
        .iter()
        .filter_map(|line| line["receipt"].as_str())
        .collect();
    let ask = |receipt: &str| home.hames(&format!("logbook receipt {receipt} book")).run();
    let agreed = ask(receipts[0]);
    assert_eq!((agreed.status, agreed.err.as_str()), (0, ""));
    let asked = ask(receipts[1]);
    assert_eq!((asked.status, asked.err.as_str()), (9, ""));
    let counts = "  1 step answered, 0 readings; 1 flagged\n";
    for (ended, says) in [
        (
            &agreed,
            "  agreed to by statement 2 of Odile Marsh\n  verified: intact\n",
        ),
        (
            &asked,
            "  asked about by statement 3 of Odile Marsh: why so late?\n  verified: not-countersigned\n",
        ),
    ] {
        assert!(
            ended.out.contains(&format!("{counts}{says}")),
            "{}",
            ended.out
        );
    }
    // With the first trip gone, the second is as it was, and what is missing beside it is told.
    let first = format!("{}/", barn.trips[0].folder);
    barn.files.retain(|file, _| !file.starts_with(&first));
    let home = Home::new();
    lay(&barn.files, &home.path("book"));
    let alone = home
        .hames(&format!("logbook receipt {} book", receipts[1]))
        .run();
    assert_eq!(alone.status, 9, "{}", alone.out);
    let beside = "  verified: not-countersigned\n  beside it, gap: trip 1 of ";
    assert!(alone.out.contains(beside), "{}", alone.out);
}
