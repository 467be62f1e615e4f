//! `hames logbook people` as typed.

/// Of whom and of what, and in which form.
#[derive(Clone, Debug, Default, PartialEq, Eq, clap::Args)]
pub struct PeopleArgs {
    /// Of whoever is called so, list by list; a part of the name or the id is enough
    #[arg(long, value_name = "NAME")]
    pub(in crate::cli) person: Option<String>,
    /// Of one rig alone, by its id
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) rig: Option<String>,
    /// One JSON object a person and rig
    #[arg(long)]
    pub(in crate::cli) json: bool,
}
