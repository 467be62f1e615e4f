//! `hames checklist`: list them, start one, put one together, see what changed, approve it.

mod approve;
mod compare;
mod list;
mod new;
mod paper;

use crate::checklist::{Checklist, LIST_FILE, STEPS_FILE, Shipped};
use crate::cli::args::{ChecklistCommand, SchemaOf};
use crate::cli::clerk::{Before, Clerk, Offer, Stock, Trouble, is_shipped};
use crate::cli::plan::{Barn, Look, Named, named};
use crate::cli::schema::schema;
use crate::cli::supply::{self, NotFound};
use crate::cli::{Status, sitting};
use crate::desk::Approval;
use crate::drill::{SCENARIOS_FILE, SIGHTS_FILE};
use crate::record::Mode;
use crate::store::Local;
use crate::world::{Agent, Machine};
use std::io::{self, Write};
use std::path::PathBuf;

/// What is wanted of checklists.
#[derive(Clone, Debug, PartialEq)]
pub struct AboutLists {
    /// What is to be done.
    pub what: ListsDo,
    /// The logbook whose checklists are known by their ids, where there is a folder for one.
    pub barn: Option<Barn>,
    /// The socket of the ssh-agent.
    pub agent: Option<PathBuf>,
    /// How it looks.
    pub look: Look,
}

/// What is to be done with checklists.
#[derive(Clone, Debug, PartialEq)]
pub enum ListsDo {
    /// List all on offer, as JSON where so.
    List(bool),
    /// Print one that comes with the program.
    Example,
    /// Write a pattern into this new file.
    New(PathBuf),
    /// Print it put together.
    Whole(Named),
    /// Tell what changed against another, as JSON where so.
    Compare(Named, Option<Named>, bool),
    /// Print it as a sheet for this rig, as a page where so.
    Paper(Named, Option<Named>, bool),
    /// Have a manager sign it: this one, where one is named.
    Approve(Named, Option<String>),
    /// Print the schema of this kind of file.
    Schema(SchemaOf),
}

impl ListsDo {
    pub(super) fn of(command: &ChecklistCommand) -> Self {
        match command {
            ChecklistCommand::List { json } => Self::List(*json),
            ChecklistCommand::Example => Self::Example,
            ChecklistCommand::New { file } => Self::New(file.clone()),
            ChecklistCommand::Whole { checklist } => Self::Whole(named(checklist)),
            ChecklistCommand::Compare {
                checklist,
                other,
                json,
            } => Self::Compare(named(checklist), other.as_deref().map(named), *json),
            ChecklistCommand::Paper {
                checklist,
                rig,
                html,
            } => Self::Paper(named(checklist), rig.as_deref().map(named), *html),
            ChecklistCommand::Approve { checklist, by } => {
                Self::Approve(named(checklist), by.clone())
            }
            ChecklistCommand::Schema { of } => Self::Schema(*of),
        }
    }
}

