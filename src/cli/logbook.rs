//! `hames logbook`: what the records of a whole barn come to. One file a subcommand.

mod receipt;
mod shelf;

use crate::cli::Status;
use crate::cli::args::LogbookCommand;
use std::io::{self, Write};
use std::path::PathBuf;

/// What is asked of which logbook.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AboutLogbook {
    /// The folders it is asked of: the logbook, or the paths that were named.
    pub places: Vec<PathBuf>,
    /// What is asked.
    pub what: LogbookCommand,
}

impl AboutLogbook {
    /// The paths that were named, else the logbook in this place.
    pub(super) fn of<E>(
        what: &LogbookCommand,
        place: impl FnOnce() -> Result<PathBuf, E>,
    ) -> Result<Self, E> {
        let named = match what {
            LogbookCommand::Receipt { paths, .. } => paths.clone(),
        };
        Ok(Self {
            places: if named.is_empty() {
                vec![place()?]
            } else {
                named
            },
            what: what.clone(),
        })
    }
}

pub(super) fn logbook(
    about: &AboutLogbook,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let done = match &about.what {
        LogbookCommand::Receipt { code, json, .. } => {
            receipt::receipt(code, &about.places, *json, out)
        }
    };
    match done {
        Ok(told) => told,
        Err(stopped) => {
            writeln!(err, "{}", stopped.sentence)?;
            Ok(stopped.status)
        }
    }
}
