//! A finding whose place is still to be looked up.

use crate::checklist::lint::{Finding, Rule};
use crate::document::Place;

/// What a rule remarks on.
#[derive(Debug)]
pub(super) struct Remark {
    pub(super) rule: Rule,
    /// The keys that lead to it.
    pub(super) path: String,
    pub(super) what: String,
    pub(super) fix: String,
}

impl Remark {
    pub(super) fn new(
        rule: Rule,
        path: impl Into<String>,
        what: impl Into<String>,
        fix: impl Into<String>,
    ) -> Self {
        Self {
            rule,
            path: path.into(),
            what: what.into(),
            fix: fix.into(),
        }
    }

    pub(super) fn placed(self, placed: &dyn Fn(&str) -> (Place, String)) -> Finding {
        let (place, path) = placed(&self.path);
        Finding {
            place,
            path,
            rule: self.rule,
            what: self.what,
            fix: self.fix,
        }
    }
}
