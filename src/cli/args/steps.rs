//! `hames logbook steps` as typed.

/// Which steps, and in which form.
#[derive(Clone, Debug, Default, PartialEq, Eq, clap::Args)]
pub struct StepsArgs {
    /// On this rig alone, by its id
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) rig: Option<String>,
    /// Every step, those without trouble too
    #[arg(long)]
    pub(in crate::cli) all: bool,
    /// One JSON object a line, every step
    #[arg(long)]
    pub(in crate::cli) json: bool,
}
