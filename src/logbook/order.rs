//! The order of a whole logbook: what numbers, hashes and managers' statements say of trips that
//! are here, and of those that are not.
//!
//! Trips come in one after the other, as verified; of each only some hundred bytes are kept. Give
//! them device by device in rising number, copies of one number together: so it is exact even
//! where a trip that was passed by unsealed lies here in several copies.

mod closings;
mod device;
mod ended;
mod fault;
mod note;
mod placed;
mod reach;
mod rows;
mod witness;

pub use closings::{Closing, GoesOn, closings, is_ended, last_closings};
pub use ended::Ended;
pub use fault::{Neighbour, OrderFault};
pub use note::{InUse, Note};
pub use placed::{Ending, end, stub};
pub use witness::Witness;

use crate::logbook::order::device::History;
use crate::logbook::order::placed::{Placed, TakenOut};
use crate::logbook::order::witness::Knowledge;
use crate::logbook::took_part;
use crate::record::{
    Countersigned, Digest, Id, Opinion, PublicKey, Says, Stated, Statements, Verified,
};
use crate::walk::Words;
use std::collections::{BTreeMap, HashMap, HashSet};

/// The trips taken so far, beside what managers stated.
#[derive(Debug)]
pub struct Order<'s> {
    statements: &'s Statements,
    knowledge: Knowledge<'s>,
    devices: BTreeMap<Id, History<'s>>,
    /// The countersigns of each seal.
    countersigns: HashMap<Digest, Vec<&'s Stated>>,
    /// Those of them by someone who took part.
    own: Vec<(Digest, &'s Stated)>,
    /// Whether they are drills, of which no statement says anything.
    drills: bool,
}

/// What the order of trips comes to.
#[derive(Clone, Debug, Default)]
pub struct Judged<'s> {
    /// Everything wrong.
    pub faults: Vec<OrderFault>,
    /// Everything told that is no fault.
    pub notes: Vec<Note>,
    /// The newest trip of each device. What came after it leaves no gap.
    pub newest: Vec<Newest>,
    later_than: HashMap<Digest, &'s Stated>,
    earlier_than: HashMap<Digest, &'s Stated>,
    ended: HashMap<Digest, Ended>,
    countersigns: HashMap<Digest, Vec<&'s Stated>>,
}

/// The newest trip of a device that is here, and the last of its trips that a manager witnessed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Newest {
    /// The device.
    pub device: Id,
    /// The newest trip's number.
    pub seq: u64,
    /// The last one witnessed, and by whom.
    pub witnessed: Option<(u64, Witness)>,
}

/// Between which statements a trip was made. This is order and no time: the clocks are claims.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Bracket {
    /// It is later than this one, which it quotes.
    pub later_than: Option<Witness>,
    /// It is earlier than this one, the first that reaches it.
    pub earlier_than: Option<Witness>,
}

/// A manager's word on a trip.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Countersign<'s> {
    /// Whose word.
    pub by: Witness,
    /// What it says.
    pub says: &'s Countersigned,
}

impl<'s> Order<'s> {
    /// No trip yet, beside these statements.
    pub fn new(statements: &'s Statements) -> Self {
        let mut order = Self {
            statements,
            knowledge: Knowledge::of(statements),
            devices: BTreeMap::new(),
            countersigns: HashMap::new(),
            own: Vec::new(),
            drills: false,
        };
        for stated in statements.counting() {
            order.hear(stated);
        }
        order
    }

    /// The same of drills, which are laid in order among themselves: what one quotes of statements is
    /// not looked for.
    pub fn of_drills(none: &'s Statements) -> Self {
        Self {
            drills: true,
            ..Self::new(none)
        }
    }

    fn hear(&mut self, stated: &'s Stated) {
        for head in &stated.statement().heads {
            let history = self.devices.entry(head.device.clone()).or_default();
            history.pin(head.seq, head.ends, stated);
        }
        match &stated.statement().says {
            Says::Crew(_) | Says::Joined(_) => {}
            Says::Countersigned(trip) => {
                let history = self.devices.entry(trip.device.clone()).or_default();
                history.pin_seal(trip.seq, trip.seal, stated);
                let same = self.countersigns.entry(trip.seal).or_default();
                same.push(stated);
            }
            Says::ForkClosed(fork) => {
                let history = self.devices.entry(fork.device.clone()).or_default();
                history.closed.push((fork, stated));
            }
            Says::DefectOwned(owned) => {
                let history = self.devices.entry(owned.device.clone()).or_default();
                history.pin_seal(owned.seq, owned.seal, stated);
            }
            Says::Pruned(pruned) => {
                for stub in &pruned.trips {
                    let history = self.devices.entry(stub.device.clone()).or_default();
                    let _ = history.take(Placed::tombstone(stub, stated));
                }
            }
            Says::LossAccepted(loss) => {
                let history = self.devices.entry(loss.device.clone()).or_default();
                history.lost.push((loss, stated));
            }
        }
    }

    /// Whether a trip of this number is here, or its tombstone.
    pub fn has(&self, device: &Id, seq: u64) -> bool {
        let history = self.devices.get(device);
        history.is_some_and(|history| !history.at(seq).is_empty())
    }

    /// Takes in a trip. The same one from two folders counts once, and its fuller copy speaks.
    pub fn take(&mut self, trip: &Verified) {
        self.takes_as_known(trip);
    }

