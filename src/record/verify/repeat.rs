//! The walk of a trip walked again, event by event, by the rules of this program.
//!
//! Bytes and signatures show who signed what. They do not show that a walk was ever walked so:
//! whoever has a key can write a journal by hand and sign it.

use crate::checklist::Plan;
use crate::drill::Did;
use crate::record::{Examined, Finding, TripFault, Verified};
use crate::walk::Departure;
use std::sync::Arc;

impl Examined {
    /// Adds where the walk departs from the rules, given its checklist laid on its rig, or nothing
    /// where this program cannot lay it. A trip whose bytes cannot be relied on stays as it is.
    #[must_use]
    pub fn repeated(mut self, plan: Option<&Arc<Plan>>) -> Self {
        let departs = self
            .trip
            .as_ref()
            .and_then(|trip| departure(trip, plan).map(|why| (why, trip.begun().program.clone())));
        if let Some(((line, why), program)) = departs {
            self.faults.push(TripFault::Rules { line, why, program });
        }
        self
    }

    /// Whether the walk can be told, and gone on with, from its events.
    pub fn is_reliable(&self) -> bool {
        matches!(self.finding(), Finding::Intact | Finding::Unsealed)
    }
}

/// The first line, counted from 1, that the rules do not give, and why.
fn departure(trip: &Verified, plan: Option<&Arc<Plan>>) -> Option<(usize, Departure)> {
    let begun = trip.begun();
    let Some(plan) = plan else {
        return Some((1, Departure::NoPlan));
    };
    if *trip.actor() != begun.reader {
        return Some((1, Departure::Actor));
    }
    let mut walk = begun.walk(Arc::clone(plan), trip.at().clone());
    for (line, entry) in lines_of(trip).zip(trip.entries()) {
        if let Err(why) = walk.repeat(entry) {
            return Some((line, why));
        }
    }
    let signer = trip.sealed().map(|sealed| sealed.person.name.as_str());
    let stranger = signer.is_some_and(|name| !walk.is_walked_by(name));
    stranger.then(|| (trip.lines().len(), Departure::Signer))
}

/// The line of each event of the walk, counted from 1.
fn lines_of(trip: &Verified) -> Box<dyn Iterator<Item = usize> + '_> {
    let told = trip.drilled();
    if told.is_empty() {
        return Box::new(2..);
    }
    let walked = (2..).zip(told);
    Box::new(walked.filter_map(|(line, one)| matches!(one.did, Did::Walked(_)).then_some(line)))
}
