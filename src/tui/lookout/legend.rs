//! What the signs mean, in words.

use crate::review::Weight;
use crate::tui::text::{columns, wrap};

/// What a line below the number of a day means.
const OPEN: (&str, &str) = ("__", "something of the day is open");

/// Each sign with its meaning.
pub(in crate::tui) fn told() -> Vec<(String, String)> {
    let signs = Weight::ALL.map(|weight| (weight.sign().to_string(), weight.told().to_owned()));
    let open = (OPEN.0.to_owned(), OPEN.1.to_owned());
    signs.into_iter().chain([open]).collect()
}

/// The legend in so many columns and rows: in whole words, else in one word a sign, else nothing.
pub(super) fn lines(width: usize, height: usize) -> Vec<String> {
    let whole: Vec<String> = told()
        .iter()
        .flat_map(|(sign, meaning)| hung(sign, meaning, width))
        .collect();
    if whole.len() <= height {
        return whole;
    }
    let words = Weight::ALL.map(|weight| format!("{} {}", weight.sign(), weight.key()));
    let open = format!("{} open", OPEN.0);
    let mut short: Vec<String> = Vec::new();
    for word in words.into_iter().chain([open]) {
        match short.last_mut() {
            Some(line) if columns(line) + 2 + columns(&word) <= width => {
                line.push_str("  ");
                line.push_str(&word);
            }
            _ => short.push(word),
        }
    }
    if short.len() <= height {
        short
    } else {
        Vec::new()
    }
}

fn hung(sign: &str, meaning: &str, width: usize) -> Vec<String> {
    let lines = wrap(meaning, width.saturating_sub(3)).into_iter();
    let lines = lines.enumerate().map(|(at, line)| {
        let head = if at == 0 { sign } else { "" };
        format!("{head:<2} {line}")
    });
    lines.collect()
}
