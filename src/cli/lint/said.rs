//! A finding as it is told, of whichever linter.

use crate::checklist::{Finding, Ruled};
use crate::document::Place;
use serde::Serialize;
use std::io::{self, Write};
use std::path::Path;

/// One finding.
pub(super) struct Said {
    pub(super) place: Place,
    line: String,
    severity: &'static str,
    rule: &'static str,
    path: String,
    what: String,
    fix: String,
}

/// The same as JSON.
#[derive(Serialize)]
struct Told<'a> {
    schema: &'static str,
    file: &'a str,
    line: usize,
    column: usize,
    severity: &'a str,
    rule: &'a str,
    path: &'a str,
    what: &'a str,
    fix: &'a str,
}

impl<R: Ruled> From<Finding<R>> for Said {
    fn from(finding: Finding<R>) -> Self {
        Self {
            place: finding.place,
            line: finding.to_string(),
            severity: finding.severity().word(),
            rule: finding.rule.word(),
            path: finding.path,
            what: finding.what,
            fix: finding.fix,
        }
    }
}

/// Findings of one linter, to be told.
pub(super) fn said<R: Ruled>(findings: Vec<Finding<R>>) -> Vec<Said> {
    findings.into_iter().map(Said::from).collect()
}

impl Said {
    pub(super) fn tell(&self, file: &Path, json: bool, out: &mut dyn Write) -> io::Result<()> {
        let file = file.display().to_string();
        if !json {
            return writeln!(out, "{file}:{}", self.line);
        }
        let told = Told {
            schema: "hames-lint/1",
            file: &file,
            line: self.place.line,
            column: self.place.column,
            severity: self.severity,
            rule: self.rule,
            path: &self.path,
            what: &self.what,
            fix: &self.fix,
        };
        serde_json::to_writer(&mut *out, &told)?;
        writeln!(out)
    }
}
