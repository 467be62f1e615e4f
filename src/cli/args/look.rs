//! `hames logbook` by itself, as typed: which trips to look over.

use crate::cli::args::logbook::day;
use crate::review::{Filter, Weight};
use chrono::NaiveDate;
use clap::ValueEnum;

/// Which trips, and in which form.
#[derive(Clone, Debug, Default, PartialEq, Eq, clap::Args)]
pub struct LookArgs {
    /// Of this rig alone, by its id
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) rig: Option<String>,
    /// Somebody called so took part, a second look included; a part of the name is enough
    #[arg(long, value_name = "NAME")]
    pub(in crate::cli) person: Option<String>,
    /// At least so grave
    #[arg(long, value_enum, value_name = "WEIGHT")]
    pub(in crate::cli) least: Option<Least>,
    /// From this day on, such as 2026-11-20
    #[arg(long, value_name = "DATE", value_parser = day)]
    pub(in crate::cli) since: Option<NaiveDate>,
    /// Up to this day, which counts
    #[arg(long, value_name = "DATE", value_parser = day)]
    pub(in crate::cli) until: Option<NaiveDate>,
    /// Only what a manager has not agreed to yet
    #[arg(long)]
    pub(in crate::cli) open: bool,
    /// Only trips about which something is asked
    #[arg(long)]
    pub(in crate::cli) asked: bool,
    /// One JSON object a line
    #[arg(long)]
    pub(in crate::cli) json: bool,
}

/// How grave a trip is at the least.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Least {
    /// Something was noted, put off or flagged
    Noted,
    /// Something had to be put right
    Fixed,
    /// Something that stops a rig was found
    Stopped,
    /// The record itself is in question
    Doubtful,
}

impl LookArgs {
    /// The trips that are meant.
    pub(in crate::cli) fn filter(&self) -> Filter {
        Filter {
            rig: self.rig.clone(),
            person: self.person.clone(),
            least: self.least.map(|least| match least {
                Least::Noted => Weight::Noted,
                Least::Fixed => Weight::Fixed,
                Least::Stopped => Weight::Stopped,
                Least::Doubtful => Weight::Doubtful,
            }),
            since: self.since,
            until: self.until,
            open: self.open,
            asked: self.asked,
        }
    }
}
