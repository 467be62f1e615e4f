//! `hames logbook defects` as typed.

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
