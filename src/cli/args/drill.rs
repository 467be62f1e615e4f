//! What can stand behind `hames drill`.

use clap::ValueEnum;

/// A drill.
#[derive(Clone, Debug, Default, PartialEq, Eq, clap::Args)]
pub struct DrillArgs {
    /// The scenario, by its id; without it the dice choose one
    #[arg(value_name = "SCENARIO")]
    pub(in crate::cli) scenario: Option<String>,
    /// Only scenarios about this, such as tires or seat
    #[arg(long, value_name = "FAMILY", conflicts_with = "scenario")]
    pub(in crate::cli) about: Option<String>,
    /// The number the dice are thrown by; the same number is the same drill
    #[arg(long, value_name = "NUMBER")]
    pub(in crate::cli) seed: Option<u64>,
    /// How much you are helped
    #[arg(long, value_enum, default_value_t)]
    pub(in crate::cli) stage: StageArg,
    /// List the scenarios
    #[arg(long, conflicts_with_all = ["scenario", "seed", "stage"])]
    pub(in crate::cli) list: bool,
    /// One JSON object a line
    #[arg(long, requires = "list", conflicts_with_all = ["scenario", "seed"])]
    pub(in crate::cli) json: bool,
}

/// How much a learner is helped.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum StageArg {
    /// Every step with its hint; a slip is told at once
    #[default]
    Guided,
    /// No hints; told after the run
    Solo,
}
