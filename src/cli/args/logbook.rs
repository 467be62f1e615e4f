//! `hames logbook` as typed.

use crate::cli::args::{
    DefectsArgs, LookArgs, ManagerCommand, PeopleArgs, ReportCommand, StepsArgs, TrendsArgs,
};
use crate::logbook::{NotAnError, WiderError};
use chrono::NaiveDate;
use clap::{Subcommand, ValueEnum};
use std::path::PathBuf;

/// What is asked of a logbook.
#[derive(Clone, Debug, PartialEq, Eq, Subcommand)]
pub enum LogbookCommand {
    /// Which trip a receipt was read off, and whether its record is intact
    #[command(after_help = RECEIPT_ENDS)]
    Receipt {
        /// The ten characters, as written or heard
        #[arg(value_name = "CODE")]
        code: String,
        /// Logbooks or folders of trips to look in, instead of the logbook
        #[arg(value_name = "PATH")]
        paths: Vec<PathBuf>,
        /// One JSON object a line
        #[arg(long)]
        json: bool,
    },
    /// One trip: what is not as expected first, then how it went, then every reading beside its limit
    /// and those before it
    #[command(after_help = SHOW_ENDS)]
    Show {
        /// Its folder's name, its receipt, or its laptop and number, such as barn-laptop/7
        #[arg(value_name = "TRIP")]
        trip: String,
        /// One JSON object
        #[arg(long)]
        json: bool,
    },
    /// What nearly happened on a trip, as a scenario for drills that is still to be written; no name
    /// and no word that was said gets into it
    #[command(after_help = SKETCH_ENDS)]
    Sketch {
        /// Its folder's name, its receipt, or its laptop and number, such as barn-laptop/7
        #[arg(value_name = "TRIP")]
        trip: String,
        /// The step that came to fix or stop, where several did
        #[arg(long, value_name = "STEP")]
        step: Option<String>,
    },
    /// What does not fit together: odometers, clocks, how records came about, and what managers asked
    #[command(after_help = QUESTIONS_END)]
    Questions {
        /// One JSON object a line
        #[arg(long)]
        json: bool,
    },
    /// How the readings of a rig move: tires, battery, torque, hubs, brakes, tread and age
    #[command(after_help = TRENDS_END)]
    Trends(TrendsArgs),
    /// Which steps of the checklists give trouble: answers taken back, put off, typed twice
    Steps(StepsArgs),
    /// Who may do what: who is signed off for which rig and list, who has walked it, and when last
    People(PeopleArgs),
    /// What was found bad and stands, by rig: who sees to it, by when, and what it keeps back
    #[command(after_help = DEFECTS_END)]
    Defects(DefectsArgs),
    /// A trip, the history of a rig or a month, to hand on: one HTML file to read or print, text, JSON
    Report {
        /// Of what.
        #[command(subcommand)]
        of: ReportCommand,
    },
    /// Every reading taken with an instrument, and what would not hold if it read wrong
    #[command(after_help = TRACE_ENDS)]
    Trace {
        /// Its id or name in the rig files
        #[arg(value_name = "INSTRUMENT")]
        instrument: String,
        /// Of this rig alone, by its id
        #[arg(long, value_name = "ID")]
        rig: Option<String>,
        /// From this day on, such as 2026-11-20
        #[arg(long, value_name = "DATE", value_parser = day)]
        since: Option<NaiveDate>,
        /// Judge again as if it had been wrong by so much: '2 psi', or '6 %' of each reading
        #[arg(long, value_name = "ERROR", value_parser = wider)]
        error: Option<WiderError>,
        /// One JSON object a line
        #[arg(long)]
        json: bool,
    },
    /// The records as rows for a query engine or a spreadsheet; docs/tables.md has every column
    Table {
        /// Which rows
        #[arg(value_enum)]
        of: TableOf,
        /// Comma-separated values with the names of the columns first, as without a flag
        #[arg(long)]
        csv: bool,
        /// One JSON object a line
        #[arg(long, conflicts_with = "csv")]
        json: bool,
    },
    /// Everything somebody else needs to check the records, and nothing that is secret
    #[command(after_help = EXPORT_ENDS)]
    Export {
        /// A folder that is not there yet, or empty
        #[arg(value_name = "FOLDER")]
        to: PathBuf,
        /// Write one tar archive of that name instead
        #[arg(long)]
        tar: bool,
    },
    /// What an insurer needs of one trip: its report, the rig's trips of the 90 days before it, and the
    /// signed records themselves
    #[command(after_help = INCIDENT_ENDS)]
    Incident {
        /// Its folder's name, its receipt, or its laptop and number, such as barn-laptop/7
        #[arg(value_name = "TRIP")]
        trip: String,
        /// A folder that is not there yet, or empty
        #[arg(value_name = "FOLDER")]
        to: PathBuf,
    },
    /// Take in what a stick, a synced folder or another laptop's logbook has and this one has not
    #[command(after_help = MERGE_ENDS)]
    Merge {
        /// The folder; names and dates in it mean nothing, only what the files hold. It may be the
        /// logbook itself, to take in the copies a sync tool made in it
        #[arg(value_name = "FOLDER")]
        folder: PathBuf,
        /// Only look: tell what would be taken, and write nothing
        #[arg(long)]
        look: bool,
        /// One JSON object a line
        #[arg(long)]
        json: bool,
    },
    /// Look it over: what is meant where nothing else is asked.
    #[command(skip)]
    Look(LookArgs),
    /// A manager's acts.
    #[command(flatten)]
    Manager(ManagerCommand),
}

