//! `hames barn`: the settings in force, as text or as JSON.

mod json;

use crate::barn::{self, Settings};
use crate::cli::Status;
use crate::cli::plan::Barn;
use crate::cli::sitting::{place, tell};
use crate::cli::supply::{held, lists, settings, settings_file};
use crate::plain::{self, SettingsFrom};
use crate::record::Mode;
use std::io::{self, Write};
use std::path::Path;

pub(super) fn barn(
    barn: Option<&Barn>,
    json: bool,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let place = match barn.map(place).transpose() {
        Ok(place) => place,
        Err(sentence) => {
            writeln!(err, "{sentence}")?;
            return Ok(Status::Store);
        }
    };
    let (settings, from, status) = match place {
        None => (Settings::default(), SettingsFrom::Nowhere, Status::Fine),
        Some(place) if place.mode == Mode::Demo => {
            let demo = Settings::read(barn::DEMO).unwrap_or_default();
            (demo, SettingsFrom::Demo, Status::Fine)
        }
        Some(place) => {
            let file = settings_file(&place.root).display().to_string();
            match settings(&place.root) {
                Ok(Some(read)) => {
                    let status = refused(&place.root, &read, &file, err)?;
                    (read, SettingsFrom::File(file), status)
                }
                Ok(None) => (
                    Settings::default(),
                    SettingsFrom::NoFile(file),
                    Status::Fine,
                ),
                Err(not) => {
                    let status = tell(&not, err)?;
                    (Settings::default(), SettingsFrom::Faulty(file), status)
                }
            }
        }
    };
    if json {
        json::write(&settings, &from, out)?;
    } else {
        write!(out, "{}", plain::barn_report(&settings, &from))?;
    }
    Ok(status)
}

/// Tells each limit that is not in force, with why.
fn refused(
    root: &Path,
    settings: &Settings,
    file: &str,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let (_, refused) = held(lists(root, settings).0, settings);
    for fault in &refused {
        writeln!(err, "{file}:{fault}")?;
    }
    Ok(if refused.is_empty() {
        Status::Fine
    } else {
        Status::Findings
    })
}
