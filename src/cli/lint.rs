//! `hames lint`: every fault of checklists, rig files, a barn's settings, scenarios and sights, with
//! its place and the line it stands in.

mod drills;
mod excerpt;
mod explain;
mod said;

pub(super) use explain::explain;

use crate::barn::{Policies, Settings};
use crate::checklist::{Checklist, Finding, Gap, Plan, Shared, lint_together, put_together};
use crate::cli::Status;
use crate::cli::clerk::Stock;
use crate::cli::command::quoted;
use crate::cli::supply::{held, lists, no_stricter, rigs_kept, shared_beside, text};
use crate::document::Fault;
use crate::drill::Offered;
use crate::rig::Rig;
use drills::Beside;
use said::{Said, said};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

pub(super) fn lint(
    files: &[PathBuf],
    json: bool,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let mut unread = false;
    let mut read = Vec::new();
    for file in files {
        match text(file) {
            Ok(text) => read.push((file.as_path(), text)),
            Err(fault) => {
                writeln!(err, "{fault}")?;
                unread = true;
            }
        }
    }
    let (mut found, mut pairs) = (0_usize, Pairs::default());
    let mut beside = Beside::of(&read);
    for (file, text) in &read {
        let findings = findings(file, text, &mut beside);
        pairs.take_in(file, text);
        found += findings.len();
        tell(&findings, (file, text), json, out)?;
    }
    for (file, gap) in pairs.gaps() {
        found += 1;
        Said::from(gap).tell(&file, json, out)?;
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

/// Tells what was found in a file, each with the line it stands in.
fn tell(
    findings: &[Said],
    (file, text): (&Path, &str),
    json: bool,
    out: &mut dyn Write,
) -> io::Result<()> {
    for (at, finding) in findings.iter().enumerate() {
        finding.tell(file, json, out)?;
        // Findings at one place share its line.
        let next = findings.get(at + 1).map(|next| next.place);
        if !json && next != Some(finding.place) {
            let line = excerpt::excerpt(text, finding.place).unwrap_or_default();
            write!(out, "{line}")?;
        }
    }
    Ok(())
}

/// The scenarios of a file, to be played. Where they cannot be, every fault is told, and how the
/// program ends.
pub(super) fn scenarios(file: &Path, err: &mut dyn Write) -> io::Result<Result<Offered, Status>> {
    let text = match text(file) {
        Ok(text) => text,
        Err(fault) => {
            writeln!(err, "{fault}")?;
            return Ok(Err(Status::Store));
        }
    };
    let format = format_of(&text);
    if !format.is_empty() && kind(&text) != Kind::Scenarios {
        writeln!(
            err,
            "{} says format: {}, and is no file of scenarios. Play one that says format: \
             hames-drill/1. See what belongs there: hames checklist schema scenarios",
            file.display(),
            format.escape_debug()
        )?;
        return Ok(Err(Status::Findings));
    }
    match Beside::of(&[]).offered(file, &text) {
        Ok(offered) => Ok(Ok(offered)),
        Err(found) => {
            tell(&said(found), (file, &text), false, err)?;
            writeln!(
                err,
                "Nothing is begun: a scenario is played fairly or not at all. Mend the file, then \
                 look again: hames lint {}",
                quoted(file)
            )?;
            Ok(Err(Status::Findings))
        }
    }
}

/// What kind of file a text says it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    List,
    Steps,
    Rig,
    Barn,
    Scenarios,
    Sights,
}

/// A file names its format; what names none, or one not known, is read as a checklist.
fn kind(text: &str) -> Kind {
    const KINDS: [(&str, Kind); 5] = [
        ("hames-rig", Kind::Rig),
        ("hames-barn", Kind::Barn),
        ("hames-steps", Kind::Steps),
        ("hames-drill", Kind::Scenarios),
        ("hames-sights", Kind::Sights),
    ];
    let format = format_of(text);
    let known = KINDS.iter().find(|(begins, _)| format.starts_with(begins));
    known.map_or(Kind::List, |(_, kind)| *kind)
}

/// The format a text says it is in; nothing where it says none.
fn format_of(text: &str) -> &str {
    let format = text.lines().find_map(|line| line.strip_prefix("format:"));
    format.map(str::trim).unwrap_or_default()
}

fn findings(file: &Path, text: &str, beside: &mut Beside) -> Vec<Said> {
    let faults = match kind(text) {
        Kind::Rig => Rig::read(text).err(),
        Kind::Barn => barn(file, text).err(),
        Kind::Steps => Some(Shared::faults(text)),
        Kind::Scenarios => return said(beside.scenarios(file, text)),
        Kind::Sights => return said(beside.sights(file, text)),
        Kind::List => {
            let found = lint_together(text, &shared_beside(file), &Policies::default());
            return said(found);
        }
    };
    let faults = faults.unwrap_or_default().into_iter();
    said(faults.map(Finding::from).collect())
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
