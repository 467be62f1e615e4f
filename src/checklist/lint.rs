//! The linter: what a checklist that reads without a fault can still do badly to its reader.
//!
//! Each module below holds the rules of one kind and says where it stands in the file; [`Rule`]
//! says why it is a rule. What the types and the reader already hold is no rule here: that a
//! critical step has three states or a reading, that every bad answer has a branch, that every
//! branch is reachable, ends, and leads into no other.

mod answers;
mod example;
mod fallback;
mod order;
mod outline;
mod remark;
mod rule;
mod text;
mod verbs;
mod words;

pub use example::Example;
pub(crate) use remark::Remark;
pub(crate) use rule::rules;
pub use rule::{Rule, Ruled, Severity};

use crate::checklist::{Checklist, Gap};
use crate::document::{Document, Fault, Place};
use std::fmt;

/// One thing to mend in a file, with its place, by the rules of its linter: where none is named,
/// those of a checklist.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding<R = Rule> {
    /// Where it is.
    pub place: Place,
    /// The keys that lead there, such as `sections[0].steps[2].act`.
    pub path: String,
    /// The rule it breaks.
    pub rule: R,
    /// What is wrong.
    pub what: String,
    /// How to mend it.
    pub fix: String,
}

/// The rules, each given the checklist whole.
const RULES: [fn(&Checklist) -> Vec<Remark>; 7] = [
    answers::remarks,
    order::remarks,
    text::act_remarks,
    text::warning_remarks,
    text::reading_remarks,
    fallback::remarks,
    words::remarks,
];

/// Every finding in the text of a checklist, in the order of the file.
///
/// A text that cannot be read is told its faults, under [`Rule::File`], and nothing else.
pub fn lint(text: &str) -> Vec<Finding> {
    let read = Document::parse(text).and_then(|document| {
        let checklist = Checklist::read_document(&document)?;
        Ok((document, checklist))
    });
    let (document, checklist) = match read {
        Ok(read) => read,
        Err(faults) => return faults.into_iter().map(Finding::from).collect(),
    };
    lint_read(&checklist, &|path| {
        let spot = document.spot_at(path);
        let place = spot.map_or(Place::START, |spot| document.place_of(spot));
        (place, path.to_owned())
    })
}

/// Every finding in a checklist that reads, each with the place and path that `placed` gives for
/// the path of a part.
pub(super) fn lint_read(
    checklist: &Checklist,
    placed: &dyn Fn(&str) -> (Place, String),
) -> Vec<Finding> {
    let remarks = RULES.iter().flat_map(|rule| rule(checklist));
    let mut findings: Vec<Finding> = remarks.map(|remark| remark.placed(placed)).collect();
    findings.sort_by_key(|finding| (finding.place, finding.rule));
    findings
}

impl Finding {
    /// What keeps the checklist from being walked with a rig. It has no place in the file.
    pub fn of_gap(gap: &Gap, rig: &str) -> Self {
        Self {
            place: Place::START,
            path: String::new(),
            rule: Rule::Rig,
            what: format!("cannot be walked with {rig}"),
            fix: gap.to_string(),
        }
    }
}

impl<R: Ruled> Finding<R> {
    /// How bad it is.
    pub fn severity(&self) -> Severity {
        self.rule.severity()
    }

    /// A fault of the file itself, under the rule that takes those.
    pub fn of_fault(fault: Fault, rule: R) -> Self {
        Self {
            place: fault.place,
            path: fault.path,
            rule,
            what: fault.what,
            fix: fault.fix,
        }
    }
}

impl From<Fault> for Finding {
    fn from(fault: Fault) -> Self {
        Self::of_fault(fault, Rule::File)
    }
}

impl<R: Ruled> fmt::Display for Finding<R> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (severity, rule) = (self.severity().word(), self.rule.word());
        write!(f, "{}: {severity} {rule}: ", self.place)?;
        if !self.path.is_empty() {
            write!(f, "{}: ", self.path)?;
        }
        write!(f, "{}; {}", self.what, self.fix)
    }
}