    /// Takes in a trip, and answers whether it was here already, whole or in part.
    pub fn takes_as_known(&mut self, trip: &Verified) -> bool {
        let placed = Placed::here(trip, self.taken_out(trip));
        let seal = trip.sealed().map(|sealed| sealed.hash);
        let countersigns = seal.and_then(|seal| self.countersigns.get(&seal));
        for stated in countersigns.into_iter().flatten() {
            let by = stated.statement();
            let told = (placed.end(), *stated);
            if took_part(trip, &by.manager, &by.name) && !self.own.contains(&told) {
                self.own.push(told);
            }
        }
        let device = trip.begun().device.clone();
        self.devices.entry(device).or_default().take(placed)
    }

    /// The keys it is signed with that a later crew file took out.
    fn taken_out(&self, trip: &Verified) -> Vec<TakenOut> {
        let roster = self.statements.roster();
        let (Some(sealed), Some(first)) = (trip.sealed(), roster.revisions().first()) else {
            return Vec::new();
        };
        let begun = trip.begun();
        let since = self.statements.in_force_for(&begun.crew, begun.manager);
        // What was there before the roster stands as what it first put in force.
        let since = since.unwrap_or(first);
        let out = |who: &Id, key: &PublicKey| {
            let (revision, how) = roster.taken_out(key, since)?;
            Some(TakenOut {
                how,
                who: who.clone(),
                by: revision.statement,
            })
        };
        [&sealed.person, &sealed.device]
            .into_iter()
            .filter_map(|signer| out(&signer.id, &signer.key))
            .collect()
    }

    /// What it comes to.
    pub fn judge(self) -> Judged<'s> {
        let mut judged = Judged {
            earlier_than: reach::first_that_reaches(self.statements, &self.devices),
            countersigns: self.countersigns.clone(),
            ..Judged::default()
        };
        for (device, history) in &self.devices {
            history.judge(device, &self.knowledge, &mut judged);
        }
        if !self.drills {
            self.quotes(&mut judged);
        }
        judged
            .faults
            .extend(reach::too_late(self.statements, &self.devices));
        for (end, by) in &self.own {
            if let Some(same) = judged.countersigns.get_mut(end) {
                same.retain(|one| one != by);
            }
        }
        for (device, history) in &self.devices {
            for trip in history.trips() {
                if let Some(same) = judged.countersigns.get_mut(&trip.end()) {
                    same.retain(|one| names(one, device, trip.stub.seq));
                }
            }
        }
        // Where another's word counts, this one takes nothing from it.
        let mut alone = self.own.clone();
        alone.retain(|(end, _)| !judged.is_countersigned(end));
        for (end, by) in &alone {
            let trips = self.devices.iter().flat_map(|(device, history)| {
                let trips = history.trips().filter(|trip| trip.end() == *end);
                trips.map(move |trip| (device, trip))
            });
            judged
                .faults
                .extend(trips.map(|(device, trip)| OrderFault::Own {
                    device: device.clone(),
                    trip: Neighbour::of(trip),
                    by: Witness::of(by),
                }));
        }
        let joined = self.statements.counting();
        let joined = joined.filter_map(|stated| match &stated.statement().says {
            Says::Joined(joined) => Some(Note::Joined {
                manager: joined.manager.clone(),
                by: Witness::of(stated),
            }),
            _ => None,
        });
        judged.notes.extend(joined);
        judged.notes.extend(reach::two_places(&self.devices));
        judged
    }

    /// The statements that trips quote.
    fn quotes(&self, judged: &mut Judged<'s>) {
        let mut missing = HashSet::new();
        for (device, history) in &self.devices {
            for trip in history.trips() {
                let Some(named) = trip.stub.manager else {
                    continue;
                };
                if let Some(stated) = self.statements.find(&named) {
                    judged.later_than.insert(trip.end(), stated);
                } else if missing.insert(named) {
                    judged.faults.push(OrderFault::Statement {
                        device: device.clone(),
                        seq: trip.stub.seq,
                        named,
                    });
                }
            }
        }
    }
}

impl<'s> Countersign<'s> {
    /// A statement, where it is a word on a trip.
    pub fn of(stated: &'s Stated) -> Option<Self> {
        match &stated.statement().says {
            Says::Countersigned(says) => Some(Self {
                by: Witness::of(stated),
                says,
            }),
            _ => None,
        }
    }

    /// What is asked, where it is a question.
    pub fn question(&self) -> Option<&'s str> {
        let asked = self.says.opinion == Opinion::Asked;
        let words = self.says.remarks.as_ref().filter(|_| asked);
        words.map(Words::as_str)
    }
}

/// Whether a countersign is of a trip of this device and number.
fn names(stated: &Stated, device: &Id, seq: u64) -> bool {
    match &stated.statement().says {
        Says::Countersigned(trip) => trip.device == *device && trip.seq == seq,
        _ => false,
    }
}

impl Judged<'_> {
    /// Between which statements the trip with this [`end`] was made.
    pub fn bracket(&self, end: &Digest) -> Bracket {
        let witness = |of: &HashMap<Digest, &Stated>| of.get(end).copied().map(Witness::of);
        Bracket {
            later_than: witness(&self.later_than),
            earlier_than: witness(&self.earlier_than),
        }
    }

    /// What managers who took no part in it say to the trip with this seal.
    pub fn countersigns(&self, seal: &Digest) -> Vec<Countersign<'_>> {
        let same = self.countersigns.get(seal).into_iter().flatten();
        same.copied().filter_map(Countersign::of).collect()
    }

    /// By which word the history with the trip of this [`end`] in it ended.
    pub fn ended(&self, end: &Digest) -> Option<&Ended> {
        self.ended.get(end)
    }

    /// Whether a manager who took no part in it agreed to the trip with this seal.
    pub fn is_countersigned(&self, seal: &Digest) -> bool {
        let says = self.countersigns(seal);
        says.iter().any(|one| one.says.opinion == Opinion::Agreed)
    }
}
