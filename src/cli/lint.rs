//! `hames lint`: every fault of checklists, rig files and a barn's settings, with its place and the
//! line it stands in.

mod excerpt;
mod explain;

pub(super) use explain::explain;

use crate::barn::{Policies, Settings};
use crate::checklist::{Checklist, Finding, Gap, Plan, Shared, lint_together, put_together};
use crate::cli::Status;
use crate::cli::clerk::Stock;
use crate::cli::supply::{held, lists, no_stricter, rigs_kept, shared_beside, text};
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
    let mut pairs = Pairs::default();
    for file in files {
        let text = match text(file) {
            Ok(text) => text,
            Err(fault) => {
                writeln!(err, "{fault}")?;
                unread = true;
                continue;
            }
        };
        let findings = findings(file, &text);
        pairs.take_in(file, &text);
        found += findings.len();
        for (at, finding) in findings.iter().enumerate() {
            tell(file, finding, json, out)?;
            // Findings at one place share its line.
            let next = findings.get(at + 1).map(|next| next.place);
            if !json && next != Some(finding.place) {
                let line = excerpt::excerpt(&text, finding.place).unwrap_or_default();
                write!(out, "{line}")?;
            }
        }
    }
    for (file, gap) in pairs.gaps() {
        found += 1;
        tell(&file, &gap, json, out)?;
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
fn findings(file: &Path, text: &str) -> Vec<Finding> {
    let format = text.lines().find_map(|line| line.strip_prefix("format:"));
    let read = match format.map(str::trim) {
        Some(format) if format.starts_with("hames-rig") => Rig::read(text).map(drop),
        Some(format) if format.starts_with("hames-barn") => barn(file, text),
        Some(format) if format.starts_with("hames-steps") => Err(Shared::faults(text)),
        _ => return lint_together(text, &shared_beside(file), &Policies::default()),
    };
    let faults = read.err().unwrap_or_default();
    faults
        .into_iter()
        .map(|fault: Fault| fault.into())
        .collect()
}

/// The settings themselves, then their limits against the checklists of the program and those kept
/// beside the file, on the rigs kept there.
fn barn(file: &Path, text: &str) -> Result<(), Vec<Fault>> {
    let settings = Settings::read(text)?;
    let beside = file.parent().unwrap_or(Path::new(""));
    let (lists, mut refused) = held(lists(beside, &settings).0, &settings);
    refused.extend(no_stricter(&Stock {
        rigs: rigs_kept(beside),
        checklists: lists,
        settings,
        ..Stock::default()
    }));
    if refused.is_empty() {
        Ok(())
    } else {
        Err(refused)
    }
}

/// Checklists and rigs of one call: each list is laid on each rig of its kind.
#[derive(Default)]
struct Pairs {
    lists: Vec<(PathBuf, Checklist)>,
    rigs: Vec<Rig>,
}

impl Pairs {
    fn take_in(&mut self, file: &Path, text: &str) {
        if let Ok(rig) = Rig::read(text) {
            self.rigs.push(rig);
        } else if let Ok(put) = put_together(text, &shared_beside(file), &Policies::default()) {
            self.lists.push((file.to_owned(), put.checklist));
        }
    }

    /// What keeps a list from being walked with a rig.
    fn gaps(self) -> Vec<(PathBuf, Finding)> {
        let mut gaps = Vec::new();
        for (file, list) in &self.lists {
            let own_kind = |rig: &&Rig| list.rigs.contains(&rig.kind());
            for rig in self.rigs.iter().filter(own_kind) {
                let found = Plan::lay(list.clone(), rig.clone())
                    .err()
                    .unwrap_or_default();
                let told = |gap: &Gap| (file.clone(), Finding::of_gap(gap, &rig.name));
                gaps.extend(found.iter().map(told));
            }
        }
        gaps
    }
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
