//! Trips that are missing, and the manager's word that they are lost.

use crate::cli::clerk::around::trip_name;
use crate::cli::clerk::ends::{losses, stubs};
use crate::cli::clerk::{Clerk, Plans, TripRead, Trouble};
use crate::desk::{Consent, earlier};
use crate::record::{Head, Id, LossAccepted, Says, Signer, Stated, Statements, Verified};
use crate::store::{Disk, StatementFolder};
use crate::walk::Words;
use std::collections::BTreeSet;

/// Numbers of a device that are missing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Missing {
    /// The numbers.
    pub numbers: BTreeSet<u64>,
    /// The newest number that was ever here or seen by a manager.
    pub last: u64,
    /// What is known around them, in lines.
    pub told: Vec<String>,
}

impl<D: Disk> Clerk<D> {
    /// The numbers of a device that are missing, up to the newest that was ever here or seen.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn missing(&self, device: &Id) -> Result<Missing, Trouble> {
        let books = self.books()?;
        books.is_known(device)?;
        let statements = books.statements()?;
        let (mut here, mut told) = (BTreeSet::new(), Vec::new());
        let mut plans = Plans::of_stock(&self.stock);
        let ended = books.ended(device, &statements)?;
        for folder in books.logbook.trips(device)?.trips {
            if books.ends(&folder)?.is_none() {
                continue;
            }
            let read = books.read(device, &folder, &mut plans)?;
            if let Some(trip) = read.trip() {
                let line = line_of(&read, trip);
                if ended.contains(&folder) {
                    // On the history that goes on another trip may have had its number.
                    told.push((folder.seq, format!("{line}, on a history that ended")));
                } else {
                    here.insert(folder.seq);
                    told.push((folder.seq, line));
                }
            } else {
                let (name, finding) = (trip_name(&folder), read.finding());
                told.push((
                    folder.seq,
                    format!("{name} is here and cannot be relied on: {finding}"),
                ));
            }
        }
        let pruned = stubs(&statements).filter(|stub| stub.device == *device);
        here.extend(pruned.map(|stub| stub.seq));
        let seen = seen(&statements, device);
        if let Some((head, by)) = &seen {
            told.push((head.seq, format!("trip {} was seen by {by}", head.seq)));
        }
        let aside = books.kept_aside_beyond(device, &statements)?;
        if let Some(seq) = aside {
            told.push((
                seq,
                format!("a part of trip {seq} is kept aside in quarantine/"),
            ));
        }
        let seen = seen.map_or(0, |(head, _)| head.seq).max(aside.unwrap_or(0));
        let last = here.last().copied().unwrap_or(0).max(seen);
        let accepted = losses(&statements, device);
        here.extend(accepted.flat_map(|loss| loss.from..=loss.to.min(last)));
        told.sort();
        Ok(Missing {
            numbers: (1..=last).filter(|seq| !here.contains(seq)).collect(),
            last,
            told: told.into_iter().map(|(_, told)| told).collect(),
        })
    }

    /// States that these trips are lost.
    ///
    /// # Errors
    /// A sentence with its next step.
    pub fn accept_loss(
        &self,
        (device, from, to): (&Id, u64, u64),
        why: &Words,
        who: (&Signer, &Consent),
    ) -> Result<StatementFolder, Trouble> {
        self.may_accept(&self.missing(device)?, (device, from, to))?;
        let says = Says::LossAccepted(LossAccepted {
            device: device.clone(),
            from,
            to,
            words: why.clone(),
        });
        self.state(who, says)
    }

    /// Refuses to give up what is not missing.
    ///
    /// # Errors
    /// A sentence.
    pub fn may_accept(
        &self,
        missing: &Missing,
        (device, from, to): (&Id, u64, u64),
    ) -> Result<(), Trouble> {
        if to > missing.last {
            return Err(Trouble::Said(format!(
                "Nothing shows that trip {to} of {device} ever was: the newest that was here, or \
                 that a manager saw, is {}. A number nobody has seen is no loss.",
                missing.last
            )));
        }
        match (from..=to).find(|seq| !missing.numbers.contains(seq)) {
            None if from > 0 => Ok(()),
            None => Err(Trouble::Said("Trips are numbered from 1.".to_owned())),
            Some(seq) => Err(Trouble::Said(format!(
                "Trip {seq} of {device} is not missing: it is here, was pruned, or its loss is \
                 accepted already."
            ))),
        }
    }
}

fn line_of(read: &TripRead, trip: &Verified) -> String {
    let name = trip_name(&read.folder);
    format!("{name} is here, begun {}", earlier::date(&trip.at().wall))
}

/// The newest trip of a device that a manager saw, and who.
fn seen(statements: &Statements, device: &Id) -> Option<(Head, String)> {
    let stated = statements.stated().iter().map(Stated::statement);
    let heads = stated.flat_map(|statement| {
        let by = &statement.name;
        let heads = statement.heads.iter();
        heads.map(move |head| (head.clone(), by.to_string()))
    });
    heads
        .filter(|(head, _)| head.device == *device)
        .max_by_key(|(head, _)| head.seq)
}
