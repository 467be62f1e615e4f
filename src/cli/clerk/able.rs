//! What is known before a walk begins: whether one may begin here, and whether anybody could sign it.

use crate::cli::clerk::{Books, Clerk, Trouble};
use crate::record::{Id, Role, Signer, StatementFault};
use crate::store::Disk;
use chrono::NaiveDate;

impl<D: Disk> Clerk<D> {
    /// Whether this laptop's own log lets a walk begin. A laptop without a key is told otherwise.
    ///
    /// # Errors
    /// A sentence with its next step.
    pub fn may_a_walk_begin(&self) -> Result<(), Trouble> {
        let books = self.books_in_force()?;
        let Ok(device) = books.device() else {
            return Ok(());
        };
        books.may_begin(&device, &books.statements()?)
    }

    /// Today, by the clock of this laptop.
    pub fn today(&self) -> NaiveDate {
        self.world.now().wall.date_naive()
    }

    /// This laptop, where it is one of the crew.
    pub fn device_here(&self) -> Option<Id> {
        self.books().ok()?.device().ok()
    }

    /// A sentence where nobody of the crew could sign on this laptop, so that it is known before a
    /// walk and not behind it.
    pub fn nobody_can_sign(&self) -> Option<String> {
        self.nobody_signs_in(&self.books().ok()?)
    }

    /// The same, of books that are open.
    pub(super) fn nobody_signs_in(&self, books: &Books<D>) -> Option<String> {
        let people = people(books);
        if people.is_empty() || people.iter().any(|one| self.has_key(one)) {
            return None;
        }
        Some(format!(
            "Nobody in the crew could sign a walk on this laptop: {NO_KEY}"
        ))
    }

    /// A sentence where neither of those who walk could sign on this laptop: who reads or does the
    /// work signs.
    pub fn neither_can_sign(&self, walk: [&str; 2]) -> Option<String> {
        let books = self.books().ok()?;
        let known: Vec<&Signer> = walk.iter().filter_map(|name| books.person(name)).collect();
        if known.is_empty() || known.iter().any(|one| self.has_key(one)) {
            return None;
        }
        let names: Vec<&str> = known.iter().map(|one| one.name.as_str()).collect();
        let who = match names.as_slice() {
            [one, next] if one != next => format!("Neither {one} nor {next} could"),
            [one, ..] => format!("{one} could not"),
            [] => return None,
        };
        Some(format!("{who} sign this walk on this laptop: {NO_KEY}"))
    }
}

/// Why nobody can, and what to do.
const NO_KEY: &str = "no key of theirs lies here, and no ssh-agent here holds one. Whoever is to \
    sign brings their key first: hames crew request ID --import FILE";

/// What is told of the crew on the start screen and before a walk; nothing where all is well.
pub(super) fn crew_notice<D: Disk>(books: &Books<D>) -> Option<String> {
    if books.roster.branches().is_empty() {
        return None;
    }
    let statements = books.statements().ok()?;
    let fork = |fault: &&StatementFault| matches!(fault, StatementFault::RosterFork { .. });
    let fork = statements.faults().iter().find(fork)?;
    Some(format!("The crew has to be settled: {fork}."))
}

fn people<D: Disk>(books: &Books<D>) -> Vec<&Signer> {
    let people = books.crew.signers().iter();
    people
        .filter(|signer| !signer.roles.contains(&Role::Device))
        .collect()
}
