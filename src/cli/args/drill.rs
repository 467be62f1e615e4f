//! What can stand behind `hames drill`.

use clap::ValueEnum;

/// A drill.
#[derive(Clone, Debug, Default, PartialEq, Eq, clap::Args)]
pub(in crate::cli) struct DrillArgs {
    /// The scenario, by its id, or a file of your own scenarios; without it the dice choose one
    #[arg(value_name = "SCENARIO|FILE")]
    pub(in crate::cli) scenario: Option<String>,
    /// Only scenarios about this, such as tires or seat
    #[arg(long, value_name = "FAMILY")]
    pub(in crate::cli) about: Option<String>,
    /// The number the dice are thrown by; the same number is the same drill
    #[arg(long, value_name = "NUMBER")]
    pub(in crate::cli) seed: Option<u64>,
    /// How much you are helped; as far as you have come where nothing is said
    #[arg(long, value_enum)]
    pub(in crate::cli) stage: Option<StageArg>,
    /// Who learns, by name or id of the crew
    #[arg(long, value_name = "WHO")]
    pub(in crate::cli) learner: Option<String>,
    /// Ride a whole checklist, examined: by the id of the checklist
    #[arg(
        long,
        value_name = "LIST",
        requires = "examiner",
        conflicts_with_all = ["scenario", "about", "stage"]
    )]
    pub(in crate::cli) check_ride: Option<String>,
    /// Who examines, by name or id of the crew
    #[arg(long, value_name = "WHO", requires = "check_ride")]
    pub(in crate::cli) examiner: Option<String>,
    /// List the scenarios
    #[arg(long, conflicts_with_all = ["seed", "stage", "learner", "check_ride"])]
    pub(in crate::cli) list: bool,
    /// One JSON object a line
    #[arg(long, requires = "list")]
    pub(in crate::cli) json: bool,
}

/// How much a learner is helped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum StageArg {
    /// A worked run, with its reasons
    Watch,
    /// Every step with its hint; a slip is told at once
    Guided,
    /// Hints where you still need them; a slip is told at once
    Faded,
    /// No hints; told after the run
    Solo,
    /// The same, on the way to the check ride
    Faults,
}
