//! Why the crew is not changed so, in facts; the sentences are made here.

use crate::record::{CrewFaults, Id, PrintedName};
use std::fmt;

/// Why the crew is not changed so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotChanged {
    /// Nobody in the crew has that id.
    Unknown(Id),
    /// Someone in the crew has that id.
    Here(Id, PrintedName),
    /// Someone else had that id before.
    IdOf(Id, PrintedName),
    /// Someone who is, or was, in the crew has an id or a name that reads the same.
    Alike((Id, PrintedName), (Id, PrintedName)),
    /// It is, or was, someone else's key.
    KeyOf(Id, PrintedName),
    /// It is the key that they have.
    SameKey(PrintedName),
    /// The key was revoked.
    RevokedKey,
    /// No role was named.
    NoRole,
    /// A device would become a person, or the other way about.
    PersonOrDevice(PrintedName),
    /// They have these roles.
    SameRoles(PrintedName),
    /// They are signed off for exactly this.
    SameSignOff(PrintedName),
    /// They are signed off for nothing.
    NotSignedOff(PrintedName),
    /// No manager would be left.
    LastManager,
    /// A manager revokes the key that signs it, and there are other managers.
    OwnKey,
    /// The same, and there is no other.
    OnlyManagersKey(Id),
    /// The file would have faults.
    Crew(CrewFaults),
}

impl From<CrewFaults> for NotChanged {
    fn from(faults: CrewFaults) -> Self {
        Self::Crew(faults)
    }
}

impl fmt::Display for NotChanged {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unknown(id) => write!(
                f,
                "Nobody in the crew is called {id}. See who is with hames crew list."
            ),
            Self::Here(id, name) => write!(
                f,
                "{id} is in the crew already, as {name}. Change what they sign as with hames crew \
                 roles {id} --role driver, or the like, or give a new person another id with --id."
            ),
            Self::IdOf(id, name) => write!(
                f,
                "{id} was {name} before, and an id is one person's for good: old records name it. \
                 Give a new person another id with --id."
            ),
            Self::Alike((id, name), (old_id, old_name)) => write!(
                f,
                "“{name}” ({id}) reads like {old_name} ({old_id}), who is in the crew or was before: \
                 great and small letters, blanks, points, accents, another order and letters of the \
                 same look tell nobody apart in a record. Add to the printed name, such as a middle name or the place of \
                 a laptop, and name another id with --id."
            ),
            Self::KeyOf(id, name) => write!(
                f,
                "This key is the one of {name} ({id}), now or before, and a key is one person's \
                 for good. Everyone signs with a key of their own; make a new one."
            ),
            Self::SameKey(name) => write!(
                f,
                "This is the key that {name} has. A revoked key is replaced by another; make a new \
                 one."
            ),
            Self::RevokedKey => f.write_str(
                "This key was revoked, since it may be in other hands, and is never taken again. \
                 Make a new one.",
            ),
            Self::NoRole => f.write_str(
                "What may they sign as? Name one role or several with --role: groom, driver, \
                 manager, examiner. A laptop is added with --device.",
            ),
            Self::PersonOrDevice(name) => write!(
                f,
                "{name} cannot be a person and a device in turn. Add the other one with an id and \
                 a key of its own."
            ),
            Self::SameRoles(name) => write!(f, "{name} has exactly these roles already."),
            Self::SameSignOff(name) => {
                write!(f, "{name} is signed off for exactly this already.")
            }
            Self::NotSignedOff(name) => write!(f, "{name} is signed off for nothing."),
            Self::LastManager => f.write_str(
                "No manager would be left, and then nobody could change the crew or look at \
                 trips. Make somebody else manager first, with hames crew add NAME --role manager, \
                 or hames crew roles ID --role manager.",
            ),
            Self::OwnKey => f.write_str(
                "A key cannot revoke itself: whoever else holds it could have signed the same. \
                 Have another manager revoke it.",
            ),
            Self::OnlyManagersKey(id) => write!(
                f,
                "{id} is the only manager, and a key that revokes itself leaves nobody. Give the \
                 same person a new key in one go: hames crew revoke {id} --why … --new-key"
            ),
            Self::Crew(faults) => write!(f, "The crew file would have faults: {faults}"),
        }
    }
}
