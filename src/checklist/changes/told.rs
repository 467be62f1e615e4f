//! A change as a sentence.

use crate::checklist::changes::{At, Change, Gravity, What};
use std::fmt;

impl Gravity {
    /// What stands above the changes of this weight.
    pub fn heading(self) -> &'static str {
        match self {
            Self::CriticalGone => "No longer asked, and critical",
            Self::Looser => "Looser, or looked at less closely",
            Self::Other => "Other than before",
            Self::Words => "In other words",
        }
    }
}

impl fmt::Display for At {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::List => f.write_str("the list"),
            Self::Section(id) => write!(f, "section {id}"),
            Self::Step(id) => write!(f, "step {id}"),
            Self::Branch(id) => write!(f, "branch {id}"),
        }
    }
}

impl fmt::Display for Change {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let at = &self.at;
        match &self.what {
            What::New => write!(f, "{at} is new"),
            What::Gone => write!(f, "{at} is gone"),
            What::Moved(Some(behind)) => write!(f, "{at} stands behind {behind} now"),
            What::Moved(None) => write!(f, "{at} stands first now"),
            What::Added { part } => write!(f, "{at}: {part} is new"),
            What::Removed { part } => write!(f, "{at}: {part} is gone"),
            What::Changed {
                part,
                before,
                after,
            } => write!(f, "{at}: {part} was “{before}” and is “{after}”"),
        }
    }
}
