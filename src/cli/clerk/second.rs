//! Whether a name is somebody else's: one person does not pass as two under an everyday name.
//!
//! Only what is answered now is held to it. What was recorded before stands as it was judged then.

use crate::cli::clerk::open::nothing_open;
use crate::cli::clerk::{Books, Clerk, TripRead, Trouble};
use crate::logbook::first_named;
use crate::record::{Signer, could_be, is_whole};
use crate::store::Disk;
use crate::walk::{Act, Moment, Refusal, Words};

impl<D: Disk> Clerk<D> {
    /// Refuses a second person whose name could be that of whoever the walk needs another than.
    pub(super) fn is_another(&self, act: &Act, at: &Moment) -> Result<(), Trouble> {
        let open = self.open.as_ref().ok_or_else(nothing_open)?;
        let Some((typed, others)) = open.walk.second_of(act) else {
            return Ok(());
        };
        // What is wrong with it otherwise comes first.
        open.walk.decide(act, at)?;
        let books = self.books()?;
        let could_be = |other: &&Words| books.could_be(typed, other.as_str());
        if let Some(other) = others.into_iter().find(could_be) {
            return Err(Refusal::CouldBe {
                typed: typed.trim().to_owned(),
                other: other.to_string(),
            }
            .into());
        }
        if books.person(typed).is_none() && !is_whole(typed) {
            return Err(Refusal::NotWhole(typed.trim().to_owned()).into());
        }
        Ok(())
    }
}

impl<D: Disk> Books<D> {
    /// Whom the walk names that could be this manager by an everyday name.
    pub(super) fn named_like(&self, read: &TripRead, manager: &Signer) -> Option<Words> {
        let name = manager.name.as_str();
        first_named(read.trip()?, |named| self.could_be(named.as_str(), name))
    }

    /// Whether both could be one person. Two of the crew are told apart by the crew file.
    fn could_be(&self, one: &str, other: &str) -> bool {
        match (self.person(one), self.person(other)) {
            (Some(one), Some(other)) => one.id == other.id,
            _ => could_be(one, other),
        }
    }
}
