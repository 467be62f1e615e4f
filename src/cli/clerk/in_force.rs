//! Whether `crew/allowed_signers` is the file that managers put in force, and what puts that one
//! there.

use crate::cli::clerk::{Books, Clerk, Trouble};
use crate::cli::command::quoted;
use crate::record::{Revision, Roster, Statements};
use crate::store::Disk;
use std::path::PathBuf;

/// A crew file that nobody goes by, and the one to go by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct NotInForce {
    /// Where it lies.
    place: PathBuf,
    /// Its number, where a manager signed for it earlier.
    earlier: Option<u64>,
    /// The number of the file to go by.
    number: u64,
    /// The statement that put it in force, and whose it is.
    beside: (u64, String),
    /// A copy of it, beside that statement.
    copy: PathBuf,
}

impl NotInForce {
    /// Whether no manager ever signed for it.
    pub(super) const fn is_unsigned(&self) -> bool {
        self.earlier.is_none()
    }

    /// Why nothing is done by it, and what to type.
    pub(super) fn told(&self, refused: &str) -> Trouble {
        let Self {
            place,
            earlier,
            number,
            beside: (statement, name),
            copy,
        } = self;
        let (copied, to) = (quoted(copy), quoted(place));
        let place = place.display();
        let what = earlier.map_or_else(
            || "was changed, and no manager has signed that".to_owned(),
            |earlier| format!("is crew file {earlier}, an earlier one"),
        );
        Trouble::Said(format!(
            "{refused}: {place} {what}. In force is crew file {number}, by statement {statement} of \
             {name}. Put it in its place: cp {copied} {to}. The crew is changed with hames \
             crew."
        ))
    }
}

impl<D: Disk> Clerk<D> {
    /// The logbook, to walk or sign by its crew.
    ///
    /// # Errors
    /// A sentence with its next step, where its crew file is not the one in force.
    pub(super) fn books_in_force(&self) -> Result<Books<D>, Trouble> {
        let books = self.books()?;
        books.is_in_force()?;
        Ok(books)
    }
}

impl<D: Disk> Books<D> {
    /// Refuses to begin or to seal a walk by a crew file that is not in force. While two changes of
    /// the crew wait to be settled, each that a manager signed will do.
    pub(super) fn is_in_force(&self) -> Result<(), Trouble> {
        if self.roster.branches().is_empty() && self.stands_in(&self.roster) {
            return Ok(());
        }
        let statements = self.statements()?;
        match self.not_in_force(&statements) {
            None => Ok(()),
            Some(not) => Err(not.told("Nothing is walked or signed by this crew file")),
        }
    }

    /// How the crew file here stands to what managers stated, where it is not in force.
    pub(super) fn not_in_force(&self, statements: &Statements) -> Option<NotInForce> {
        let roster = statements.roster();
        let branches = roster.branches();
        let own = roster.crew(&self.crew.revision());
        if self.stands_in(roster) || (!branches.is_empty() && own.is_some()) {
            return None;
        }
        let force = roster.in_force().or_else(|| branches.first().copied())?;
        let stated = statements.find(&force.statement)?;
        let (statement, hash) = (stated.statement(), stated.hash());
        let beside = (statement.number, statement.name.to_string());
        let (manager, number) = (&statement.manager, statement.number);
        Some(NotInForce {
            place: self.logbook.crew(),
            earlier: own.map(|own: &Revision| own.change.number),
            number: force.change.number,
            beside,
            copy: self.logbook.statement(manager, number, &hash).crew(),
        })
    }

    /// Whether the crew file here is the one in force; any is where managers stated none.
    fn stands_in(&self, roster: &Roster) -> bool {
        let now = self.crew.revision();
        match roster.in_force() {
            Some(force) => force.change.file == now,
            None => roster.revisions().is_empty(),
        }
    }
}