pub(super) fn checklist(
    about: &AboutLists,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let done = match &about.what {
        ListsDo::Example => return print(example(), out),
        ListsDo::New(file) => return new::new(file, out, err),
        ListsDo::Schema(of) => {
            let (file, format) = match of {
                SchemaOf::Checklist => (&LIST_FILE, "hames-checklist/1"),
                SchemaOf::Steps => (&STEPS_FILE, "hames-steps/1"),
                SchemaOf::Scenarios => (&SCENARIOS_FILE, "hames-drill/1"),
                SchemaOf::Sights => (&SIGHTS_FILE, "hames-sights/1"),
            };
            return print(&schema(file, format), out);
        }
        ListsDo::List(json) => Desk::of(about).and_then(|desk| Ok(list::list(&desk, *json, out)?)),
        ListsDo::Whole(wanted) => Desk::of(about)
            .and_then(|desk| desk.found(wanted))
            .and_then(|offer| Ok(print(&offer.text, out)?)),
        ListsDo::Compare(wanted, other, json) => Desk::of(about)
            .and_then(|desk| compare::compare(&desk, wanted, other.as_ref(), *json, out)),
        ListsDo::Paper(checklist, rig, html) => {
            let wanted = paper::Wanted {
                checklist,
                rig: rig.as_ref(),
                barn: about.barn.as_ref(),
                html: *html,
            };
            Desk::of(about).and_then(|desk| paper::paper(&desk, &wanted, out))
        }
        ListsDo::Approve(wanted, by) => Desk::of(about)
            .and_then(|desk| approve::approve(&desk, wanted, by.as_deref(), about.look, out)),
    };
    match done {
        Ok(status) => Ok(status),
        Err(Not::Found(not)) => sitting::tell(&not, err),
        Err(Not::Store(sentence)) => writeln!(err, "{sentence}").map(|()| Status::Store),
        Err(Not::Refused(trouble)) => writeln!(err, "{trouble}").map(|()| trouble.status()),
        Err(Not::Meant(sentence)) => writeln!(err, "{sentence}").map(|()| Status::Usage),
        Err(Not::Output(error)) => Err(error),
    }
}

/// Why something could not be done.
enum Not {
    /// What was named is not here.
    Found(NotFound),
    /// The disk or the logbook failed.
    Store(String),
    /// The clerk refused it.
    Refused(Trouble),
    /// It was called in a way that means nothing.
    Meant(String),
    /// The output cannot be written.
    Output(io::Error),
}

impl From<io::Error> for Not {
    fn from(error: io::Error) -> Self {
        Self::Output(error)
    }
}

impl From<Trouble> for Not {
    fn from(trouble: Trouble) -> Self {
        Self::Refused(trouble)
    }
}

/// What the barn offers, and who stands behind it.
struct Desk {
    stock: Stock,
    clerk: Option<Clerk<Local>>,
}

impl Desk {
    /// Where there is no folder for a logbook, what comes with the program.
    fn of(about: &AboutLists) -> Result<Self, Not> {
        let place = about.barn.as_ref().map(sitting::place).transpose();
        let place = place.map_err(Not::Store)?;
        let stock = place.as_ref().map_or_else(Stock::shipped, supply::all);
        let agent = about.agent.clone().map(Agent::at);
        let clerk = place.map(|place| {
            Clerk::new(Local, Machine::this(), place, Stock::default()).with_agent(agent)
        });
        Ok(Self { stock, clerk })
    }

    /// The checklist that is named, among those on offer or in its file.
    fn found(&self, wanted: &Named) -> Result<Offer<Checklist>, Not> {
        supply::checklist(wanted, &self.stock).map_err(Not::Found)
    }

    /// Every checklist on offer.
    fn all(&self) -> impl Iterator<Item = Offer<Checklist>> {
        let listed = self.stock.checklists.iter();
        listed.filter_map(|listed| self.stock.whole(listed))
    }

    /// Who stands behind a checklist.
    fn standing(&self, offer: &Offer<Checklist>) -> Approval {
        match &self.clerk {
            Some(clerk) => clerk.standing(offer),
            None if is_shipped(&offer.read.id, offer.text.as_bytes(), Mode::Real) => {
                Approval::Shipped
            }
            None => Approval::Unapproved,
        }
    }

    /// The one of this id that stands approved or comes with the program.
    fn before(&self, id: &str) -> Option<Before> {
        match &self.clerk {
            Some(clerk) => clerk.before(id),
            None => Before::shipped(id),
        }
    }
}

fn print(text: &str, out: &mut dyn Write) -> io::Result<Status> {
    write!(out, "{text}").map(|()| Status::Fine)
}

/// The checklist most barns begin with, put together.
fn example() -> &'static str {
    let example = Shipped::named("hitch-bumper").and_then(Shipped::by_default);
    example.map_or("", |put| put.text.as_str())
}
