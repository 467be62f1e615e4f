//! Single words: capitals, look-alikes, and what is never said.

use crate::checklist::Checklist;
use crate::checklist::lint::Rule;
use crate::checklist::lint::outline::{ids, texts};
use crate::checklist::lint::remark::Remark;

/// Words in capitals that may stand in a row; more are shouting.
const MOST_CAPITALS: usize = 3;

/// Words that promise what no check can.
const PROMISES: [&str; 5] = ["safe", "safely", "safer", "safest", "unsafe"];

/// Words that look for somebody instead of something.
const BLAMES: [&str; 12] = [
    "blame",
    "careless",
    "carelessly",
    "forgetful",
    "forgot",
    "guilty",
    "lazy",
    "neglect",
    "neglected",
    "negligent",
    "sloppy",
    "stupid",
];

/// Answers that say that something was done, and nothing of what was seen.
const BARE: [&str; 22] = [
    "all good",
    "as required",
    "bad",
    "checked",
    "complete",
    "completed",
    "correct",
    "done",
    "fail",
    "failed",
    "fine",
    "good",
    "in order",
    "no",
    "normal",
    "not ok",
    "ok",
    "okay",
    "pass",
    "passed",
    "set",
    "yes",
];

pub(super) fn remarks(checklist: &Checklist) -> Vec<Remark> {
    let mut remarks = Vec::new();
    for text in texts(checklist) {
        if let Some(word) = first_of(text.part, &PROMISES) {
            remarks.push(Remark::new(
                Rule::Promise,
                text.path.as_str(),
                format!("“{word}” promises what no check can"),
                "say what is true, such as which part holds",
            ));
        }
        if let Some(word) = first_of(text.part, &BLAMES) {
            remarks.push(Remark::new(
                Rule::Blame,
                text.path.as_str(),
                format!("“{word}” blames somebody"),
                "say what happens to the rig",
            ));
        }
        let row = capitals_in_a_row(text.part);
        if row > MOST_CAPITALS {
            remarks.push(Remark::new(
                Rule::Capitals,
                text.path,
                format!("{row} words in a row stand in capitals"),
                "write it in sentence case",
            ));
        }
    }
    remarks.extend(look_alikes(checklist));
    remarks
}

fn look_alikes(checklist: &Checklist) -> Vec<Remark> {
    ids(checklist)
        .into_iter()
        .filter(|id| id.part.bytes().any(|byte| byte.is_ascii_digit()))
        .map(|id| {
            Remark::new(
                Rule::LookAlike,
                id.path,
                format!("the name `{}` has a digit", id.part),
                "use lower-case letters and hyphens only",
            )
        })
        .collect()
}

/// Whether a text says that something was done, and nothing of what was seen.
pub(super) fn is_bare(text: &str) -> bool {
    BARE.contains(&words(text).join(" ").as_str())
}

/// The first word of a text that is in the list.
pub(super) fn first_of(text: &str, list: &[&'static str]) -> Option<&'static str> {
    words(text)
        .iter()
        .find_map(|word| list.iter().copied().find(|listed| listed == word))
}

fn words(text: &str) -> Vec<String> {
    text.split(|letter: char| !letter.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(str::to_lowercase)
        .collect()
}

/// The longest row of words in capitals. One letter alone, such as `A`, is no such word.
fn capitals_in_a_row(text: &str) -> usize {
    let mut longest = 0;
    let mut row = 0;
    for word in text.split_whitespace() {
        let letters: Vec<char> = word
            .chars()
            .filter(|letter| letter.is_alphabetic())
            .collect();
        let shouted = letters.len() > 1 && letters.iter().all(|letter| letter.is_uppercase());
        row = if shouted { row + 1 } else { 0 };
        longest = longest.max(row);
    }
    longest
}
