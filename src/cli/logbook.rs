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
mod sketch;
mod steps;
mod table;
mod trace;
mod trends;
mod unknown;

pub(in crate::cli) use closing::anew;
pub(in crate::cli) use shelf::name;

use crate::cli::args::{LogbookCommand, LookArgs};
use crate::cli::clerk::Trouble;
use crate::cli::logbook::shelf::Failed;
use crate::cli::logbook::table::Form;
use crate::cli::plan::{Look, Way};
use crate::cli::whose::Whose;
use crate::cli::{Status, year};
use std::convert::Infallible;
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
    /// The folder in which the year of the invented barn lies, or is made first, where that is what
    /// is looked at.
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
            | LogbookCommand::Sketch { .. }
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

    /// The same of the year of the invented barn, below this folder for data of programs; nothing
    /// of it where paths were named.
    pub(super) fn of_the_year(
        what: &LogbookCommand,
        with: (Look, Option<PathBuf>),
        data: PathBuf,
    ) -> Self {
        let year = data.join(year::FOLDER);
        let Ok(about) = Self::of(what, with, || Ok::<_, Infallible>(year.clone()));
        let is_of_it = about.places.contains(&year);
        Self {
            year_in: is_of_it.then_some(data),
            ..about
        }
    }

    /// Makes the year, where that is what is looked at and it is not there. A screen makes it once
    /// it is shown.
    fn make_the_year(&self) -> Result<(), Trouble> {
        match (&self.year_in, &self.what) {
            (Some(_), LogbookCommand::Look(asked)) if self.is_on_screen(asked) => Ok(()),
            (Some(data), _) => year::at_hand(data).map(drop),
            (None, _) => Ok(()),
        }
    }

    /// Whether trips are looked over on the screen.
    fn is_on_screen(&self, asked: &LookArgs) -> bool {
        self.look.way == Way::Screens && !asked.json
    }

    /// The one logbook it is asked of, where no paths can be named.
    pub(super) fn place(&self) -> &Path {
        self.places.first().map_or(Path::new("."), PathBuf::as_path)
    }
}

pub(super) fn logbook(
    about: &AboutLogbook,
    whose: &Whose,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let done = about.make_the_year().map_err(Failed::from);
    match done.and_then(|()| asked(about, whose, (out, err))) {
        Ok(status) => Ok(status),
        Err(Failed::Output(error)) => Err(error),
        Err(Failed::Said(status, sentence)) => {
            writeln!(err, "{sentence}")?;
            Ok(status)
        }
    }
}

/// Above a text about the year of the invented barn: that it is invented.
fn demo_line(about: &AboutLogbook, out: &mut dyn Write) -> io::Result<()> {
    if about.year_in.is_some() {
        writeln!(
            out,
            "DEMO. The year of an invented barn: nobody in it lives.\n"
        )?;
    }
    Ok(())
}

/// Does what is asked of logbooks that are there.
fn asked(
    about: &AboutLogbook,
    whose: &Whose,
    (out, err): (&mut dyn Write, &mut dyn Write),
) -> Result<Status, Failed> {
    match &about.what {
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
        LogbookCommand::Sketch { trip, step } => {
            sketch::sketch((trip, step.as_deref()), about.place(), out, err)
        }
        LogbookCommand::Report { of } => report::report(of, about, out),
        LogbookCommand::Questions { json } => questions::ask(about, *json, out),
        LogbookCommand::Merge { folder, look, json } => {
            merge::told(about.place(), folder, (*look, *json), out)
        }
        LogbookCommand::Manager(what) => manager::act(about, what, out),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cli::args::Args;
    use crate::cli::plan::{Meant, meant};
    use crate::cli::surroundings::Surroundings;
    use clap::Parser;

    fn about(asked: &str) -> AboutLogbook {
        let line = format!("hames logbook --demo {asked}");
        let args = Args::try_parse_from(line.split_whitespace()).unwrap();
        let home = Surroundings {
            data_home: Some(PathBuf::from("/home/wren/.local/share")),
            ..Surroundings::default()
        };
        match meant(&args, &home).unwrap() {
            Meant::Logbook(about) => about,
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn the_demo_is_the_year_whatever_is_asked_and_folders_that_are_named_are_looked_at() {
        let data = PathBuf::from("/home/wren/.local/share/hames");
        for asked in [
            "",
            "show 1",
            "questions",
            "defects",
            "countersign 1",
            "table trips",
        ] {
            let about = about(asked);
            assert_eq!(about.places, [data.join("demo-year")], "{asked}");
            assert_eq!(about.year_in.as_ref(), Some(&data), "{asked}");
        }
        let named = about("trends /b");
        assert_eq!(
            (named.places, named.year_in),
            (vec![PathBuf::from("/b")], None)
        );
    }
}
