//! `hames checklist compare`: what changed, the gravest first.

use crate::checklist::{At, Change, Checklist, Gravity, What, changes};
use crate::cli::Status;
use crate::cli::checklist::{Desk, Not};
use crate::cli::plan::Named;
use crate::desk::Approval;
use serde::Serialize;
use std::io::{self, Write};

/// One change as JSON.
#[derive(Serialize)]
struct Told<'a> {
    schema: &'static str,
    weight: &'static str,
    part: &'static str,
    id: Option<&'a str>,
    change: &'static str,
    key: Option<&'a str>,
    before: Option<&'a str>,
    after: Option<&'a str>,
}

pub(super) fn compare(
    desk: &Desk,
    wanted: &Named,
    other: Option<&Named>,
    json: bool,
    out: &mut dyn Write,
) -> Result<Status, Not> {
    let after = desk.found(wanted)?.read;
    let (before, whose) = match other {
        Some(other) => {
            let offer = desk.found(other)?;
            let stands = desk.standing(&offer);
            (offer.read, stands)
        }
        None => match desk.before(&after.id) {
            Some(before) => (before.checklist, before.standing),
            None => return Err(Not::Meant(nothing_to_compare(&after))),
        },
    };
    let found = changes(&before, &after);
    if json {
        for change in &found {
            serde_json::to_writer(&mut *out, &told(change)).map_err(io::Error::from)?;
            writeln!(out)?;
        }
        return Ok(Status::Fine);
    }
    writeln!(out, "{}", against(&before, &whose))?;
    report(&found, out)?;
    Ok(Status::Fine)
}

/// What the changes are held against, as a line.
pub(super) fn against(before: &Checklist, whose: &Approval) -> String {
    format!(
        "Against {}, revision {} ({whose}):",
        before.id, before.revision
    )
}

/// The changes under headings, the gravest first.
pub(super) fn report(found: &[Change], out: &mut dyn Write) -> io::Result<()> {
    if found.is_empty() {
        return writeln!(out, "Nothing that is asked or judged has changed.");
    }
    let mut heading = None;
    for change in found {
        if heading != Some(change.weight) {
            heading = Some(change.weight);
            writeln!(out, "{}:", change.weight.heading())?;
        }
        writeln!(out, "  {change}")?;
    }
    Ok(())
}

fn nothing_to_compare(list: &Checklist) -> String {
    format!(
        "No checklist “{}” is approved here, and none of that id comes with the program. Name \
         what to compare it with: hames checklist compare FILE OTHER",
        list.id
    )
}

fn told(change: &Change) -> Told<'_> {
    let (part, id) = match &change.at {
        At::List => ("list", None),
        At::Section(id) => ("section", Some(id.as_str())),
        At::Step(id) => ("step", Some(id.as_str())),
        At::Branch(id) => ("branch", Some(id.as_str())),
    };
    let (kind, key, before, after) = match &change.what {
        What::New => ("new", None, None, None),
        What::Gone => ("gone", None, None, None),
        What::Moved(behind) => ("moved", None, None, behind.as_deref()),
        What::Added { part } => ("added", Some(part.as_str()), None, None),
        What::Removed { part } => ("removed", Some(part.as_str()), None, None),
        What::Changed {
            part,
            before,
            after,
        } => (
            "changed",
            Some(part.as_str()),
            Some(before.as_str()),
            Some(after.as_str()),
        ),
    };
    Told {
        schema: "hames-changes/1",
        weight: match change.weight {
            Gravity::CriticalGone => "critical-gone",
            Gravity::Looser => "looser",
            Gravity::Other => "other",
            Gravity::Words => "words",
        },
        part,
        id,
        change: kind,
        key,
        before,
        after,
    }
}
