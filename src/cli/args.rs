//! The arguments as typed.

mod crew;
mod defects;
mod drill;
mod logbook;
mod look;
mod manager;
mod people;
mod report;
mod steps;
mod trends;

pub(super) use crew::{By, CrewCommand, KeyFrom, PersonRole};
pub(super) use defects::{AssignArgs, DefectsArgs};
pub(super) use drill::{DrillArgs, StageArg};
pub(super) use logbook::{LogbookCommand, TableOf};
pub(super) use look::LookArgs;
pub(super) use manager::ManagerCommand;
pub(super) use people::PeopleArgs;
pub(super) use report::{ReportCommand, ReportForm};
pub(super) use steps::StepsArgs;
pub(super) use trends::{TrendsArgs, What};

use crate::cli::{Status, examples};
use clap::{Parser, Subcommand, ValueEnum};
use std::path::PathBuf;

/// Walk a horse trailer's hitch-up step by step, and keep a signed record of it.
#[derive(Clone, Debug, Parser)]
#[command(name = "hames", version, before_help = examples::HAMES, after_help = Status::help())]
pub struct Args {
    /// Line by line, for a screen reader or a pipe
    #[arg(long, global = true)]
    pub(super) plain: bool,
    /// The invented barn, even where there is a logbook; behind hames logbook a year of one
    #[arg(long, global = true, conflicts_with = "logbook")]
    pub(super) demo: bool,
    /// The folder of the logbook
    #[arg(long, global = true, value_name = "DIR")]
    pub(super) logbook: Option<PathBuf>,
    /// Colours of the screens
    #[arg(long, global = true, value_enum, default_value_t)]
    pub(super) theme: Theme,
    /// Whether the screens use colour
    #[arg(long, global = true, value_enum, default_value_t)]
    pub(super) color: Color,
    /// Nothing but ASCII
    #[arg(long, global = true)]
    pub(super) ascii: bool,
    #[command(subcommand)]
    pub(super) command: Option<Command>,
}

/// Colours of the screens.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum Theme {
    /// The terminal's own
    #[default]
    Default,
    /// Dim, for a dark yard
    Night,
    /// Black on white, for the sun
    Glare,
}

/// Whether colour is used.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub(super) enum Color {
    /// Unless the environment says otherwise
    #[default]
    Auto,
    /// Not at all
    Never,
}

