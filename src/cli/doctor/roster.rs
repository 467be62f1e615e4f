//! The crew file: whether managers' statements lead to it.

use crate::cli::clerk::Books;
use crate::cli::doctor::check::Check;
use crate::store::Local;

const OF: &str = "roster";

pub(super) fn roster(books: &Books<Local>) -> Vec<Check> {
    let statements = match books.statements() {
        Ok(statements) => statements,
        Err(fault) => return vec![Check::wrong(OF, fault.to_string())],
    };
    let mut checks: Vec<Check> = statements
        .faults()
        .iter()
        .map(|fault| {
            Check::wrong(
                OF,
                format!(
                    "{fault}. Merge from the laptop that has it whole, and see hames verify for \
                     what it touches"
                ),
            )
        })
        .collect();
    let roster = statements.roster();
    let now = books.crew.revision();
    checks.push(match roster.in_force() {
        None if roster.revisions().is_empty() => Check::look(
            OF,
            "no manager has signed for the crew file yet. The first act of a manager, such as \
             hames logbook countersign, does",
        ),
        None => Check::wrong(
            OF,
            "two crew files were put in the place of the same one, and neither is chosen. The \
             managers settle which stands",
        ),
        Some(revision) if revision.change.file == now => Check::ok(
            OF,
            format!(
                "crew file {}, put in force by {}",
                revision.change.number, revision.by
            ),
        ),
        Some(revision) => Check::wrong(
            OF,
            format!(
                "crew/allowed_signers is not crew file {}, which {} put in force. Put back the \
                 file that lies with that statement in mgr/",
                revision.change.number, revision.by
            ),
        ),
    });
    checks
}
