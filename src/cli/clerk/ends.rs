//! The newest trip of a device, by which its sequence goes on: what a manager closed, pruned or
//! gave up for lost counts as they stated it.

use crate::cli::clerk::Books;
use crate::logbook::order::{closings, is_ended};
use crate::record::{
    Begun, Digest, Envelope, Id, LossAccepted, MAX_TRIP, Previous, Said, Says, Seal, Statements,
    Stub, read_chain, said,
};
use crate::store::{Disk, JournalText, StoreFault, TripFolder};

/// The newest trip of a device.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Newest {
    /// Its number.
    pub(super) seq: u64,
    /// How it ends.
    pub(super) ends: Previous,
}

impl<D: Disk> Books<D> {
    /// The newest trip of a device that has begun, or was pruned; of a closed fork the history that
    /// goes on.
    pub(super) fn newest_trip(
        &self,
        device: &Id,
        statements: &Statements,
    ) -> Result<Option<Newest>, StoreFault> {
        let mut trips = self.logbook.trips(device)?.trips;
        let ended = self.ended(device, statements)?;
        trips.retain(|trip| !ended.contains(trip));
        let mut newest = None;
        for trip in trips.iter().rev() {
            if let Some(ends) = self.ends(trip)? {
                let seq = trip.seq;
                newest = Some(Newest { seq, ends });
                break;
            }
        }
        let pruned = stubs(statements).filter(|stub| stub.device == *device);
        let pruned = pruned.max_by_key(|stub| stub.seq).map(|stub| Newest {
            seq: stub.seq,
            ends: stub
                .seal
                .map_or(Previous::Unsealed(stub.last), Previous::Sealed),
        });
        Ok(newest.into_iter().chain(pruned).max_by_key(|one| one.seq))
    }

    /// The highest number of a device that no new trip may have: one that is here, was pruned, or
    /// is lost.
    pub(super) fn last_number(
        &self,
        device: &Id,
        statements: &Statements,
    ) -> Result<u64, StoreFault> {
        let newest = self.newest_trip(device, statements)?;
        let lost = losses(statements, device).map(|loss| loss.to).max();
        Ok(newest.map(|newest| newest.seq).max(lost).unwrap_or(0))
    }

    /// How a trip ends so far; nothing where it has not begun.
    pub(super) fn ends(&self, trip: &TripFolder) -> Result<Option<Previous>, StoreFault> {
        let logbook = &self.logbook;
        // A seal that nobody has signed yet may still be signed, and changes nothing of the lines.
        if logbook.is_signed(trip)? {
            let seal = logbook.read(&trip.seal())?;
            return Ok(Some(Previous::Sealed(Seal::hash(&seal))));
        }
        if !logbook.has_begun(trip)? {
            return Ok(None);
        }
        let journal = JournalText::read(logbook.disk(), &trip.journal())?;
        Ok(Some(Previous::Unsealed(
            read_chain(&journal.lines).tip().last,
        )))
    }

    /// The trips of histories that managers ended: those named, and those that go on from them.
    pub(in crate::cli) fn ended(
        &self,
        device: &Id,
        statements: &Statements,
    ) -> Result<Vec<TripFolder>, StoreFault> {
        let forks = closings(statements, device);
        let Some(first) = forks.iter().map(|(fork, _)| fork.seq).min() else {
            return Ok(Vec::new());
        };
        let behind = |hash: &Digest| statements.behind(hash);
        let (mut ends_of_ended, mut ended) = (Vec::new(), Vec::new());
        let trips = self.logbook.trips(device)?.trips;
        for trip in trips.into_iter().filter(|trip| trip.seq >= first) {
            let Some(ends) = self.ends(&trip)? else {
                continue;
            };
            let word = is_ended(&forks, trip.seq, |branch| branch.ends == ends, behind);
            let follows = || {
                let before = self.previous(&trip);
                before.is_some_and(|before| ends_of_ended.contains(&before))
            };
            if word.unwrap_or_else(follows) {
                ends_of_ended.push(ends);
                ended.push(trip);
            }
        }
        Ok(ended)
    }

    /// How the trip before this one ended, as its first line says.
    pub(super) fn previous(&self, trip: &TripFolder) -> Option<Previous> {
        self.first_line(trip)?.previous
    }

    /// What the first line of a trip says.
    pub(super) fn first_line(&self, trip: &TripFolder) -> Option<Box<Begun>> {
        let bytes = self.logbook.disk().read(&trip.journal(), MAX_TRIP).ok()?;
        let first = bytes.split(|byte| *byte == b'\n').next()?;
        match said(&Envelope::read(first).ok()?).ok()? {
            Said::Begun(begun) => Some(begun),
            Said::Happened(_) | Said::Drilled(_) => None,
        }
    }
}

/// The losses of a device that managers accepted.
pub(super) fn losses<'s>(
    statements: &'s Statements,
    device: &'s Id,
) -> impl Iterator<Item = &'s LossAccepted> {
    let says = statements.stated().iter().map(|one| &one.statement().says);
    says.filter_map(move |says| match says {
        Says::LossAccepted(loss) if loss.device == *device => Some(loss),
        _ => None,
    })
}

/// What is left of every trip that managers pruned.
pub(super) fn stubs(statements: &Statements) -> impl Iterator<Item = &Stub> {
    let says = statements.stated().iter().map(|one| &one.statement().says);
    says.filter_map(|says| match says {
        Says::Pruned(pruned) => Some(&pruned.trips),
        _ => None,
    })
    .flatten()
}