#[derive(Clone, Debug, Subcommand)]
pub(super) enum Command {
    /// Begin a walk
    #[command(before_help = examples::WALK)]
    Walk {
        /// A rig file, or the id of a rig in the logbook
        #[arg(long, value_name = "FILE|ID")]
        rig: Option<String>,
        /// A checklist file, or the id of a checklist
        #[arg(long, value_name = "FILE|ID")]
        checklist: Option<String>,
        /// Enter a walk from paper: the day and time written there, such as "2026-11-20 06:10"
        #[arg(long, value_name = "DAY TIME")]
        from_paper: Option<String>,
    },
    /// Check records: every byte, every signature, the order of trips
    #[command(before_help = examples::VERIFY)]
    Verify {
        /// Logbooks or folders of trips
        #[arg(required = true, value_name = "PATH")]
        paths: Vec<PathBuf>,
        /// A crew file you trust, instead of the logbook's own
        #[arg(long, value_name = "FILE")]
        crew: Vec<PathBuf>,
        /// One JSON object a line
        #[arg(long)]
        json: bool,
    },
    /// The barn's settings in force, and why each default is what it is
    #[command(before_help = examples::BARN)]
    Barn {
        /// One JSON object
        #[arg(long)]
        json: bool,
        /// Print a settings file with comments
        #[arg(long, conflicts_with = "json")]
        example: bool,
    },
    /// Check checklists, rig files and a barn's settings
    #[command(before_help = examples::LINT)]
    Lint {
        /// YAML files
        #[arg(required_unless_present = "explain", value_name = "FILE")]
        files: Vec<PathBuf>,
        /// One JSON object a line
        #[arg(long)]
        json: bool,
        /// Why a rule is one, and an example; all for every rule
        #[arg(long, value_name = "RULE|all", conflicts_with_all = ["files", "json"])]
        explain: Option<String>,
    },
    /// A rig: look at it, try what would move it, list every figure
    #[command(before_help = examples::RIG)]
    Rig {
        /// A rig file, or the id of a rig of the logbook or the demo barn
        #[arg(value_name = "FILE|ID")]
        rig: Option<String>,
        /// Every figure as one JSON object
        #[arg(long)]
        json: bool,
        #[command(flatten)]
        facts: FactArgs,
        /// Describe a rig question by question; the file is saved after every answer
        #[arg(long, requires = "rig", conflicts_with_all = ["json", "example"])]
        describe: bool,
        /// Print a rig file with comments
        #[arg(long, conflicts_with_all = ["rig", "json"])]
        example: bool,
    },
    /// What is due for each rig today, and why
    #[command(before_help = examples::DUE)]
    Due {
        /// A rig file, or the id of a rig; every rig of the logbook or the demo barn without it
        #[arg(value_name = "FILE|ID")]
        rig: Option<String>,
        /// The truck's odometer today, such as 41250mi
        #[arg(long, value_name = "DISTANCE", requires = "rig")]
        odometer: Option<String>,
        /// One JSON object a line, one for each rig
        #[arg(long)]
        json: bool,
    },
    /// Tongue weight and what is left of each rating, by tickets of a truck scale
    #[command(before_help = examples::WEIGH)]
    Weigh(WeighArgs),
    /// One formula by name: inputs as JSON, outputs as JSON
    #[command(before_help = examples::FIGURE)]
    Figure {
        /// The formula; without it they are listed
        name: Option<String>,
        /// Print what there is to know of it; of all formulas where none is named
        #[arg(long)]
        page: bool,
    },
    /// Checklists: list them, start one, see what changed, approve it
    #[command(
        before_help = examples::CHECKLIST,
        subcommand_negates_reqs = true,
        arg_required_else_help = true
    )]
    Checklist {
        /// Print a whole checklist, as `hames checklist example` does
        #[arg(long, required = true)]
        example: bool,
        #[command(subcommand)]
        what: Option<ChecklistCommand>,
    },
    /// Whether keys, crew, disk, clock and folder are such that a walk can be relied on
    #[command(before_help = examples::DOCTOR, after_help = DOCTOR_ENDS)]
    Doctor {
        /// One JSON object a line
        #[arg(long)]
        json: bool,
        /// Write no file to see whether the disk keeps it
        #[arg(long)]
        read_only: bool,
    },
    /// Look the records of the whole barn over, and what they come to
    #[command(before_help = examples::LOGBOOK)]
    Logbook {
        #[command(flatten)]
        look: LookArgs,
        #[command(subcommand)]
        what: Option<LogbookCommand>,
    },
    /// Learn on faults that cannot hurt anyone: a passage of a checklist on an invented rig, with
    /// something wrong with it or not
    #[command(before_help = examples::DRILL)]
    Drill(DrillArgs),
    /// Who may sign, and every change of that
    #[command(before_help = examples::CREW)]
    Crew {
        #[command(subcommand)]
        what: CrewCommand,
    },
}

const DOCTOR_ENDS: &str = "\
Each line begins with ok, look (worth a look; nothing is lost) or wrong.
Exit status: 0 nothing is wrong; 1 something is.";

