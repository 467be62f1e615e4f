//! A manager's acts on the logbook, as typed below `hames logbook`.

use crate::cli::args::AssignArgs;
use crate::cli::examples;
use clap::Subcommand;

/// What a manager states.
#[derive(Clone, Debug, PartialEq, Eq, Subcommand)]
pub enum ManagerCommand {
    /// A manager states to have looked at a trip, one trip after the other
    #[command(before_help = examples::COUNTERSIGN, after_help = COUNTERSIGN_ENDS)]
    Countersign {
        /// By folder (000007-9f3c01ab), receipt, or laptop and number (barn-laptop/7)
        #[arg(required = true, value_name = "TRIP")]
        trips: Vec<String>,
        /// The manager who signs, by id, where several have a key here
        #[arg(long, value_name = "ID")]
        by: Option<String>,
    },
    /// Of two histories of one number, a manager states which goes on, or joins a manager's; both are kept
    #[command(before_help = examples::CLOSE_FORK, after_help = CLOSE_FORK_ENDS)]
    CloseFork {
        /// The laptop; or the manager, by id, who signed on two laptops apart
        #[arg(value_name = "DEVICE")]
        device: String,
        /// The number that two trips, or two statements, have
        #[arg(value_name = "NUMBER", value_parser = number)]
        number: u64,
        /// The trip the laptop goes on by, by folder or receipt; without it they are only shown
        #[arg(long, value_name = "TRIP", requires = "why", group = "word")]
        goes_on: Option<String>,
        /// All of the manager's statements count; without it they are only shown
        #[arg(long, requires = "why", group = "word")]
        join: bool,
        /// How it came about
        #[arg(long, value_name = "WORDS", requires = "word")]
        why: Option<String>,
        /// The manager who signs, by id, where several have a key here
        #[arg(long, value_name = "ID")]
        by: Option<String>,
    },
    /// A manager states that trips are lost for good and not looked for any more
    #[command(before_help = examples::ACCEPT_LOSS, after_help = ACCEPT_LOSS_ENDS)]
    AcceptLoss {
        /// The laptop
        #[arg(value_name = "DEVICE")]
        device: String,
        /// The missing number, or the first and last with two points between: 5..7
        #[arg(value_name = "FROM[..TO]")]
        numbers: String,
        /// What became of them
        #[arg(long, value_name = "WORDS")]
        why: String,
        /// The manager who signs, by id, where several have a key here
        #[arg(long, value_name = "ID")]
        by: Option<String>,
    },
    /// A manager states who sees to a defect, and by when; a reading closes it, and nothing else
    #[command(before_help = examples::ASSIGN, after_help = ASSIGN_ENDS)]
    Assign(AssignArgs),
    /// Take old trips out for good: what order needs of them stays in a signed statement
    #[command(before_help = examples::PRUNE, after_help = PRUNE_ENDS)]
    Prune {
        /// By folder, receipt, or laptop and number
        #[arg(value_name = "TRIP", conflicts_with = "before")]
        trips: Vec<String>,
        /// Every trip begun before this day: 2026-01-31
        #[arg(long, value_name = "DATE")]
        before: Option<String>,
        /// Why they go; this stays
        #[arg(long, value_name = "WORDS")]
        why: Option<String>,
        /// Also trips that no manager has countersigned
        #[arg(long)]
        even_so: bool,
        /// The manager who signs, by id, where several have a key here
        #[arg(long, value_name = "ID")]
        by: Option<String>,
    },
}

fn number(text: &str) -> Result<u64, String> {
    let read = text.parse().ok().filter(|number| *number > 0);
    read.ok_or_else(|| "this is no number of a trip; write it as 12".to_owned())
}

const ASSIGN_ENDS: &str = "\
It may be said again: the later word counts. Of a note, what is overdue keeps the rig off the road.
Exit status: 0 signed; 1 refused by a rule; 2 left, or no such trip, step or person; 10 and on, not
signed, and what `hames verify` finds of the trip.";

const CLOSE_FORK_ENDS: &str = "\
Without --goes-on or --join the histories are shown and nothing is signed.
Exit status: 0 closed or joined; 1 shown only, or refused by a rule; 2 left, or no such trip.";

const ACCEPT_LOSS_ENDS: &str = "\
Exit status: 0 accepted; 1 refused by a rule; 2 left.";

const PRUNE_ENDS: &str = "\
Without trips and date it only removes what is left of trips pruned before.
Exit status: 0 pruned, or nothing to do; 1 none of them may be pruned; 2 left.";

const COUNTERSIGN_ENDS: &str = "\
Exit status: 0 signed, each of them; 1 not signed, by a rule; 2 left, or no such trip; 10 and on,
not signed, and what `hames verify` finds of it.";
