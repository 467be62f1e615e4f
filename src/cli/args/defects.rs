//! `hames logbook defects` and `assign` as typed.

use crate::cli::args::logbook::day;
use crate::units::{Dimension, Typed, Unit};
use chrono::NaiveDate;

/// Which defects, and in which form.
#[derive(Clone, Debug, Default, PartialEq, Eq, clap::Args)]
pub struct DefectsArgs {
    /// Of this rig alone, by its id
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) rig: Option<String>,
    /// What was closed too, with the reading and the name that closed it
    #[arg(long)]
    pub(in crate::cli) all: bool,
    /// One JSON object a line
    #[arg(long)]
    pub(in crate::cli) json: bool,
}

/// Who sees to which defect, and by when.
#[derive(Clone, Debug, PartialEq, Eq, clap::Args)]
#[command(group(clap::ArgGroup::new("who").required(true).args(["owner", "outside"])))]
pub struct AssignArgs {
    /// A trip it was found on, by folder, receipt, or laptop and number
    #[arg(value_name = "TRIP")]
    pub(in crate::cli) trip: String,
    /// The step, as the list of defects names it, such as tire/left-rear
    #[arg(value_name = "STEP")]
    pub(in crate::cli) step: String,
    /// One of the crew, by id
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) owner: Option<String>,
    /// Somebody else, such as a shop
    #[arg(long, value_name = "WORDS")]
    pub(in crate::cli) outside: Option<String>,
    /// The last day it is in time: 2026-12-01
    #[arg(long, value_name = "DATE", value_parser = day)]
    pub(in crate::cli) due: Option<NaiveDate>,
    /// The truck's odometer up to which it is in time: '48700 mi'
    #[arg(long, value_name = "ODOMETER", value_parser = odometer)]
    pub(in crate::cli) due_at: Option<Typed>,
    /// What else there is to say
    #[arg(long, value_name = "WORDS")]
    pub(in crate::cli) why: Option<String>,
    /// The manager who signs, by id, where several have a key here
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) by: Option<String>,
}

fn odometer(text: &str) -> Result<Typed, String> {
    let read = Typed::read(text, Dimension::Length).ok();
    let shows = |typed: &Typed| {
        let read = typed.quantity();
        matches!(read.unit, Unit::Mile | Unit::Kilometre) && !read.value.is_negative()
    };
    read.filter(shows).ok_or_else(|| {
        "this is no reading of an odometer; write it as '48700 mi' or '78375 km'".to_owned()
    })
}
