//! One trip in the report: what verification left of it, without what was seen on the way.

use crate::cli::clerk::TripRead;
use crate::cli::logbook::name;
use crate::desk::earlier::{self, FROM_PAPER};
use crate::logbook::ClockMark;
use crate::logbook::order::{Judged, OrderFault, end};
use crate::record::{Digest, Finding, Id, Mode, Receipt, Role, Verified, Wall};
use crate::store::{StoreFault, TripFolder};
use crate::walk::Ended;

/// A trip, as far as it is told.
pub(in crate::cli) struct Line {
    pub(in crate::cli) folder: TripFolder,
    /// The laptop it lies under, where it lies in a logbook.
    pub(in crate::cli) device: Option<Id>,
    found: Finding,
    pub(in crate::cli) faults: Vec<String>,
    pub(in crate::cli) trip: Option<Facts>,
    /// Whether it lies among the drills, which no manager countersigns.
    is_drill: bool,
}

/// What a trip that can be relied on says of itself.
pub(in crate::cli) struct Facts {
    pub(in crate::cli) trip: Id,
    pub(in crate::cli) device: Id,
    pub(in crate::cli) seq: u64,
    pub(in crate::cli) mode: Mode,
    /// The statement it quotes.
    quotes: Option<Digest>,
    pub(in crate::cli) paper: Option<Wall>,
    pub(in crate::cli) end: Digest,
    pub(in crate::cli) sealed: Option<SealFacts>,
    /// Which start of which machine it was begun in.
    pub(super) boot: String,
    /// The trips its first line names: of its haul, and where what it carries on was left open.
    pub(super) rests_on: Vec<Id>,
}

/// What its seal says.
pub(in crate::cli) struct SealFacts {
    pub(in crate::cli) outcome: Ended,
    pub(in crate::cli) name: String,
    pub(in crate::cli) role: Role,
    pub(in crate::cli) receipt: Receipt,
}

impl Line {
    /// One file that cannot be read hides none of the other trips.
    pub(super) fn of(
        folder: &TripFolder,
        device: Option<Id>,
        read: Result<TripRead, StoreFault>,
        is_drill: bool,
    ) -> Self {
        let folder = folder.clone();
        match read {
            Ok(read) => Self {
                folder,
                device,
                found: read.finding(),
                faults: read.faults(),
                trip: read.trip().map(Facts::of),
                is_drill,
            },
            Err(fault) => Self {
                folder,
                device,
                found: Finding::Unreadable,
                faults: vec![fault.to_string()],
                trip: None,
                is_drill,
            },
        }
    }

    /// What is found of it by itself.
    pub(super) const fn found(&self) -> Finding {
        self.found
    }

    /// What is found of it, whoever asks: the gravest of its own and of what the order of trips
    /// says of it; and no trip is intact that no manager has countersigned.
    pub(in crate::cli) fn finding(&self, judged: &Judged<'_>) -> Finding {
        let of_order = self.order(judged).map(OrderFault::finding).max();
        let end = self.trip.as_ref().map(|trip| &trip.end);
        match self.found.max(of_order.unwrap_or(Finding::Intact)) {
            Finding::Intact
                if !self.is_drill && !end.is_some_and(|end| judged.is_countersigned(end)) =>
            {
                Finding::NotCountersigned
            }
            found => found,
        }
    }

    /// What the order of trips says of it.
    pub(in crate::cli) fn order<'j>(
        &self,
        judged: &'j Judged<'_>,
    ) -> impl Iterator<Item = &'j OrderFault> {
        judged.faults.iter().filter(|fault| self.is_told_by(fault))
    }

    /// Everything wrong with it, as sentences.
    pub(in crate::cli) fn told(&self, judged: &Judged<'_>) -> Vec<String> {
        let order = self.order(judged).map(ToString::to_string);
        self.faults.iter().cloned().chain(order).collect()
    }

    /// Whether a fault of order is told of this trip.
    pub(super) fn is_told_by(&self, fault: &OrderFault) -> bool {
        let trip = self.trip.as_ref();
        trip.is_some_and(|trip| fault.is_of(&trip.device, trip.seq, &trip.trip, trip.quotes))
    }

    /// Whether a fault of order is told of what is next to this trip.
    pub(super) fn is_beside(&self, fault: &OrderFault) -> bool {
        let trip = self.trip.as_ref();
        trip.is_some_and(|trip| fault.is_beside(&trip.device, trip.seq))
    }

    /// Whether a mark of a clock is in this trip.
    pub(super) fn is_marked_by(&self, mark: &ClockMark) -> bool {
        let trip = self.trip.as_ref();
        trip.is_some_and(|trip| trip.trip == mark.trip && trip.seq == mark.seq)
    }

    /// The line itself.
    pub(in crate::cli) fn text(&self, judged: &Judged<'_>) -> String {
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
            quotes: begun.manager,
            paper: begun.paper,
            end: end(trip),
            boot: trip.at().boot.clone(),
            rests_on: rests_on(trip),
            sealed: trip.sealed().map(|sealed| SealFacts {
                outcome: sealed.seal.outcome,
                name: sealed.seal.name.to_string(),
                role: sealed.seal.role,
                receipt: sealed.receipt(),
            }),
        }
    }
}

fn rests_on(trip: &Verified) -> Vec<Id> {
    let begun = trip.begun();
    let since = begun.carried.iter().map(|left| &left.since);
    let named = begun.haul.iter().chain(since);
    let mut named: Vec<Id> = named.filter(|id| **id != begun.trip).cloned().collect();
    named.sort();
    named.dedup();
    named
}
