//! `hames logbook report` as typed.

use crate::cli::args::logbook::day;
use chrono::NaiveDate;
use clap::Subcommand;
use std::path::PathBuf;

/// Of what a report is made.
#[derive(Clone, Debug, PartialEq, Eq, Subcommand)]
pub enum ReportCommand {
    /// One trip: what its record proves, on a page or two
    #[command(after_help = TRIP_ENDS)]
    Trip {
        /// Its folder's name, its receipt, or its laptop and number, such as barn-laptop/7
        #[arg(value_name = "TRIP")]
        trip: String,
        #[command(flatten)]
        form: ReportForm,
    },
    /// The history of a rig: what stands open and is due, how its readings move, its trips
    #[command(after_help = RIG_ENDS)]
    Rig {
        /// Its id
        #[arg(value_name = "RIG")]
        rig: String,
        /// From this day on, such as 2026-11-20
        #[arg(long, value_name = "DATE", value_parser = day)]
        since: Option<NaiveDate>,
        /// Up to this day, which counts
        #[arg(long, value_name = "DATE", value_parser = day)]
        until: Option<NaiveDate>,
        #[command(flatten)]
        form: ReportForm,
    },
    /// One month of the barn: its days, what was found, what is open
    #[command(after_help = MONTH_ENDS)]
    Month {
        /// Such as 2026-11
        #[arg(value_name = "MONTH", value_parser = month)]
        month: NaiveDate,
        #[command(flatten)]
        form: ReportForm,
    },
}

/// In which form it is written: lines of text where nothing is said.
#[derive(Clone, Debug, Default, PartialEq, Eq, clap::Args)]
pub struct ReportForm {
    /// Write it as one HTML file of this name, which needs nothing else to be read or printed; a file
    /// that is there already is left as it is
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) html: Option<PathBuf>,
    /// Print it as lines of text, as without a flag
    #[arg(long, conflicts_with = "json")]
    pub(in crate::cli) text: bool,
    /// Print it as one JSON object
    #[arg(long)]
    pub(in crate::cli) json: bool,
}

impl ReportCommand {
    /// In which form.
    pub(in crate::cli) const fn form(&self) -> &ReportForm {
        match self {
            Self::Trip { form, .. } | Self::Rig { form, .. } | Self::Month { form, .. } => form,
        }
    }
}

/// The first day of a month.
fn month(text: &str) -> Result<NaiveDate, String> {
    let first = (text.len() == 7).then(|| format!("{text}-01"));
    let first = first.and_then(|first| first.parse().ok());
    first.ok_or_else(|| "this is no month; write it as 2026-11".to_owned())
}

const TRIP_ENDS: &str = "\
Exit status: 0 it can be relied on; 2 no such trip; 3 the file is there already, or the logbook cannot be
read; 10 and on, what `hames verify` finds of it.";

const RIG_ENDS: &str = "\
Exit status: 0 reported; 2 no such rig or days; 3 the file is there already, or the logbook cannot be read.";

const MONTH_ENDS: &str = "\
Exit status: 0 reported; 2 no trip is known of that month; 3 the file is there already, or the logbook
cannot be read.";
