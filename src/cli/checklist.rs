//! `hames checklist`: list them, start one, put one together, see what changed, approve it.

mod list;
mod new;

use crate::checklist::{LIST_FILE, STEPS_FILE, shipped_by_default};
use crate::cli::args::{ChecklistCommand, SchemaOf};
use crate::cli::clerk::{Offer, Stock};
use crate::cli::plan::{Barn, Look, Named, named};
use crate::cli::schema::schema;
use crate::cli::supply::{self, NotFound};
use crate::cli::{Status, sitting};
use std::io::{self, Write};
use std::path::PathBuf;

/// What is wanted of checklists.
#[derive(Clone, Debug, PartialEq)]
pub struct AboutLists {
    /// What is to be done.
    pub what: ListsDo,
    /// The logbook whose checklists are known by their ids, where there is a folder for one.
    pub barn: Option<Barn>,
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
            ChecklistCommand::Schema { of } => Self::Schema(*of),
        }
    }
}

pub(super) fn checklist(
    about: &AboutLists,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    match &about.what {
        ListsDo::List(json) => with_stock(about, err, |stock| list::list(&stock, *json, out)),
        ListsDo::Example => print(example(), out),
        ListsDo::New(file) => new::new(file, out, err),
        ListsDo::Whole(wanted) => whole(about, wanted, out, err),
        ListsDo::Schema(of) => {
            let (file, format) = match of {
                SchemaOf::Checklist => (&LIST_FILE, "hames-checklist/1"),
                SchemaOf::Steps => (&STEPS_FILE, "hames-steps/1"),
            };
            print(&schema(file, format), out)
        }
    }
}

fn print(text: &str, out: &mut dyn Write) -> io::Result<Status> {
    write!(out, "{text}").map(|()| Status::Fine)
}

/// The checklist most barns begin with, put together.
fn example() -> &'static str {
    let mut shipped = shipped_by_default().iter();
    let example = shipped.find(|put| put.checklist.id == "hitch-bumper");
    example.map_or("", |put| put.text.as_str())
}

fn whole(
    about: &AboutLists,
    wanted: &Named,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    match found(about, wanted) {
        Ok(offer) => print(&offer.text, out),
        Err(NotHere::Named(not)) => sitting::tell(&not, err),
        Err(NotHere::Barn(sentence)) => {
            writeln!(err, "{sentence}")?;
            Ok(Status::Store)
        }
    }
}

/// Why a checklist is not here.
enum NotHere {
    Named(NotFound),
    Barn(String),
}

/// The checklist that is named, among those on offer or in its file.
fn found(
    about: &AboutLists,
    wanted: &Named,
) -> Result<Offer<crate::checklist::Checklist>, NotHere> {
    let known = stock(about).map_err(NotHere::Barn)?.checklists;
    supply::checklist(wanted, known).map_err(NotHere::Named)
}

/// What the barn offers; where there is no folder for one, what comes with the program.
fn stock(about: &AboutLists) -> Result<Stock, String> {
    match &about.barn {
        Some(barn) => sitting::place(barn).map(|place| supply::all(&place)),
        None => Ok(Stock::shipped()),
    }
}

fn with_stock(
    about: &AboutLists,
    err: &mut dyn Write,
    act: impl FnOnce(Stock) -> io::Result<Status>,
) -> io::Result<Status> {
    match stock(about) {
        Ok(stock) => act(stock),
        Err(sentence) => {
            writeln!(err, "{sentence}")?;
            Ok(Status::Store)
        }
    }
}
