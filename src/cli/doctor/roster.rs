//! The crew file: whether managers' statements lead to it.

use crate::cli::clerk::Books;
use crate::cli::doctor::check::Check;
use crate::record::{Revision, StatementFault, Statements};
use crate::store::Local;

const OF: &str = "crew";

pub(super) fn roster(books: &Books<Local>) -> Vec<Check> {
    let statements = match books.statements() {
        Ok(statements) => statements,
        Err(fault) => return vec![Check::wrong(OF, fault.to_string())],
    };
    let fork = |fault: &&StatementFault| matches!(fault, StatementFault::RosterFork { .. });
    if let Some(fork) = statements.faults().iter().find(fork) {
        // Whichever of the two lies in crew/, settling puts the right one there.
        return vec![Check::wrong(OF, fork.to_string())];
    }
    if let Some(not) = books.not_in_force(&statements) {
        return vec![Check::wrong(OF, not.to_string())];
    }
    vec![match statements.roster().in_force() {
        None => Check::look(
            OF,
            "no manager has signed for the crew file yet. The first act of a manager does, such as: \
             hames crew sign-off ID",
        ),
        Some(revision) => Check::ok(OF, put_in_force(revision, &statements)),
    }]
}

/// A change and its undoing leave the same file, so the statement is named with it.
fn put_in_force(revision: &Revision, statements: &Statements) -> String {
    let stated = statements.find(&revision.statement);
    let by = stated.map_or_else(String::new, |stated| {
        format!(" by statement {}", stated.statement().number)
    });
    format!(
        "crew file {}, put in force{by} of {}",
        revision.change.number, revision.by
    )
}
