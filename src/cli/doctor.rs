//! `hames doctor`: whether the laptop and the logbook are such that a walk can be relied on.
//!
//! It looks and tells; the one thing it writes is a file to see whether the disk keeps it, and
//! that is removed again.

mod check;
mod clock;
mod disk;
mod drills;
mod keys;
mod left;
mod next;
mod records;
mod roster;
mod shared;
mod tree;

use crate::cli::Status;
use crate::cli::clerk::{Books, Clerk, Place, Stock, is_founded};
use crate::cli::doctor::check::{Check, Stands};
use crate::record::{Seal, Wall};
use crate::store::{Local, MOST_FILE_BYTES};
use crate::world::{Agent, Machine, World};
use chrono::{DateTime, FixedOffset};
use serde::Serialize;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// What is looked at, and how it is told.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AboutDoctor {
    /// The logbook.
    pub place: PathBuf,
    /// Whether JSON is written.
    pub json: bool,
    /// Whether nothing is written to see whether it stays.
    pub read_only: bool,
    /// The socket of the ssh-agent.
    pub agent: Option<PathBuf>,
}

/// One check as JSON.
#[derive(Serialize)]
struct Line<'a> {
    schema: &'static str,
    of: &'a str,
    stands: &'static str,
    told: &'a str,
}

pub(super) fn doctor(about: &AboutDoctor, out: &mut dyn Write) -> io::Result<Status> {
    let checks = look(about);
    for check in &checks {
        if about.json {
            let line = Line {
                schema: "hames-doctor/1",
                of: check.of,
                stands: check.stands.word(),
                told: &check.told,
            };
            serde_json::to_writer(&mut *out, &line)?;
            writeln!(out)?;
        } else {
            writeln!(out, "{check}.")?;
        }
    }
    let wrong = checks.iter().any(|check| check.stands == Stands::Wrong);
    Ok(if wrong {
        Status::Findings
    } else {
        Status::Fine
    })
}

fn look(about: &AboutDoctor) -> Vec<Check> {
    let root = about.place.as_path();
    let now = Machine::this().now();
    let books = match is_founded(&Local, root) {
        Ok(true) => Books::open(&Local, root),
        Ok(false) => {
            let mut checks = vec![Check::look(
                "logbook",
                format!(
                    "there is none in {}. The first hames walk makes one; hames --demo needs none",
                    root.display()
                ),
            )];
            checks.extend(clock::clock(&now, None));
            return checks;
        }
        Err(trouble) => Err(trouble),
    };
    let books = match books {
        Ok(books) => books,
        Err(trouble) => return vec![Check::wrong("logbook", trouble.to_string())],
    };
    let place = Place {
        root: root.to_owned(),
        mode: books.mode(),
    };
    let agent = about.agent.clone().map(Agent::at);
    let clerk = Clerk::new(Local, Machine::this(), place, Stock::default()).with_agent(agent);
    let names = tree::names(root);
    let mut checks = vec![Check::ok(
        "logbook",
        format!("{}, for {} trips", root.display(), books.mode()),
    )];
    checks.extend(keys::keys(&books, &clerk));
    checks.extend(roster::roster(&books));
    checks.extend(records::records(&books, &clerk, &now));
    checks.extend(drills::drills(&books));
    checks.extend(disk::disk(root, about.read_only));
    checks.extend(clock::clock(&now, newest(&books)));
    checks.extend(shared::shared(root, &names));
    checks.extend(left::left(&books, &clerk, &names));
    checks
}

/// The newest time that was signed in the logbook: of a seal, or of a statement.
fn newest(books: &Books<Local>) -> Option<DateTime<FixedOffset>> {
    let trips = books.trips().unwrap_or_default().into_iter();
    let seals = trips.filter_map(|(_, folder)| sealed_at(&folder.seal()));
    let statements = books.statements().unwrap_or_default();
    let stated = statements.stated().iter().map(|one| one.statement().wall);
    seals.chain(stated).map(|wall| wall.moment()).max()
}

fn sealed_at(seal: &Path) -> Option<Wall> {
    use crate::store::Disk;
    let bytes = Local.read(seal, MOST_FILE_BYTES).ok()?;
    Seal::read(&bytes).ok().map(|seal| seal.wall)
}
