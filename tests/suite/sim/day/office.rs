//! The managers: one in the office, who countersigns trips and changes the crew, and another who
//! countersigns elsewhere. Each does it on one laptop: a manager who signs on two that do not know of
//! each other contradicts themselves.

use super::Day;
use super::managers::OTHERS;
use crate::sim::barn::{MANAGER, OTHER, RECRUITS, ROOT, recruit};
use crate::sim::law::{Records, broken};
use hames::cli::clerk::{Books, Plans, Said};
use hames::record::{CrewAct, Finding, Id, Opinion, PrintedName, SignedOff};
use hames::store::TripFolder;
use hames::walk::Words;
use std::collections::BTreeSet;
use std::path::Path;

/// What came of the manager's acts.
#[derive(Default)]
pub(super) struct Office {
    /// How many statements were called kept.
    pub(super) kept: usize,
    /// How often a fork was closed, and how often in opposite ways.
    pub(super) closed: usize,
    pub(super) opposite: usize,
    /// How many rows of trips were given up, and how many trips were pruned.
    pub(super) given_up: usize,
    pub(super) pruned: usize,
    /// The files of trips that were pruned.
    pub(super) removed: Records,
    /// Who was taken out of the crew.
    pub(super) taken_out: Vec<TakenOut>,
    /// Trips that were begun and signed, in the order it came to pass.
    pub(super) passed: Vec<Passed>,
    agreed: BTreeSet<TripFolder>,
}

/// Somebody who was taken out, or perhaps was, before power went.
pub(super) struct TakenOut {
    pub(super) who: Id,
    /// Whether it was called done.
    pub(super) certain: bool,
    /// How much had come to pass by then.
    pub(super) when: usize,
    /// The trips of theirs that were known then, as sealed, and named so by the next.
    pub(super) known: BTreeSet<(&'static str, u64)>,
}

/// A trip was begun or signed.
pub(super) struct Passed {
    pub(super) device: &'static str,
    pub(super) seq: u64,
    /// Who signed it; nobody where it was begun.
    pub(super) signed: Option<String>,
}

/// The manager's laptop.
pub(super) const OFFICE: usize = 0;

impl Day {
    /// The manager does the next thing.
    pub(super) fn in_the_office(&mut self) {
        match self.dice.below(10) {
            0 if self.laptops.len() > OTHERS && self.has_roster(OTHERS) => {
                self.countersigns_on(OTHERS, OTHER.0);
            }
            0..5 => self.countersigns_on(OFFICE, MANAGER),
            5 => self.signs_off(),
            6..8 => self.lets_in(),
            _ => self.takes_out(),
        }
        for at in 0..self.laptops.len() {
            if self.laptops[at].disk.is_dead() {
                self.comes_back(at);
            }
        }
    }

    /// One of the managers countersigns on the laptop that is theirs. From a backup of before
    /// nothing is put back there any more.
    pub(super) fn countersigns_on(&mut self, at: usize, manager: &str) {
        self.backups[at] = None;
        let disk = self.laptops[at].disk.after_death();
        let books = Books::open(&disk, Path::new(ROOT)).unwrap();
        let mut trips = books.trips().unwrap();
        trips.retain(|(_, folder)| books.logbook.is_signed(folder).unwrap());
        if trips.is_empty() {
            return;
        }
        let trip = self.dice.of(&trips).clone();
        let read = books.read(&trip.0, &trip.1, &mut Plans::default()).unwrap();
        let journal = disk.seen(&trip.1.journal()).unwrap();
        let own = String::from_utf8(journal).unwrap().contains("Odile Marsh");
        let must = !own
            && at == OFFICE
            && !self.office.agreed.contains(&trip.1)
            && !self.laptops[OFFICE].partial
            && !self.laptops[OFFICE].disk.is_troubled()
            && self.laptops.iter().all(|laptop| !laptop.restored)
            && read.finding() <= Finding::NotCountersigned
            && self.office.taken_out.is_empty();
        let said = Said {
            took_ms: 61_000,
            opinion: Opinion::Agreed,
            opened: Vec::new(),
            remarks: None,
        };
        self.tell(at, &format!("{} is countersigned", trip.1.path.display()));
        let kept = self.laptops[at].keeps_of(
            manager,
            |clerk, manager, consent| clerk.countersign(&trip, (manager, consent), said.clone()),
            false,
        );
        if at == OFFICE {
            self.office.agreed.insert(trip.1);
        }
        match kept {
            Ok(_) => self.office.kept += 1,
            Err(why) if must => broken(&format!("not countersigned, with a good disk: {why}")),
            Err(why) => self.tell(at, &why),
        }
    }

