//! One manager's key used on two laptops apart: what was signed on each, and the statement that joins it.

use crate::cli::clerk::{Clerk, Trouble};
use crate::desk::Consent;
use crate::record::{
    Digest, Id, Joined, Opinion, Says, Signer, Stated, StatementFault, Statements,
};
use crate::store::{Disk, StatementFolder};
use crate::walk::Words;
use std::collections::HashSet;

/// Day and time as they are told.
const SHOWN: &str = "%Y-%m-%d %H:%M %:z";

impl<D: Disk> Clerk<D> {
    /// Whether somebody of this id has stated anything here: a manager, and no laptop.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn has_stated(&self, who: &Id) -> Result<bool, Trouble> {
        let statements = self.statements()?;
        let mut all = statements.stated().iter();
        Ok(all.any(|one| one.statement().manager == *who))
    }

    /// What a manager signed from this number on, on each of the laptops apart, in lines.
    ///
    /// # Errors
    /// A sentence, where nothing is to be joined.
    pub fn signed_apart(&self, manager: &Id, number: u64) -> Result<Vec<Vec<String>>, Trouble> {
        let statements = self.statements()?;
        is_apart(&statements, manager, number)?;
        let ends = statements.ends_of(manager);
        let rows: Vec<HashSet<Digest>> = ends
            .iter()
            .map(|end| statements.behind(&end.hash()))
            .collect();
        let alone = |row: &HashSet<Digest>, one: &Stated| {
            row.contains(&one.hash()) && !rows.iter().all(|row| row.contains(&one.hash()))
        };
        let own = || {
            statements
                .counting()
                .filter(|one| one.statement().manager == *manager)
        };
        let told = |row| own().filter(move |one| alone(row, one)).map(line).collect();
        Ok(rows.iter().map(told).collect())
    }

    /// States that a manager signed all of it, and that all of it counts. It may be said also while
    /// two changes of the crew wait to be settled, since who settles them has to stand on both.
    ///
    /// # Errors
    /// A sentence with its next step.
    pub fn join(
        &self,
        (manager, number): (&Id, u64),
        why: &Words,
        (signer, consent): (&Signer, &Consent),
    ) -> Result<StatementFolder, Trouble> {
        let (books, statements) = self.crew_agreed_on()?;
        is_apart(&statements, manager, number)?;
        let mut ends = Vec::new();
        for end in statements.ends_of(manager) {
            books.settle(end)?;
            ends.push(end.hash());
        }
        ends.sort_unstable();
        let says = Says::Joined(Joined {
            manager: manager.clone(),
            ends,
            words: why.clone(),
        });
        let pen = self.pen(&books.logbook, signer)?;
        books.state(signer, (&pen, consent), &self.world.now(), says, None)
    }
}

fn is_apart(statements: &Statements, manager: &Id, number: u64) -> Result<(), Trouble> {
    let numbers = statements.faults().iter().filter_map(|fault| match fault {
        StatementFault::Fork {
            manager: of,
            number,
        } if of == manager => Some(*number),
        _ => None,
    });
    let numbers: Vec<u64> = numbers.collect();
    match numbers.first() {
        None => Err(Trouble::Said(format!(
            "There is nothing to join of {manager}: each statement has a number of its own, or a \
             manager has joined them."
        ))),
        Some(first) if !numbers.contains(&number) => Err(Trouble::NotHere(format!(
            "The statements of {manager} part at number {first}: hames logbook close-fork \
             {manager} {first}"
        ))),
        Some(_) => Ok(()),
    }
}

/// Number, day and what is stated.
fn line(stated: &Stated) -> String {
    let statement = stated.statement();
    let day = statement.wall.moment().format(SHOWN);
    let what = match &statement.says {
        Says::Crew(crew) => format!("crew file {}", crew.number),
        Says::Countersigned(trip) => {
            let said = match trip.opinion {
                Opinion::Agreed => "agreed to",
                Opinion::Asked => "asked about",
            };
            format!("{said} trip {} of {}", trip.seq, trip.device)
        }
        Says::ForkClosed(fork) => format!(
            "closed the fork at trip {} of {}, which goes on by {}",
            fork.seq, fork.device, fork.goes_on.trip
        ),
        Says::Pruned(pruned) => format!("took out {} trips", pruned.trips.len()),
        Says::LossAccepted(loss) => format!(
            "gave up for lost trips {} to {} of {}",
            loss.from, loss.to, loss.device
        ),
        Says::Joined(joined) => format!("joined what {} signed apart", joined.manager),
        Says::DefectOwned(owned) => format!(
            "gave {} of trip {} of {} an owner",
            owned.step, owned.seq, owned.device
        ),
    };
    format!("statement {}, {day}: {what}", statement.number)
}
