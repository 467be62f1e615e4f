//! Why what was typed means nothing.

use crate::cli::weigh::NotTyped;
use crate::units::NotAQuantity;
use std::fmt;

/// Why what was typed means nothing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotMeant {
    /// Nobody says where data of programs lies.
    NoFolder,
    /// A file is to be written, and this names none.
    NoFile(String),
    /// What was read today is no such quantity.
    NoFact(&'static str, NotAQuantity),
    /// Which trips are looked over was said before another command of the logbook.
    NotOfThis,
    /// A scenario is named, and several are asked for beside it.
    OneScenario(String),
    /// What was typed are no scale tickets.
    NoTickets(NotTyped),
}

impl fmt::Display for NotMeant {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoFolder => f.write_str(
                "Neither XDG_DATA_HOME nor HOME is set, so there is no folder to look in. \
                 Name one with --logbook DIR.",
            ),
            Self::NoFile(id) => write!(
                f,
                "A rig is described into a file. Name one with its ending: ./{}.yaml",
                id.escape_debug()
            ),
            Self::NoFact(flag, not) => write!(f, "{flag}: {not}"),
            Self::NotOfThis => f.write_str(
                "The flags that say which trips are looked over stand behind hames logbook alone. \
                 This command has its own: type it with --help to see them.",
            ),
            Self::OneScenario(id) => write!(
                f,
                "“{}” names one scenario, and --about and --list ask for several. Leave one of \
                 them out, or name a file of scenarios with its ending.",
                id.escape_debug()
            ),
            Self::NoTickets(not) => write!(f, "{not}"),
        }
    }
}
