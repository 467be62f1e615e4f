//! `hames figure NAME`: one formula by name, its inputs as JSON, its outputs as JSON; with `--page`,
//! what there is to know of it.

mod list;
mod page;

use crate::cli::Status;
use crate::mechanics::{NoNumber, Page};
use serde::Serialize;
use serde::de::DeserializeOwned;
use std::fmt;
use std::io::{self, Read, Write};

/// Longest input taken. A rig is a few thousand bytes; a pasted file is not one.
const LONGEST: u64 = 1 << 20;

/// One formula behind the door.
#[derive(Clone, Copy, Debug)]
struct Formula {
    page: &'static Page,
    reckon: fn(&str) -> Result<serde_json::Value, NotReckoned>,
}

/// Why a formula was not reckoned.
#[derive(Debug)]
pub enum NotReckoned {
    /// No formula has this name; perhaps the other was meant.
    NoFormula(String, Option<&'static str>),
    /// The inputs cannot be read.
    Inputs(serde_json::Error),
    /// The formula has no number for them.
    NoNumber(NoNumber),
}

/// Reckons the formula with this name from inputs as JSON.
///
/// # Errors
/// [`NotReckoned`], whose text says what is wrong and what to do.
pub fn reckon(name: &str, inputs: &str) -> Result<serde_json::Value, NotReckoned> {
    (named(name)?.reckon)(inputs)
}

fn named(name: &str) -> Result<&'static Formula, NotReckoned> {
    list::FORMULAS
        .iter()
        .find(|formula| formula.page.name == name)
        .ok_or_else(|| {
            let names = list::FORMULAS.iter().map(|formula| formula.page.name);
            NotReckoned::NoFormula(name.to_owned(), crate::document::nearest(name, names))
        })
}

/// The pages of all formulas, in the order of the list.
pub fn pages() -> impl Iterator<Item = &'static Page> {
    list::FORMULAS.iter().map(|formula| formula.page)
}

/// Prints the page of one formula; of all where none is named.
pub(super) fn page(
    name: Option<&str>,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let text = match name.map(named).transpose() {
        Ok(Some(formula)) => page::one(formula.page),
        Ok(None) => page::all(pages()),
        Err(not) => return writeln!(err, "{not}").map(|()| Status::Usage),
    };
    write!(out, "{text}").map(|()| Status::Fine)
}

/// Reads inputs, reckons and prints; or lists the names.
pub(super) fn figure(
    name: Option<&str>,
    from: &mut dyn Read,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let Some(name) = name else {
        for page in pages() {
            writeln!(out, "{:<28} {}", page.name, page.title)?;
        }
        return Ok(Status::Fine);
    };
    let mut inputs = String::new();
    from.take(LONGEST).read_to_string(&mut inputs)?;
    match reckon(name, &inputs) {
        Ok(outputs) => writeln!(out, "{outputs:#}").map(|()| Status::Fine),
        Err(not) => writeln!(err, "{not}").map(|()| Status::Usage),
    }
}

/// Reads the inputs of a formula, reckons it and writes its outputs.
fn through<I: DeserializeOwned, O: Serialize>(
    inputs: &str,
    formula: impl Fn(&I) -> Result<O, NoNumber>,
) -> Result<serde_json::Value, NotReckoned> {
    let inputs: I = serde_json::from_str(inputs).map_err(NotReckoned::Inputs)?;
    let outputs = formula(&inputs).map_err(NotReckoned::NoNumber)?;
    serde_json::to_value(outputs).map_err(NotReckoned::Inputs)
}

impl fmt::Display for NotReckoned {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoFormula(name, meant) => {
                write!(f, "No formula is called {name}.")?;
                match meant {
                    Some(meant) => write!(f, " Did you mean {meant}?"),
                    None => f.write_str(" `hames figure` lists them."),
                }
            }
            Self::Inputs(fault) => write!(f, "The inputs cannot be read: {fault}."),
            Self::NoNumber(no) => write!(f, "No number: {no}"),
        }
    }
}
