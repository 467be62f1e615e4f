//! `hames lint --explain`: why a rule is one, and a passage before and after it was mended.

use crate::checklist::{Rule, Ruled, Severity};
use crate::cli::Status;
use crate::document::nearest;
use crate::drill;
use std::io::{self, Write};

/// What asks for every rule.
const ALL: &str = "all";

pub(in crate::cli) fn explain(
    word: &str,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let lists = told(&Rule::ALL, "checklist", word);
    let drills = told(&drill::Rule::ALL, "scenario or sight", word);
    let asked = [lists, drills].concat();
    if asked.is_empty() {
        writeln!(err, "{}", unknown(word))?;
        return Ok(Status::Usage);
    }
    write!(out, "{}", asked.join("\n"))?;
    Ok(Status::Fine)
}

/// The rules of one linter that are meant, each as its page.
fn told<R: Ruled>(all: &[R], of: &str, word: &str) -> Vec<String> {
    let meant = all.iter().filter(|rule| word == ALL || rule.word() == word);
    meant.map(|rule| page(*rule, of)).collect()
}

fn page<R: Ruled>(rule: R, of: &str) -> String {
    let means = match rule.severity() {
        Severity::Error => format!("error: the {of} is not fit for use"),
        Severity::Warn => format!("warn: the {of} can be used, and would be better otherwise"),
    };
    let example = rule.example();
    let mut page = format!("{}\n  {means}\n  {}\n", rule.word(), rule.why());
    for (head, passage) in [("before", example.before), ("after", example.after)] {
        page = format!("{page}  {head}:\n");
        for line in passage.lines() {
            page = format!("{page}      {line}\n");
        }
    }
    page
}

fn unknown(word: &str) -> String {
    let words: Vec<&str> = Rule::ALL.into_iter().map(Rule::word).collect();
    let words = [words, drill::Rule::ALL.map(drill::Rule::word).to_vec()].concat();
    let meant = nearest(word, words.iter().copied());
    let meant = meant.map_or_else(String::new, |meant| format!(" Did you mean {meant}?"));
    format!(
        "“{}” is no rule of the linter.{meant} The rules are {}, and all for every one.",
        word.escape_debug(),
        words.join(", ")
    )
}
