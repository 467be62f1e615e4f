//! The command line: what was typed becomes what is meant, and what is meant is done.
//!
//! One file a subcommand. This is the one layer that reads the environment, and nothing it reads
//! there can change a clock, a random number or who signs.

mod amount;
mod args;
mod barn;
mod checklist;
pub mod clerk;
mod command;
mod crew;
mod doctor;
mod drill;
mod due;
mod examples;
pub mod figure;
mod lint;
mod logbook;
mod lot;
mod plan;
mod rig;
mod schema;
mod screens;
mod setup;
mod sitting;
mod status;
mod supply;
mod surroundings;
mod verify;
mod weigh;
mod whose;
pub mod year;

pub use args::Args;
pub use checklist::{AboutLists, ListsDo};
pub use crew::AboutCrew;
pub use doctor::AboutDoctor;
pub use logbook::{AboutLogbook, merge};
pub use plan::{Meant, NotMeant, Sitting, meant};
pub use status::Status;
pub use surroundings::Surroundings;
pub use verify::verify;

use crate::cli::whose::Whose;
use clap::Parser;
use std::ffi::OsString;
use std::io::{self, Write};
use std::process::ExitCode;

/// Runs the program: arguments in, exit status out.
pub fn run(arguments: impl IntoIterator<Item = OsString>) -> ExitCode {
    let (mut out, mut err) = (io::stdout(), io::stderr());
    let args = match Args::try_parse_from(arguments) {
        Ok(args) => args,
        // Help and version are asked for; anything else is a slip of the fingers.
        Err(slip) => {
            drop(slip.print());
            return if slip.use_stderr() {
                Status::Usage.into()
            } else {
                Status::Fine.into()
            };
        }
    };
    let surroundings = Surroundings::found();
    let done = match meant(&args, &surroundings) {
        Ok(meant) => {
            let whose = Whose::of(&args, &meant, &surroundings);
            told(meant, &whose, &mut out, &mut err)
        }
        Err(not) => writeln!(err, "{not}").map(|()| Status::Usage),
    };
    let flushed = done.and_then(|status| out.flush().map(|()| status));
    match flushed {
        Ok(status) => status.into(),
        // Whoever read the output has read enough.
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Status::Fine.into(),
        Err(error) => {
            drop(writeln!(err, "The output cannot be written: {error}."));
            Status::Store.into()
        }
    }
}

/// Does it, and names the logbook in every command that is printed.
fn told(
    meant: Meant,
    whose: &Whose,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let mut err = whose.through(err);
    let status = if meant.is_sentences() {
        let mut out = whose.through(out);
        let status = done(meant, whose, &mut out, &mut err)?;
        out.flush()?;
        status
    } else {
        done(meant, whose, out, &mut err)?
    };
    err.flush()?;
    Ok(status)
}

fn done(
    meant: Meant,
    whose: &Whose,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    match meant {
        Meant::Sit(sitting) => sitting::sit(&sitting, whose, out, err),
        Meant::Verify { paths, crews, json } => verify(&paths, &crews, json, out, err),
        Meant::Lint { files, json } => lint::lint(&files, json, out, err),
        Meant::Explain(rule) => lint::explain(&rule, out, err),
        Meant::Barn { barn, json } => barn::barn(barn.as_ref(), json, out, err),
        Meant::Crew(about) => crew::crew(&about, out, err),
        Meant::Doctor(about) => doctor::doctor(&about, out),
        Meant::Logbook(about) => logbook::logbook(&about, whose, out, err),
        Meant::Checklist(about) => checklist::checklist(&about, out, err),
        Meant::Describe(file, look) => rig::describe(&file, look, out, err),
        Meant::Due(about) => due::told(&about, out, err),
        Meant::Rig(about) => rig::rig(&about, out, err),
        Meant::Page(name) => figure::page(name.as_deref(), out, err),
        Meant::Drill(about) => drill::drill(&about, whose, out, err),
        Meant::Weigh(about) => weigh::weigh(&about, &mut io::stdin().lock(), out, err),
        Meant::Figure(name) => figure::figure(name.as_deref(), &mut io::stdin(), out, err),
        Meant::Print(text) => write!(out, "{text}").map(|()| Status::Fine),
    }
}
