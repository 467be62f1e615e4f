//! `hames logbook` as typed.

use clap::Subcommand;
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
}

const RECEIPT_ENDS: &str = "\
Exit status: 0 one trip, and it is intact; 1 no trip, or several different ones; 2 mistyped or
misheard; 10 and on, one trip, and what `hames verify` finds of it.";
