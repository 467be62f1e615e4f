//! What was typed, as it stands in the file.

use crate::document::Tree;
use crate::rig::GaugeGrade;
use crate::rig::describe::{Ask, Question};
use std::fmt;

/// Why what was typed answers nothing: a sentence that says what to type.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotAnAnswer(pub String);

impl fmt::Display for NotAnAnswer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// The word `none`, where a value may be left out of an answer.
const NONE: &str = "none";

/// What the answer to a question is in the file. Of an answer of several values the first few are
/// enough to be judged.
pub(super) fn value(
    question: &Question,
    typed: &[String],
    evidence: Option<(&str, &str)>,
) -> Result<Tree, NotAnAnswer> {
    let first = typed.first().map(String::as_str).unwrap_or_default();
    let mut value = match question.field.ask {
        Ask::Table => Tree::Map(vec![("rows".to_owned(), rows(first)?)]),
        Ask::Error => error(first),
        Ask::Whole => number(first),
        Ask::Word(_) | Ask::Joint | Ask::Stall | Ask::Like(_) | Ask::Tools => {
            Tree::Text(chosen(question, first)?)
        }
        _ => typed_out(question.field.ask, typed),
    };
    if let (Some((by, at)), Tree::Map(entries)) = (evidence, &mut value) {
        entries.push(("by".to_owned(), Tree::Text(by.to_owned())));
        entries.push(("at".to_owned(), Tree::Text(at.to_owned())));
    }
    Ok(value)
}

/// One scalar, or a map of what was typed by the keys of the slots.
fn typed_out(ask: Ask, typed: &[String]) -> Tree {
    let mut entries = Vec::new();
    for (slot, typed) in ask.slots().iter().zip(typed) {
        if slot.key.is_empty() {
            return Tree::Text(typed.clone());
        }
        if !(slot.none && typed == NONE) {
            entries.push((slot.key.to_owned(), number(typed)));
        }
    }
    Tree::Map(entries)
}

/// Digits as a number, so that the file reads as a person would write it.
fn number(typed: &str) -> Tree {
    let is_plain = typed.bytes().all(|byte| byte.is_ascii_digit())
        && !typed.starts_with('0')
        && (1..=15).contains(&typed.len());
    if is_plain {
        Tree::Bare(typed.to_owned())
    } else {
        Tree::Text(typed.to_owned())
    }
}

/// A choice by its number, or by its word.
fn chosen(question: &Question, typed: &str) -> Result<String, NotAnAnswer> {
    match question.choice(typed) {
        Some((word, _)) => Ok(word.clone()),
        None => Err(NotAnAnswer(format!(
            "“{typed}” is not one of them. Type a number from 1 to {}.",
            question.choices.len()
        ))),
    }
}

/// `1760 lb at 35 psi, 2150 lb at 50 psi` as rows of a table.
fn rows(typed: &str) -> Result<Tree, NotAnAnswer> {
    let row = |row: &str| {
        let (load, pressure) = row.split_once(" at ")?;
        let text = |text: &str| Tree::Text(text.trim().to_owned());
        Some(Tree::Map(vec![
            ("pressure".to_owned(), text(pressure)),
            ("load".to_owned(), text(load)),
        ]))
    };
    let rows: Option<Vec<Tree>> = typed.split(',').map(row).collect();
    rows.map(Tree::List).ok_or_else(|| {
        NotAnAnswer(format!(
            "“{typed}” is not rows of a table. Type each as load at pressure, such as 1760 lb at \
             35 psi, parted by commas."
        ))
    })
}

/// How wrong an instrument may be, under the key that says how it is told.
fn error(typed: &str) -> Tree {
    let is_grade = GaugeGrade::WORDS.iter().any(|(grade, _)| *grade == typed);
    let (key, value) = if is_grade {
        ("grade", Tree::Text(typed.to_owned()))
    } else if typed.ends_with('%') {
        ("of-reading", Tree::Text(typed.to_owned()))
    } else {
        ("fixed", number(typed))
    };
    Tree::Map(vec![(key.to_owned(), value)])
}
