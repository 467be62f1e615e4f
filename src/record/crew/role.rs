//! Roles: what someone may sign as.

use crate::record::Deed;
use std::fmt;

/// What someone may sign as.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Role {
    /// Hitches and looks.
    Groom,
    /// Drives.
    Driver,
    /// Reviews the logbook.
    Manager,
    /// Examines check rides.
    Examiner,
    /// A laptop, which witnesses what is done on it.
    Device,
}

impl Role {
    /// Every role.
    pub const ALL: [Self; 5] = [
        Self::Groom,
        Self::Driver,
        Self::Manager,
        Self::Examiner,
        Self::Device,
    ];

    /// What a role is called by in the crew file, before its word.
    pub const PREFIX: &'static str = "role:";

    /// The word in records and in the crew file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Groom => "groom",
            Self::Driver => "driver",
            Self::Manager => "manager",
            Self::Examiner => "examiner",
            Self::Device => "device",
        }
    }

    /// The role a word names.
    pub fn read(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|role| role.word() == word)
    }

    /// As what somebody with these roles examines a check ride, where they may.
    pub fn examining(roles: &[Self]) -> Option<Self> {
        let mut may = [Self::Examiner, Self::Manager].into_iter();
        may.find(|role| roles.contains(role))
    }

    /// All that one in this role may sign for.
    pub const fn deeds(self) -> &'static [Deed] {
        match self {
            Self::Manager => &[Deed::Performed, Deed::Approved, Deed::Stated],
            Self::Groom | Self::Driver | Self::Examiner => &[Deed::Performed],
            Self::Device => &[Deed::Witnessed],
        }
    }

    /// What one in this role signs a trip for.
    pub const fn deed(self) -> Deed {
        match self {
            Self::Groom | Self::Driver | Self::Manager | Self::Examiner => Deed::Performed,
            Self::Device => Deed::Witnessed,
        }
    }
}

impl fmt::Display for Role {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}