/// A table there is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum TableOf {
    /// One row a trip
    Trips,
    /// One row a step of a walk, as it stood at its end
    Steps,
    /// One row a reading, those that were replaced among them
    Readings,
    /// One row an instrument on a walk it was used on
    Instruments,
    /// One row a question or a mark of a clock
    Questions,
}

pub(super) fn day(text: &str) -> Result<NaiveDate, String> {
    text.parse()
        .map_err(|_| "this is no day; write it as 2026-11-20".to_owned())
}

fn wider(text: &str) -> Result<WiderError, String> {
    WiderError::read(text).map_err(|not: NotAnError| not.to_string())
}

const SHOW_ENDS: &str = "\
Exit status: 0 it can be relied on; 2 no such trip; 10 and on, what `hames verify` finds of it.";

const SKETCH_ENDS: &str = "\
The sketch goes to the output, to be kept in a file: each blank of it begins with ____.
Exit status: 0 sketched; 1 nothing came to fix or stop, or it cannot be relied on; 2 several steps did and none is named, or there is no such trip or step.";

const QUESTIONS_END: &str = "\
Exit status: 0 nothing to ask; 1 something to ask, or a time nobody should lean on.";

const TRENDS_END: &str = "\
A slope is told with its interval of 95 %, or not at all; what there is to ask comes first, with a chart.
What a trend tells is a question. It takes the place of no walk.

Exit status: 0 nothing to ask; 1 something to ask; 2 no such rig; 3 the logbook cannot be read.";

const DEFECTS_END: &str = "\
A reading and a name close a defect, and nothing else does.

Exit status: 0 nothing keeps a rig off the road; 1 something does; 2 no such rig; 3 the logbook cannot
be read.";

const TRACE_ENDS: &str = "\
Exit status: 0 every verdict holds; 1 one does not, or no reading was taken with it.";

const EXPORT_ENDS: &str = "\
Exit status: 0 exported, and nothing wrong in it; 3 something could not be read or written; 10 and on,
exported as it is, and what `hames verify` finds of it.";

const INCIDENT_ENDS: &str = "\
No private key goes along, and no trip of another rig or time; READ-THIS.txt there says what is left out.

Exit status: 0 written, and nothing wrong with the trip; 2 no such trip; 3 something could not be read or
written; 10 and on, written as it is, and what `hames verify` finds of the trip.";

const MERGE_ENDS: &str = "\
Nothing is deleted, and of two histories none is chosen. What is damaged here gives way to what is
whole there. What gave way, is there twice or cannot be used is kept in quarantine/ of the logbook,
with the reason. Private keys are never read.

Exit status: 0 nothing is set aside or open; 1 something is; 3 the disk or the logbook failed.";

const RECEIPT_ENDS: &str = "\
Exit status: 0 one trip, and it is intact; 1 no trip, one that was pruned, or several different ones;
2 mistyped or misheard; 10 and on, one trip, and what `hames verify` finds of it.";
