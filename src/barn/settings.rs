//! The settings of one barn.

use crate::barn::{Call, OwnLimit, Policies, TireYears, Units};

/// What one barn has set; where it says nothing, the defaults hold.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Settings {
    /// The barn's name, where the settings give one.
    pub name: Option<String>,
    /// What limits are shown in. Anything may be typed.
    pub units: Units,
    /// Whom to call when something is not clear.
    pub call: Option<Call>,
    /// Which side it takes where honest sources disagree, and the side of its roads.
    pub policies: Policies,
    /// When tires are too old.
    pub tires: TireYears,
    /// Limits of its own.
    pub limits: Vec<OwnLimit>,
}

/// What a walk's screens take from the settings. Nothing in it changes a verdict.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ForWalk {
    /// What limits are shown in.
    pub units: Units,
    /// Whom to call when something is not clear.
    pub call: Option<Call>,
}

impl Settings {
    /// What a walk's screens take from them.
    pub fn for_walk(&self) -> ForWalk {
        ForWalk {
            units: self.units,
            call: self.call.clone(),
        }
    }
}
