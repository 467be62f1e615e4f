//! How far what a statement names reaches back, and what rests on it: brackets, and keys taken out.

use crate::logbook::order::device::History;
use crate::logbook::order::fault::{Neighbour, OrderFault};
use crate::logbook::order::note::{InUse, Note};
use crate::logbook::order::placed::Placed;
use crate::logbook::order::witness::Witness;
use crate::record::{Digest, Head, Id, Previous, Says, Stated, Statements};
use std::collections::{BTreeMap, HashMap, HashSet};

type Devices<'s> = BTreeMap<Id, History<'s>>;

/// The first statement that reaches each trip.
pub(super) fn first_that_reaches<'s>(
    statements: &'s Statements,
    devices: &Devices<'s>,
) -> HashMap<Digest, &'s Stated> {
    let (mut first, mut been) = (HashMap::new(), HashSet::new());
    for stated in statements.counting() {
        for head in named(stated) {
            reach(devices, &head, &mut been, &mut |end| {
                first.entry(end).or_insert(stated);
            });
        }
    }
    first
}

/// The trips that a statement names by how they end: the heads, the trip it countersigns or where
/// the defect was found, and the histories of the fork it closes, which lie off the line of the heads.
fn named(stated: &Stated) -> Vec<Head> {
    let head = |device: &Id, seq, ends| Head {
        device: device.clone(),
        seq,
        ends,
    };
    let mut named = stated.statement().heads.clone();
    match &stated.statement().says {
        Says::Countersigned(trip) => {
            named.push(head(&trip.device, trip.seq, Previous::Sealed(trip.seal)));
        }
        Says::DefectOwned(owned) => {
            named.push(head(&owned.device, owned.seq, Previous::Sealed(owned.seal)));
        }
        Says::ForkClosed(fork) => {
            let histories = [&fork.goes_on].into_iter().chain(&fork.ended);
            named.extend(histories.map(|one| head(&fork.device, fork.seq, one.ends)));
        }
        Says::Crew(_) | Says::Pruned(_) | Says::LossAccepted(_) | Says::Joined(_) => {}
    }
    named
}

/// Goes back from a trip named along what each trip quotes of the one before. A sealed trip is reached
/// where its seal is named: a line of it says nothing of who signed later.
fn reach(
    devices: &Devices<'_>,
    head: &Head,
    been: &mut HashSet<Digest>,
    mark: &mut impl FnMut(Digest),
) {
    let Some(history) = devices.get(&head.device) else {
        return;
    };
    let mut quoted = Some(head.ends);
    let mut same = history.at(head.seq).iter();
    let mut next = same.find(|trip| trip.stands_to(quoted).is_none());
    while let Some(trip) = next {
        if trip.stub.seal.is_none() || matches!(quoted, Some(Previous::Sealed(_))) {
            mark(trip.end());
        }
        if !been.insert(trip.end()) {
            return;
        }
        quoted = trip.stub.previous;
        next = history.before(trip).next();
    }
}

/// Trips signed with a key that a later crew file took out, and that nothing known then reaches.
pub(super) fn too_late(statements: &Statements, devices: &Devices<'_>) -> Vec<OrderFault> {
    let mut known_then: HashMap<Digest, HashSet<Digest>> = HashMap::new();
    let mut faults = Vec::new();
    for (device, history) in devices {
        for trip in history.trips() {
            for key in &trip.taken_out {
                let Some(by) = statements.find(&key.by) else {
                    continue;
                };
                let known = known_then
                    .entry(key.by)
                    .or_insert_with(|| reached_by(statements, devices, &key.by));
                if !known.contains(&trip.end()) {
                    faults.push(OrderFault::TakenOut {
                        device: device.clone(),
                        trip: Neighbour::of(trip),
                        who: key.who.clone(),
                        how: key.how,
                        by: Witness::of(by),
                    });
                }
            }
        }
    }
    faults
}

/// The trips reached by a statement or by any of those behind it.
fn reached_by(statements: &Statements, devices: &Devices<'_>, by: &Digest) -> HashSet<Digest> {
    let (mut reached, mut been) = (HashSet::new(), HashSet::new());
    let behind = statements.behind(by);
    for stated in behind.iter().filter_map(|hash| statements.find(hash)) {
        for head in named(stated) {
            reach(devices, &head, &mut been, &mut |end| {
                reached.insert(end);
            });
        }
    }
    reached
}

/// Where one person's key was in use on two devices at once, by their clocks.
pub(super) fn two_places(devices: &Devices<'_>) -> Vec<Note> {
    let mut by_person: BTreeMap<&Id, Vec<(&Id, &Placed<'_>)>> = BTreeMap::new();
    for (device, history) in devices {
        for trip in history.trips() {
            if let Some((who, ..)) = &trip.used {
                by_person.entry(who).or_default().push((device, trip));
            }
        }
    }
    let in_use = |(device, trip): (&Id, &Placed<'_>)| {
        let (_, from, until) = trip.used.as_ref()?;
        Some(InUse {
            device: device.clone(),
            seq: trip.stub.seq,
            from: *from,
            until: *until,
        })
    };
    let mut notes = Vec::new();
    for (who, trips) in by_person {
        let mut uses: Vec<InUse> = trips.into_iter().filter_map(in_use).collect();
        uses.sort_by_key(|one| one.from);
        let mut last: Option<InUse> = None;
        for next in uses {
            if let Some(one) = last.as_ref()
                && one.device != next.device
                && next.from < one.until
            {
                notes.push(Note::TwoPlaces {
                    who: who.clone(),
                    one: one.clone(),
                    other: next.clone(),
                });
            }
            if last.as_ref().is_none_or(|one| one.until < next.until) {
                last = Some(next);
            }
        }
    }
    notes
}