/// Scale tickets; without them they are asked for.
#[derive(Clone, Debug, Default, clap::Args)]
pub(super) struct WeighArgs {
    /// The truck alone, then the total if the ticket prints it: 3440,2860=6300
    #[arg(long, value_name = "STEER,DRIVE", requires_all = ["hitched", "unit"])]
    pub(super) alone: Option<String>,
    /// Truck and trailer, spring bars loose or off: 3200,3820,4960
    #[arg(long, value_name = "STEER,DRIVE,TRAILER", requires = "alone")]
    pub(super) hitched: Option<String>,
    /// Truck and trailer, spring bars tight
    #[arg(long, value_name = "STEER,DRIVE,TRAILER", requires = "alone")]
    pub(super) bars: Option<String>,
    /// The trailer alone on one pad, as a check
    #[arg(long, value_name = "WEIGHT", requires = "alone")]
    pub(super) trailer: Option<String>,
    /// The unit the tickets print
    #[arg(long, value_enum, requires = "alone")]
    pub(super) unit: Option<ScaleUnit>,
    /// Smallest step of the scale; 20 lb or 10 kg where nothing is said
    #[arg(long, value_name = "WEIGHT", requires = "alone")]
    pub(super) step: Option<String>,
    /// The ball is behind the bumper
    #[arg(long, group = "joint")]
    pub(super) bumper_pull: bool,
    /// The ball is in the bed
    #[arg(long, group = "joint")]
    pub(super) gooseneck: bool,
    /// A rig file, or the id of a rig, for what is left of its ratings
    #[arg(long, value_name = "FILE|ID", group = "joint")]
    pub(super) rig: Option<String>,
    /// One JSON object
    #[arg(long, requires = "alone")]
    pub(super) json: bool,
}

/// What a scale prints.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum ScaleUnit {
    /// Pounds
    Lb,
    /// Kilograms
    Kg,
}

/// What was read today.
#[derive(Clone, Debug, Default, clap::Args)]
pub(super) struct FactArgs {
    /// Air temperature in the shade today, such as 40F
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    pub(super) air: Option<String>,
    /// The truck's odometer today, such as 41250mi
    #[arg(long, value_name = "DISTANCE")]
    pub(super) odometer: Option<String>,
    /// What a scale says of the loaded trailer, tongue and axles together
    #[arg(long, value_name = "WEIGHT")]
    pub(super) trailer_weight: Option<String>,
    /// What a scale says of the weight on the ball
    #[arg(long, value_name = "WEIGHT")]
    pub(super) tongue_weight: Option<String>,
}

#[derive(Clone, Debug, Subcommand)]
pub(super) enum ChecklistCommand {
    /// Every checklist on offer, and whether it is approved
    List {
        /// One JSON object a line
        #[arg(long)]
        json: bool,
    },
    /// Print a whole checklist
    Example,
    /// Write a pattern with comments into a new file, to change into your own
    New {
        /// The file; one that is there is never written over
        #[arg(value_name = "FILE")]
        file: PathBuf,
    },
    /// Print a checklist put together: shared steps in their places, choices made
    Whole {
        /// A checklist file, or the id of a checklist
        #[arg(value_name = "FILE|ID")]
        checklist: String,
    },
    /// Print what changed against the approved checklist of that id, the gravest first
    Compare {
        /// A checklist file, or the id of a checklist
        #[arg(value_name = "FILE|ID")]
        checklist: String,
        /// What to compare it with; else the one approved last, or the one that comes with the
        /// program
        #[arg(value_name = "FILE|ID")]
        other: Option<String>,
        /// One JSON object a line
        #[arg(long)]
        json: bool,
    },
    /// Print it for paper, with the numbers the walk has
    Paper {
        /// A checklist file, or the id of a checklist
        #[arg(value_name = "FILE|ID")]
        checklist: String,
        /// A rig file, or the id of a rig; the only one of the logbook without it
        #[arg(long, value_name = "FILE|ID")]
        rig: Option<String>,
        /// One HTML page, and no plain text
        #[arg(long)]
        html: bool,
    },
    /// Approve a checklist, to the byte, by a manager's signature
    Approve {
        /// A checklist file, or the id of a checklist
        #[arg(value_name = "FILE|ID")]
        checklist: String,
        /// The manager who signs, by id, where several have a key here
        #[arg(long, value_name = "ID")]
        by: Option<String>,
    },
    /// Print the JSON Schema of a kind of file, for editors that complete and check
    Schema {
        /// Which kind of file
        #[arg(value_enum, default_value_t)]
        of: SchemaOf,
    },
}

/// A kind of file there is a schema of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum SchemaOf {
    /// A checklist: hames-checklist/1
    #[default]
    Checklist,
    /// Shared steps: hames-steps/1
    Steps,
    /// Scenarios of a drill: hames-drill/1
    Scenarios,
    /// What is seen at steps in a drill: hames-sights/1
    Sights,
}
