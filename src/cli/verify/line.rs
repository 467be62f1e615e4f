//! One trip in the report: what verification left of it, without what was seen on the way.

use crate::cli::clerk::TripRead;
use crate::cli::logbook::name;
use crate::desk::earlier::{self, FROM_PAPER};
use crate::logbook::order::{Judged, OrderFault, end};
use crate::record::{Digest, Finding, Id, Mode, Receipt, Role, Verified, Wall};
use crate::store::{StoreFault, TripFolder};
use crate::walk::Ended;

/// A trip, as far as it is told.
pub(super) struct Line {
    pub(super) folder: TripFolder,
    found: Finding,
    pub(super) faults: Vec<String>,
    pub(super) trip: Option<Facts>,
}

/// What a trip that can be relied on says of itself.
pub(super) struct Facts {
    pub(super) trip: Id,
    pub(super) device: Id,
    pub(super) seq: u64,
    pub(super) mode: Mode,
    pub(super) paper: Option<Wall>,
    pub(super) end: Digest,
    pub(super) sealed: Option<SealFacts>,
}

/// What its seal says.
pub(super) struct SealFacts {
    pub(super) outcome: Ended,
    pub(super) name: String,
    pub(super) role: Role,
    pub(super) receipt: Receipt,
}

impl Line {
    /// One file that cannot be read hides none of the other trips.
    pub(super) fn of(folder: &TripFolder, read: Result<TripRead, StoreFault>) -> Self {
        let folder = folder.clone();
        match read {
            Ok(read) => Self {
                folder,
                found: read.finding(),
                faults: read.faults(),
                trip: read.trip().map(Facts::of),
            },
            Err(fault) => Self {
                folder,
                found: Finding::Unreadable,
                faults: vec![fault.to_string()],
                trip: None,
            },
        }
    }

    /// What is found of it: nothing is intact that no manager has countersigned.
    pub(super) fn finding(&self, judged: &Judged<'_>) -> Finding {
        let trip = self.trip.as_ref().map(|trip| &trip.trip);
        let out = judged
            .faults
            .iter()
            .filter(|fault| fault.is_of_a_key_of(trip));
        let out = out.map(OrderFault::finding).max();
        let end = self.trip.as_ref().map(|trip| &trip.end);
        match self.found.max(out.unwrap_or(Finding::Intact)) {
            Finding::Intact if !end.is_some_and(|end| judged.is_countersigned(end)) => {
                Finding::NotCountersigned
            }
            found => found,
        }
    }

    /// Whether a fault of order is told of this trip.
    pub(super) fn is_told_by(&self, (device, (from, to)): (&Id, (u64, u64))) -> bool {
        let trip = self.trip.as_ref();
        trip.is_some_and(|trip| trip.device == *device && (from..=to).contains(&trip.seq))
    }

    /// The line itself.
    pub(super) fn text(&self, judged: &Judged<'_>) -> String {
        let (name, finding) = (name(&self.folder), self.finding(judged));
        let Some(trip) = &self.trip else {
            return format!("{name}  {finding}");
        };
        let counts = match trip.mode {
            Mode::Real => String::new(),
            mode => format!("  {}", mode.word().to_uppercase()),
        };
        let paper = trip.paper.map_or_else(String::new, |walked| {
            let walked = earlier::date(&walked.moment());
            format!("  {FROM_PAPER} of {walked}")
        });
        let Some(seal) = &trip.sealed else {
            return format!("{name}  {finding}{counts}{paper}");
        };
        format!(
            "{name}  {finding}{counts}{paper}  {}, signed by {}, {}, receipt {}",
            seal.outcome.word().replace('-', " "),
            seal.name,
            seal.role,
            seal.receipt
        )
    }
}

impl Facts {
    fn of(trip: &Verified) -> Self {
        let begun = trip.begun();
        Self {
            trip: begun.trip.clone(),
            device: begun.device.clone(),
            seq: begun.seq,
            mode: begun.mode,
            paper: begun.paper,
            end: end(trip),
            sealed: trip.sealed().map(|sealed| SealFacts {
                outcome: sealed.seal.outcome,
                name: sealed.seal.name.to_string(),
                role: sealed.seal.role,
                receipt: sealed.receipt(),
            }),
        }
    }
}
