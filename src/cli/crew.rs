//! `hames crew`: who may sign, and every change of that, signed by a manager. One file a subcommand.

mod add;
mod change;
mod first;
mod list;
mod request;
mod settle;
mod stated;
mod told;

use crate::cli::Status;
use crate::cli::args::{CrewCommand, PersonRole};
use crate::cli::clerk::{Clerk, Place, Stock, Trouble};
use crate::cli::command::reason;
use crate::cli::plan::Look;
use crate::plain::Stop;
use crate::record::{Id, Mode, NotAnId, PrintedName, Role};
use crate::store::Local;
use crate::walk::Words;
use crate::world::{Agent, Machine};
use std::io::{self, Write};
use std::path::PathBuf;

/// What is asked of which crew.
#[derive(Clone, Debug, PartialEq)]
pub struct AboutCrew {
    /// The folder of the logbook.
    pub place: PathBuf,
    /// Whether it is the invented barn.
    pub demo: bool,
    /// What is asked.
    pub what: CrewCommand,
    /// The socket of the ssh-agent.
    pub agent: Option<PathBuf>,
    /// How it looks.
    pub look: Look,
}

/// Why something could not be done, and how the program ends.
struct Not(Status, String);

pub(super) fn crew(
    about: &AboutCrew,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let done = match &about.what {
        CrewCommand::List { all, json } => return list::list(&about.place, *all, *json, out, err),
        CrewCommand::Request {
            name,
            id,
            import,
            to,
        } => {
            let asked = request::Asked {
                name: name.as_deref(),
                id: id.as_deref(),
                import: import.as_deref(),
                to: to.as_deref(),
            };
            request::request(about, &asked, out)
        }
        CrewCommand::Settle { file, by } => {
            settle::settle(about, file.as_deref(), by.by.as_deref(), out)
        }
        other => stated::stated(about, other, out),
    };
    match done {
        Ok(status) => Ok(status),
        Err(Stopped::Not(Not(status, sentence))) => writeln!(err, "{sentence}").map(|()| status),
        Err(Stopped::Stop(Stop::Broken(error))) => Err(error),
        Err(Stopped::Stop(_)) => {
            writeln!(err, "The input has ended. The crew is as it was.").map(|()| Status::Usage)
        }
    }
}

/// How it did not come to its end.
enum Stopped {
    Not(Not),
    Stop(Stop),
}

impl AboutCrew {
    /// Whether JSON is written.
    pub(super) const fn is_json(&self) -> bool {
        matches!(self.what, CrewCommand::List { json: true, .. })
    }

    fn clerk(&self) -> Clerk<Local> {
        let root = self.place.clone();
        let mode = if self.demo { Mode::Demo } else { Mode::Real };
        let stock = Stock::default();
        let clerk = Clerk::new(Local, Machine::this(), Place { root, mode }, stock);
        clerk.with_agent(self.agent.clone().map(Agent::at))
    }
}

fn meant(sentence: impl Into<String>) -> Stopped {
    Stopped::Not(Not(Status::Usage, sentence.into()))
}

fn id(text: &str) -> Result<Id, Stopped> {
    Id::read(text).map_err(|fault| meant(format!("{fault}.")))
}

fn name(text: &str) -> Result<PrintedName, Stopped> {
    PrintedName::read(text).map_err(|fault| meant(format!("{fault}.")))
}

fn words(text: &str) -> Result<Words, Stopped> {
    reason("--why", text).map_err(meant)
}

/// The id named, else the name in small letters.
fn id_of(name: &PrintedName, named: Option<&str>) -> Result<Id, Stopped> {
    let small = name.as_str().to_lowercase().replace(' ', ".");
    let read = named.map_or_else(|| Id::read(&small), Id::read);
    read.map_err(|fault: NotAnId| meant(format!("{fault}. Name one with --id.")))
}

fn roles(typed: &[PersonRole]) -> Vec<Role> {
    let mut roles = Vec::new();
    for role in typed {
        let role = match role {
            PersonRole::Groom => Role::Groom,
            PersonRole::Driver => Role::Driver,
            PersonRole::Manager => Role::Manager,
            PersonRole::Examiner => Role::Examiner,
        };
        if !roles.contains(&role) {
            roles.push(role);
        }
    }
    roles
}

impl From<Trouble> for Stopped {
    fn from(trouble: Trouble) -> Self {
        Self::Not(Not(trouble.status(), trouble.to_string()))
    }
}

impl From<Stop> for Stopped {
    fn from(stop: Stop) -> Self {
        Self::Stop(stop)
    }
}

impl From<io::Error> for Stopped {
    fn from(error: io::Error) -> Self {
        Self::Stop(Stop::Broken(error))
    }
}
