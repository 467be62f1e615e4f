//! `hames lint --explain`: why a rule is one, and a passage before and after it was mended.

use crate::checklist::{Rule, Severity};
use crate::cli::Status;
use crate::document::nearest;
use std::io::{self, Write};

/// What asks for every rule.
const ALL: &str = "all";

pub(in crate::cli) fn explain(
    word: &str,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let asked: Vec<Rule> = Rule::ALL
        .into_iter()
        .filter(|rule| word == ALL || rule.word() == word)
        .collect();
    if asked.is_empty() {
        writeln!(err, "{}", unknown(word))?;
        return Ok(Status::Usage);
    }
    for (at, rule) in asked.into_iter().enumerate() {
        if at > 0 {
            writeln!(out)?;
        }
        tell(rule, out)?;
    }
    Ok(Status::Fine)
}

fn tell(rule: Rule, out: &mut dyn Write) -> io::Result<()> {
    let means = match rule.severity() {
        Severity::Error => "error: the checklist is not fit for use",
        Severity::Warn => "warn: the checklist can be used, and would be better otherwise",
    };
    let example = rule.example();
    writeln!(out, "{}\n  {means}\n  {}", rule.word(), rule.why())?;
    for (head, passage) in [("before", example.before), ("after", example.after)] {
        writeln!(out, "  {head}:")?;
        for line in passage.lines() {
            writeln!(out, "      {line}")?;
        }
    }
    Ok(())
}

fn unknown(word: &str) -> String {
    let words = Rule::ALL.map(Rule::word);
    let meant =
        nearest(word, words).map_or_else(String::new, |meant| format!(" Did you mean {meant}?"));
    format!(
        "“{}” is no rule of the linter.{meant} The rules are {}, and all for every one.",
        word.escape_debug(),
        words.join(", ")
    )
}
