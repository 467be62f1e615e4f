//! What managers have seen of this logbook's devices, held against what lies here.

use crate::cli::clerk::Books;
use crate::logbook::{Ends, Unmet, unmet};
use crate::record::{Head, Id, Previous, Seal, Statements, read_chain};
use crate::store::{Disk, JournalText, StoreFault};
use std::collections::HashMap;

impl<D: Disk> Books<D> {
    /// Every end of a trip that managers have seen and that is not here; of this device alone,
    /// where one is named.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn unmet(
        &self,
        statements: &Statements,
        only: Option<&Id>,
    ) -> Result<Vec<Unmet>, StoreFault> {
        let mut folders = HashMap::new();
        unmet(statements, |head| {
            if only.is_some_and(|only| *only != head.device) {
                // Of another device nothing is looked at, and nothing is missed.
                return Ok(Ends::of(head.ends));
            }
            if !folders.contains_key(&head.device) {
                let trips = self.logbook.trips(&head.device)?.trips;
                folders.insert(head.device.clone(), trips);
            }
            let trips = folders.get(&head.device).into_iter().flatten();
            let mut ends = Ends::default();
            for trip in trips.filter(|trip| trip.seq == head.seq) {
                self.add_ends(head, trip, &mut ends)?;
            }
            Ok(ends)
        })
    }

    fn add_ends(
        &self,
        head: &Head,
        trip: &crate::store::TripFolder,
        ends: &mut Ends,
    ) -> Result<(), StoreFault> {
        if self.logbook.is_sealed(trip)? {
            ends.seals
                .push(Seal::hash(&self.logbook.read(&trip.seal())?));
        }
        if matches!(head.ends, Previous::Unsealed(_)) && self.logbook.has_begun(trip)? {
            let journal = JournalText::read(self.logbook.disk(), &trip.journal())?;
            let chain = read_chain(&journal.lines);
            ends.lines.extend(chain.links.iter().map(|link| link.hash));
        }
        Ok(())
    }
}
