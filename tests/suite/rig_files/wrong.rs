//! The wrong rig files, as `tests/vectors/rig-faults.txt` describes them.

use hames::rig::demo::{JUNIPER, MESQUITE};

/// Where the corpus lies; its head says how it is written.
const CORPUS: &str = include_str!("../../vectors/rig-faults.txt");

/// A demo rig with passages changed, and what must be told.
pub(super) struct Wrong {
    pub(super) about: String,
    pub(super) text: String,
    pub(super) faults: Vec<String>,
}

/// Every wrong file of the corpus.
pub(super) fn all() -> Vec<Wrong> {
    CORPUS.split("\n== ").skip(1).map(wrong).collect()
}

fn wrong(block: &str) -> Wrong {
    let (head, body) = block.split_once('\n').unwrap();
    let (about, demo) = head.trim_end_matches(')').split_once(" (").unwrap();
    let mut marked = match demo {
        "juniper" => JUNIPER.to_owned(),
        "mesquite" => MESQUITE.to_owned(),
        other => panic!("{about}: no demo rig {other}"),
    };
    for edit in body.split("\n--\n") {
        let (was, is) = (passage(edit, "- "), passage(edit, "+ "));
        assert!(marked.contains(&was), "{about}: nowhere stands\n{was}");
        marked = marked.replacen(&was, &is, 1);
    }
    let (text, places) = unmark(&marked);
    let says: Vec<&str> = body
        .lines()
        .filter_map(|line| line.strip_prefix("! "))
        .collect();
    assert_eq!(places.len(), says.len(), "{about}: a mark for each fault");
    let faults = places
        .iter()
        .zip(says)
        .map(|((line, column), says)| format!("{line}:{column}: {says}"))
        .collect();
    Wrong {
        about: about.to_owned(),
        text,
        faults,
    }
}

/// The lines of an edit that begin so, without that beginning.
fn passage(edit: &str, sign: &str) -> String {
    let lines: Vec<&str> = edit
        .lines()
        .filter_map(|line| line.strip_prefix(sign))
        .collect();
    lines.join("\n")
}

/// The text without its marks, and the line and column of each.
fn unmark(marked: &str) -> (String, Vec<(usize, usize)>) {
    let mut text = String::new();
    let mut places = Vec::new();
    for letter in marked.chars() {
        if letter == '^' {
            let line = text.matches('\n').count() + 1;
            let column = text.rsplit('\n').next().unwrap().chars().count() + 1;
            places.push((line, column));
        } else {
            text.push(letter);
        }
    }
    (text, places)
}