    pub(super) fn signs_off(&mut self) {
        let rigs = *self.dice.of(&[None, Some("juniper")]);
        let act = CrewAct::SignOff(SignedOff {
            person: Id::read("wren.ashdown").unwrap(),
            rigs: rigs.map(|rig| vec![Id::read(rig).unwrap()]),
            checklists: None,
            rides: Vec::new(),
        });
        self.changes(&act);
    }

    fn lets_in(&mut self) {
        let at = usize::try_from(self.dice.below(2)).unwrap();
        let (id, name, role) = RECRUITS[at];
        self.changes(&CrewAct::Add {
            id: Id::read(id).unwrap(),
            name: PrintedName::read(name).unwrap(),
            roles: vec![role],
            key: recruit(at),
            words: None,
        });
    }

    fn takes_out(&mut self) {
        let who = *self.dice.of(&["tobias.fenn", RECRUITS[0].0, RECRUITS[1].0]);
        let who = Id::read(who).unwrap();
        let words = Words::read("left the barn").unwrap();
        let act = if self.dice.in_hundred(50) {
            CrewAct::Retire(who.clone(), words)
        } else {
            CrewAct::Revoke(who.clone(), words, None)
        };
        let when = self.office.passed.len();
        let known = self.known_of(&who);
        let before = self.laptops[OFFICE].disk.changes();
        let certain = self.changes(&act);
        if certain || self.laptops[OFFICE].disk.changes() != before {
            self.office.taken_out.push(TakenOut {
                who,
                certain,
                when,
                known,
            });
        }
    }

    /// Changes the crew; whether it was called done.
    fn changes(&mut self, act: &CrewAct) -> bool {
        self.tell(OFFICE, &format!("{act:?}"));
        match self.laptops[OFFICE].change_crew(act) {
            Ok(_) => {
                self.office.kept += 1;
                true
            }
            Err(why) => {
                self.tell(OFFICE, &why);
                false
            }
        }
    }

    /// The trips that somebody signed and that the manager's laptop knows as sealed: no later trip
    /// of theirs was begun before that.
    fn known_of(&self, who: &Id) -> BTreeSet<(&'static str, u64)> {
        let office = &self.laptops[OFFICE];
        let mut known = BTreeSet::new();
        if office.partial {
            return known;
        }
        let passed = self.office.passed.iter().enumerate();
        for (at, one) in passed.filter(|(_, one)| one.signed.as_deref() == Some(who.as_str())) {
            let laptop = self
                .laptops
                .iter()
                .find(|laptop| laptop.device == one.device);
            let Some(laptop) = laptop.filter(|laptop| !laptop.restored) else {
                continue;
            };
            let passed_by = self.office.passed[..at].iter().any(|other| {
                other.device == one.device && other.seq > one.seq && other.signed.is_none()
            });
            let mut told = laptop.told.iter();
            let told = told.find(|(folder, _)| folder.seq == one.seq);
            let (_, sealed) = told.map_or((false, false), |(folder, told)| {
                super::backup::has(&office.disk, one.device, folder.seq, told)
            });
            if sealed && !passed_by {
                known.insert((one.device, one.seq));
            }
        }
        known
    }
}
