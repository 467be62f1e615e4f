//! A manager's act on the logbook: their next statement, beside a roster it can count by.

use crate::cli::clerk::{Clerk, Trouble};
use crate::desk::Consent;
use crate::record::{Says, Signer};
use crate::store::{Disk, StatementFolder};

impl<D: Disk> Clerk<D> {
    /// Whether a manager has put a crew file in force yet. Without, the first statement of any kind
    /// is preceded by one that puts in force the file there is.
    ///
    /// # Errors
    /// A sentence with its next step.
    pub fn has_roster(&self) -> Result<bool, Trouble> {
        let statements = self.statements()?;
        Ok(!statements.roster().revisions().is_empty())
    }

    /// Signs and keeps a manager's next statement.
    ///
    /// # Errors
    /// A sentence with its next step.
    pub fn state(
        &self,
        (manager, consent): (&Signer, &Consent),
        says: Says,
    ) -> Result<StatementFolder, Trouble> {
        self.put_first_in_force(manager, consent)?;
        let (books, _) = self.crew()?;
        let pen = self.pen(&books.logbook, manager)?;
        books.state(manager, (&pen, consent), &self.world.now(), says, None)
    }
}
