//! Why an errand could not be done, and what the screens are told.

use crate::cli::Status;
use crate::desk::Reply;
use crate::drill::NotInDrill;
use crate::record::{CrewFaults, Finding, KeyFault, NotChanged, Unreadable};
use crate::store::StoreFault;
use crate::walk::Refusal;
use crate::world::NoRandomness;
use std::fmt;

/// Why an errand could not be done.
#[derive(Clone, Debug)]
pub enum Trouble {
    /// The walk machine refused the act.
    Refused(Refusal),
    /// The disk refused.
    Store(StoreFault),
    /// What was named is not here, as a sentence with what there is.
    NotHere(String),
    /// The logbook cannot be used, as a sentence.
    Unusable(String),
    /// Verification finds something that bars it, as a sentence.
    Found(Finding, String),
    /// Anything else, as a sentence with its next step.
    Said(String),
}

impl Trouble {
    /// How a command that comes to it ends. Every command asks here.
    pub fn status(&self) -> Status {
        match self {
            Self::Store(_) | Self::Unusable(_) => Status::Store,
            Self::NotHere(_) => Status::Usage,
            Self::Found(finding, _) => Status::Verified(*finding),
            Self::Refused(_) | Self::Said(_) => Status::Findings,
        }
    }

    /// What the screens are told. Once a journal takes no more lines, nothing can be recorded.
    pub(super) fn reply(self) -> Reply {
        match self {
            Self::Refused(refusal) => Reply::Refused(refusal),
            Self::Store(
                fault @ (StoreFault::NotRecorded { .. } | StoreFault::JournalFull { .. }),
            ) => Reply::ReadOnly(fault.to_string()),
            other => Reply::Cannot(other.to_string()),
        }
    }
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Refused(refusal) => refusal.fmt(f),
            Self::Store(fault) => fault.fmt(f),
            Self::NotHere(sentence)
            | Self::Unusable(sentence)
            | Self::Found(_, sentence)
            | Self::Said(sentence) => f.write_str(sentence),
        }
    }
}

impl From<Refusal> for Trouble {
    fn from(refusal: Refusal) -> Self {
        Self::Refused(refusal)
    }
}

impl From<NotInDrill> for Trouble {
    fn from(not: NotInDrill) -> Self {
        match not {
            NotInDrill::Walk(refusal) => Self::Refused(refusal),
            other => Self::Said(format!("{other}.")),
        }
    }
}

impl From<StoreFault> for Trouble {
    fn from(fault: StoreFault) -> Self {
        Self::Store(fault)
    }
}

impl From<NoRandomness> for Trouble {
    fn from(fault: NoRandomness) -> Self {
        Self::Said(fault.to_string())
    }
}

impl From<KeyFault> for Trouble {
    fn from(fault: KeyFault) -> Self {
        Self::Said(format!("Not signed: {fault}."))
    }
}

impl From<NotChanged> for Trouble {
    fn from(not: NotChanged) -> Self {
        match not {
            NotChanged::Unknown(_) => Self::NotHere(not.to_string()),
            other => Self::Said(other.to_string()),
        }
    }
}

impl From<CrewFaults> for Trouble {
    fn from(faults: CrewFaults) -> Self {
        Self::Unusable(format!("The crew file cannot be used: {faults}"))
    }
}

impl From<Unreadable> for Trouble {
    fn from(reason: Unreadable) -> Self {
        Self::Said(format!(
            "This cannot be recorded: {reason}. Say it otherwise."
        ))
    }
}
