//! `hames logbook`: what the records of a whole barn come to. One file a subcommand.

mod assign;
mod closing;
mod countersign;
mod defects;
mod export;
mod gather;
mod glances;
mod joining;
mod known;
mod look;
mod manager;
pub mod merge;
mod people;
mod prune;
mod questions;
mod receipt;
mod report;
mod shelf;
mod show;
mod steps;
mod table;
mod trace;
mod trends;

pub(in crate::cli) use closing::anew;
pub(in crate::cli) use shelf::name;

use crate::cli::Status;
use crate::cli::args::LogbookCommand;
use crate::cli::logbook::shelf::Failed;
use crate::cli::logbook::table::Form;
use crate::cli::plan::Look;
use crate::cli::whose::Whose;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// What is asked of which logbook.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AboutLogbook {
    /// The folders it is asked of: the logbook, or the paths that were named.
    pub places: Vec<PathBuf>,
    /// What is asked.
    pub what: LogbookCommand,
    /// How it looks.
    pub look: Look,
    /// The socket of the ssh-agent.
    pub agent: Option<PathBuf>,
    /// Where the invented year lies, or is made first, when that is what is looked over.
    pub year_in: Option<PathBuf>,
}

impl AboutLogbook {
    /// The paths that were named, else the logbook in this place.
    pub(super) fn of<E>(
        what: &LogbookCommand,
        (look, agent): (Look, Option<PathBuf>),
        place: impl FnOnce() -> Result<PathBuf, E>,
    ) -> Result<Self, E> {
        let named = match what {
            LogbookCommand::Receipt { paths, .. } => paths.clone(),
            LogbookCommand::Trends(asked) => asked.paths.clone(),
            LogbookCommand::Look(_)
            | LogbookCommand::Steps(_)
            | LogbookCommand::People(_)
            | LogbookCommand::Defects(_)
            | LogbookCommand::Show { .. }
            | LogbookCommand::Questions { .. }
            | LogbookCommand::Report { .. }
            | LogbookCommand::Trace { .. }
            | LogbookCommand::Table { .. }
            | LogbookCommand::Export { .. }
            | LogbookCommand::Incident { .. }
            | LogbookCommand::Merge { .. }
            | LogbookCommand::Manager(_) => Vec::new(),
        };
        Ok(Self {
            places: if named.is_empty() {
                vec![place()?]
            } else {
                named
            },
            what: what.clone(),
            look,
            agent,
            year_in: None,
        })
    }

    /// The one logbook it is asked of, where no paths can be named.
    fn place(&self) -> &Path {
        self.places.first().map_or(Path::new("."), PathBuf::as_path)
    }
}

pub(super) fn logbook(
    about: &AboutLogbook,
    whose: &Whose,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let done = match &about.what {
        LogbookCommand::Receipt { code, json, .. } => {
            receipt::receipt(code, &about.places, *json, out)
        }
        LogbookCommand::Trace {
            instrument,
            rig,
            since,
            error,
            json,
        } => {
            let asked = trace::Asked {
                instrument,
                rig: rig.as_deref(),
                since: *since,
                error: error.as_ref(),
                json: *json,
            };
            trace::trace(&asked, &about.places, out)
        }
        LogbookCommand::Export { to, tar } => {
            let asked = export::Asked {
                logbook: about.place(),
                to,
                tar: *tar,
            };
            export::export(&asked, out, err)
        }
        LogbookCommand::Incident { trip, to } => export::incident(trip, to, about, out),
        LogbookCommand::Table { of, json, .. } => {
            let form = if *json { Form::Json } else { Form::Csv };
            table::table(*of, form, &about.places, out)
        }
        LogbookCommand::Look(asked) => look::look(asked, (about, whose), out, err),
        LogbookCommand::Defects(asked) => defects::defects(asked, about, out, err),
        LogbookCommand::Steps(asked) => steps::steps(asked, about, out),
        LogbookCommand::People(asked) => people::people(asked, about, out),
        LogbookCommand::Trends(asked) => trends::trends(asked, about, out),
        LogbookCommand::Show { trip, json } => show::show(trip, about.place(), *json, out),
        LogbookCommand::Report { of } => report::report(of, about, out),
        LogbookCommand::Questions { json } => questions::ask(&about.places, *json, out),
        LogbookCommand::Merge { folder, look, json } => {
            merge::told(about.place(), folder, (*look, *json), out)
        }
        LogbookCommand::Manager(what) => manager::act(about, what, out),
    };
    match done {
        Ok(status) => Ok(status),
        Err(Failed::Output(error)) => Err(error),
        Err(Failed::Said(status, sentence)) => {
            writeln!(err, "{sentence}")?;
            Ok(status)
        }
    }
}
