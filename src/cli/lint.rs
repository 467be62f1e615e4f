//! `hames lint`: every fault of checklists and rig files, with its place.

use crate::checklist::{Finding, Shared, by_default, lint_together};
use crate::cli::Status;
use crate::cli::supply::text;
use crate::document::Fault;
use crate::rig::Rig;
use serde::Serialize;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// One finding as JSON.
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

pub(super) fn lint(
    files: &[PathBuf],
    json: bool,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let (mut found, mut unread) = (0_usize, false);
    for file in files {
        let text = match text(file) {
            Ok(text) => text,
            Err(fault) => {
                writeln!(err, "{fault}")?;
                unread = true;
                continue;
            }
        };
        let findings = findings(&text);
        found += findings.len();
        for finding in findings {
            tell(file, &finding, json, out)?;
        }
    }
    if !json {
        let files = files.len();
        writeln!(
            err,
            "{found} found in {files} {}",
            if files == 1 { "file" } else { "files" }
        )?;
    }
    Ok(match (unread, found) {
        (true, _) => Status::Store,
        (false, 0) => Status::Fine,
        (false, _) => Status::Findings,
    })
}

/// A file names its format; what names none, or one not known, is read as a checklist.
fn findings(text: &str) -> Vec<Finding> {
    let format = text.lines().find_map(|line| line.strip_prefix("format:"));
    let read = match format.map(str::trim) {
        Some(format) if format.starts_with("hames-rig") => Rig::read(text).map(drop),
        Some(format) if format.starts_with("hames-steps") => Shared::default().add(text),
        _ => return lint_together(text, Shared::shipped(), &by_default),
    };
    let faults = read.err().unwrap_or_default();
    faults
        .into_iter()
        .map(|fault: Fault| fault.into())
        .collect()
}

fn tell(file: &Path, finding: &Finding, json: bool, out: &mut dyn Write) -> io::Result<()> {
    let file = file.display().to_string();
    if !json {
        return writeln!(out, "{file}:{finding}");
    }
    let told = Told {
        schema: "hames-lint/1",
        file: &file,
        line: finding.place.line,
        column: finding.place.column,
        severity: finding.severity().word(),
        rule: finding.rule.word(),
        path: &finding.path,
        what: &finding.what,
        fix: &finding.fix,
    };
    serde_json::to_writer(&mut *out, &told)?;
    writeln!(out)
}
