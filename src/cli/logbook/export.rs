//! `hames logbook export`: everything of a logbook that somebody else needs to check it, and
//! nothing that is secret.

mod contents;
mod explain;
mod incident;
mod send;

pub(super) use incident::incident;

use crate::cli::Status;
use crate::cli::logbook::shelf::Failed;
use crate::cli::verify;
use crate::record::{Finding, counted};
use crate::store::{Local, Logbook};
use contents::contents;
use send::{Sent, to_archive, to_folder, whole};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// What is to be exported, and where to.
pub(super) struct Asked<'a> {
    pub(super) logbook: &'a Path,
    pub(super) to: &'a Path,
    pub(super) tar: bool,
}

/// Exports.
pub(super) fn export(
    asked: &Asked<'_>,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Result<Status, Failed> {
    let logbook = Logbook::open(Local, asked.logbook)?;
    let all = contents(&logbook)?;
    let sent = if asked.tar {
        to_archive(asked.to, &all.contents, whole(&logbook)?)?
    } else {
        to_folder(asked.to, &all.contents, whole(&logbook)?)?
    };
    Ok(tell(asked, &sent, &all.left_behind, out, err)?)
}

/// What was exported, and what verification finds of it: the very thing that was written, or, of an
/// archive, what lies in it byte for byte.
fn tell(
    asked: &Asked<'_>,
    sent: &Sent,
    left_behind: &[String],
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    for lost in &sent.lost {
        writeln!(out, "not exported: {lost}")?;
    }
    if !left_behind.is_empty() {
        writeln!(out, "left behind: {}", left_behind.join(", "))?;
    }
    if let Some(other) = &sent.other {
        writeln!(
            err,
            "{other} does not hold the bytes that were written. The disk cannot be relied on; export \
             to another one."
        )?;
        return Ok(Status::Store);
    }
    let verified: PathBuf = if asked.tar { asked.logbook } else { asked.to }.to_owned();
    let status = verify(&[verified], &[], false, out, err)?;
    let to = asked.to.display();
    let files = counted(sent.files, "file");
    let status = match status {
        // That nobody has countersigned yet takes nothing from an export.
        Status::Fine | Status::Verified(Finding::Intact | Finding::NotCountersigned) => {
            writeln!(
                out,
                "Exported to {to}: {files}, each read back. Whoever gets it begins with READ-THIS.txt."
            )?;
            Status::Fine
        }
        found => {
            writeln!(
                out,
                "Exported to {to}: {files}, each read back. What is wrong above is wrong in the \
                 logbook too; it was exported as it is, byte for byte. Whoever gets it begins with \
                 READ-THIS.txt."
            )?;
            found
        }
    };
    if sent.lost.is_empty() {
        Ok(status)
    } else {
        Ok(Status::Store)
    }
}
