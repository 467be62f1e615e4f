//! A finding whose place is still to be looked up.

use crate::checklist::lint::{Finding, Rule};
use crate::document::Place;

/// What a rule remarks on.
#[derive(Debug)]
pub(crate) struct Remark<R = Rule> {
    pub(crate) rule: R,
    /// The keys that lead to it.
    pub(crate) path: String,
    pub(crate) what: String,
    pub(crate) fix: String,
}

impl<R> Remark<R> {
    pub(crate) fn new(
        rule: R,
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

    pub(crate) fn placed(self, placed: &dyn Fn(&str) -> (Place, String)) -> Finding<R> {
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
