//! What the trips of a logbook come to together, gathered one after the other.

use crate::cli::clerk::TripRead;
use crate::cli::logbook::shelf::name;
use crate::logbook::order::{Judged, end};
use crate::logbook::table::{Asked, OpenQuestion};
use crate::logbook::{ClockWatch, Leg, Thresholds, questions};
use crate::record::{Digest, Finding, Id, Statements};
use crate::review::{Brief, Trace};
use crate::store::{StoreFault, TripFolder};
use chrono::{DateTime, FixedOffset};
use std::collections::HashMap;

/// What was gathered so far. Of each trip only some kilobytes are kept.
#[derive(Default)]
pub(super) struct Gathered {
    /// Each with the name of its trip, and with what tells that from every other.
    legs: Vec<(Digest, String, Leg)>,
    clocks: ClockWatch,
    /// What managers asked, and what still stands.
    pub(super) open: Vec<OpenQuestion>,
    /// What verification finds of each trip that counts.
    findings: HashMap<Id, Finding>,
    /// What there is to ask about how each trip came about.
    pub(super) briefs: Vec<Brief>,
    /// Trips that count for nothing, with what verification finds.
    pub(super) left_out: Vec<(String, String)>,
    pub(super) trips: usize,
}

impl Gathered {
    /// Takes in the next trip with what is found of it: device by device, in the order of numbers.
    pub(super) fn take(
        &mut self,
        folder: &TripFolder,
        (read, finding): (Result<&TripRead, &StoreFault>, Finding),
        statements: &Statements,
    ) {
        self.trips += 1;
        let why = match read {
            Ok(read) => match (read.walk(), read.trip()) {
                (Ok(walk), Some(trip)) => {
                    self.clocks.take(trip);
                    let id = trip.begun().trip.clone();
                    self.findings.insert(id, finding);
                    self.briefs.push(Brief::of(&Trace::of((trip, &walk))));
                    let leg = Leg::of(&walk, trip, statements);
                    self.legs.push((end(trip), name(folder), leg));
                    return;
                }
                _ => finding.to_string(),
            },
            Err(fault) => fault.to_string(),
        };
        self.left_out.push((name(folder), why));
    }

    /// Leaves out the ways of histories that a manager ended: the truck went on by another.
    pub(super) fn leave_ended(&mut self, judged: &Judged<'_>) {
        for (end, name, _) in &self.legs {
            if let Some(ended) = judged.ended(end) {
                self.left_out.push((name.clone(), ended.to_string()));
            }
        }
        self.legs.retain(|(end, ..)| judged.ended(end).is_none());
    }

    /// What there is to ask. The clock of whoever asks is one thing known.
    pub(super) fn asked(self, now: Option<DateTime<FixedOffset>>) -> Asked {
        let legs = self.legs.into_iter().map(|(_, _, leg)| leg).collect();
        Asked {
            questions: questions(legs, &Thresholds::default()),
            open: self.open,
            marks: self.clocks.marks(now),
            findings: self.findings,
        }
    }
}
