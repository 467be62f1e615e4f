//! `hames logbook report`: a trip, the history of a rig or a month, to hand on.

mod drawn;
pub(super) mod json;
pub(super) mod made;
mod stood;
pub(super) mod whole;

use crate::cli::Status;
use crate::cli::args::{ReportCommand, ReportForm};
use crate::cli::logbook::AboutLogbook;
use crate::cli::logbook::shelf::Failed;
use crate::report::{Report, html, text};
use crate::store::{Local, Mode, write_once};
use made::Reported;
use std::io::{self, Write};
use std::path::Path;

/// Makes the report that is asked for.
pub(super) fn report(
    asked: &ReportCommand,
    about: &AboutLogbook,
    out: &mut dyn Write,
) -> Result<Status, Failed> {
    let place = about.place();
    let made = match asked {
        ReportCommand::Trip { trip, .. } => made::trip(trip, place)?,
        ReportCommand::Rig {
            rig, since, until, ..
        } => made::rig(rig, (*since, *until), place)?,
        ReportCommand::Month { month, .. } => made::month(*month, place)?,
    };
    match made {
        Reported::Made(report, status) => {
            write(&report, asked.form(), out)?;
            Ok(status)
        }
        Reported::Shut(tale, status) => {
            for line in tale.heading.iter().chain(&tale.findings) {
                writeln!(out, "{line}")?;
            }
            writeln!(out, "There is nothing in it that a report could rely on.")?;
            Ok(status)
        }
    }
}

fn write(report: &Report, form: &ReportForm, out: &mut dyn Write) -> Result<(), Failed> {
    if let Some(file) = &form.html {
        write_html(report, file)?;
        let told = file.display().to_string();
        writeln!(
            out,
            "Written to {}. Any browser shows and prints it; it needs no network.",
            crate::text::harmless(&told)
        )?;
    }
    if form.json {
        out.write_all(&json::json(report).map_err(io::Error::from)?)?;
    } else if form.text || form.html.is_none() {
        out.write_all(text(&report.page()).as_bytes())?;
    }
    Ok(())
}

fn write_html(report: &Report, file: &Path) -> Result<(), Failed> {
    let page = html(&report.page());
    Ok(write_once(&Local, file, page.as_bytes(), Mode::Shared)?)
}
