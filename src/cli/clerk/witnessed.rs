//! What managers have seen of this logbook's devices, held against what lies here.

use crate::cli::clerk::Books;
use crate::logbook::merge::says_it_is_of;
use crate::logbook::{Ends, Unmet, unmet};
use crate::record::{Head, Id, Previous, Seal, Statement, Statements, read_chain};
use crate::store::{Disk, JournalText, StatementFolder, StoreFault, TripFolder};
use std::collections::HashMap;
use std::path::{Path, PathBuf};

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
                let mut by_number: HashMap<u64, Vec<TripFolder>> = HashMap::new();
                for trip in self.logbook.trips(&head.device)?.trips {
                    by_number.entry(trip.seq).or_default().push(trip);
                }
                folders.insert(head.device.clone(), by_number);
            }
            let trips = folders.get(&head.device);
            let trips = trips.and_then(|trips| trips.get(&head.seq));
            let mut ends = Ends::default();
            for trip in trips.into_iter().flatten() {
                self.add_ends(head, trip, &mut ends)?;
            }
            Ok(ends)
        })
    }

    /// Whether the trip of this device that each manager saw last is here. It is asked of what
    /// nobody verified, to see whether it is worth verifying.
    pub(super) fn holds_what_was_seen_last(&self, device: &Id) -> Result<bool, StoreFault> {
        let by_manager = |folder: &StatementFolder| folder.path.parent().map(Path::to_owned);
        let folders = self.logbook.statements()?;
        let mut newest: HashMap<Option<PathBuf>, StatementFolder> = HashMap::new();
        for folder in folders {
            let known = newest.entry(by_manager(&folder)).or_insert(folder.clone());
            if known.path < folder.path {
                *known = folder;
            }
        }
        let trips = self.logbook.trips(device)?.trips;
        for folder in newest.values() {
            let Some(text) = self.logbook.read_statement(folder)? else {
                return Ok(false);
            };
            let Ok(statement) = Statement::read(&text.statement) else {
                return Ok(false);
            };
            for head in statement.heads.iter().filter(|head| head.device == *device) {
                let mut ends = Ends::default();
                for trip in trips.iter().filter(|trip| trip.seq == head.seq) {
                    self.add_ends(head, trip, &mut ends)?;
                }
                if !ends.holds(&head.ends) {
                    return Ok(false);
                }
            }
        }
        Ok(true)
    }

    /// The highest number of a device's trip of which a merge kept something aside, where it is above
    /// all that are here, and no manager gave it up: the device was further on than it is here.
    pub(super) fn kept_aside_beyond(
        &self,
        device: &Id,
        statements: &Statements,
    ) -> Result<Option<u64>, StoreFault> {
        let mut numbers = Vec::new();
        for path in self.logbook.all_aside()? {
            let key = says_it_is_of(&self.logbook.read_any(&path)?);
            numbers.extend(key.filter(|key| key.device == *device).map(|key| key.seq));
        }
        let Some(highest) = numbers.into_iter().max() else {
            return Ok(None);
        };
        let last = self.last_number(device, statements)?;
        Ok((highest > last).then_some(highest))
    }

    fn add_ends(&self, head: &Head, trip: &TripFolder, ends: &mut Ends) -> Result<(), StoreFault> {
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
