//! Trips of an invented barn, written as the program writes them: line by line, sealed and signed.

use crate::walked::{checklist, words};
use chrono::TimeDelta;
use hames::record::{
    Begun, Counts, Crew, Deed, DeviceKey, Dice, Digest, Id, Mode, Namespace, Pinned, Previous,
    PrintedName, PublicKey, Role, Said, Seal, SealFiles, Signer, Tip, TripFiles, Wall, append,
    meaning,
};
use hames::rig::demo::JUNIPER;
use hames::store::Unsynced;
use hames::store::{self, Device, Logbook, TripFolder, write_once};
use hames::walk::{Entry, Event};
use std::path::Path;
use std::sync::Arc;

pub(crate) const PERFORMED: Namespace = Namespace::new(Deed::Performed, Mode::Real);
pub(crate) const WITNESSED: Namespace = Namespace::new(Deed::Witnessed, Mode::Real);

/// The driver and the laptop. The driver's key is without a passphrase: asking for one is slow on
/// purpose, and whoever verifies never does.
pub(crate) struct Barn {
    pub(crate) driver: DeviceKey,
    pub(crate) laptop: DeviceKey,
    pub(crate) crew: Crew,
}

/// The files of one trip.
pub(crate) struct Trip {
    pub(crate) journal: Vec<u8>,
    pub(crate) checklist: Arc<[u8]>,
    pub(crate) rig: Arc<[u8]>,
    pub(crate) seal: Vec<u8>,
    pub(crate) by_person: Vec<u8>,
    pub(crate) by_device: Vec<u8>,
}

impl Barn {
    pub(crate) fn new() -> Self {
        let key = |dice, name| DeviceKey::make(&Dice::new([dice; 52]), &id(name)).unwrap();
        let (driver, laptop) = (key(1, "wren.ashdown"), key(2, "laptop-7f3a"));
        let signers = [
            signer(
                "wren.ashdown",
                Role::Driver,
                driver.public(),
                "Wren Ashdown",
            ),
            signer("laptop-7f3a", Role::Device, laptop.public(), "Laptop"),
        ];
        let crew = signers
            .iter()
            .fold(Crew::read(b"").unwrap(), |crew, one| crew.add(one).unwrap());
        Self {
            driver,
            laptop,
            crew,
        }
    }

    /// What line 0 of a trip binds.
    pub(crate) fn begun(&self, seq: u64, previous: Option<Previous>) -> Begun {
        let pinned = |id: &str, text: &str| Pinned {
            id: id.to_owned(),
            hash: Digest::of(text.as_bytes()),
        };
        Begun {
            trip: id(&format!("{seq:08x}9f0c11b2")),
            mode: Mode::Real,
            device: id("laptop-7f3a"),
            seq,
            previous,
            checklist: pinned("hitch-bumper", checklist()),
            rig: pinned("juniper", JUNIPER),
            crew: self.crew.revision(),
            manager: None,
            program: env!("CARGO_PKG_VERSION").to_owned(),
            odometer: None,
            reader: words("Wren Ashdown"),
            doer: words("Tobias Fenn"),
            haul: None,
            carried: vec![],
            paper: None,
            answers: Vec::new(),
            drill: None,
        }
    }

    /// The same walk on so many days, nothing of it on a disk.
    pub(crate) fn trips(&self, days: u64, walk: &[Entry]) -> Vec<Trip> {
        let mut previous = None;
        let texts = [checklist(), JUNIPER].map(|text| Arc::from(text.as_bytes()));
        let trip = |seq| {
            let trip = self.trip(&self.begun(seq, previous), texts.clone(), walk);
            previous = Some(Previous::Sealed(Seal::hash(&trip.seal)));
            trip
        };
        (1..=days).map(trip).collect()
    }

    /// A logbook in `root` of these trips, and where each of them lies.
    pub(crate) fn logbook(&self, root: &Path, trips: &[Trip]) -> Vec<TripFolder> {
        let logbook = Logbook::make(Unsynced, root).unwrap();
        logbook.replace_crew(self.crew.text().as_bytes()).unwrap();
        let device = Device::take(&logbook, &id("laptop-7f3a")).unwrap();
        let keep = |(seq, trip): (u64, &Trip)| self.keep(&device, seq, trip);
        (1..).zip(trips).map(keep).collect()
    }

    fn trip(&self, begun: &Begun, [checklist, rig]: [Arc<[u8]>; 2], walk: &[Entry]) -> Trip {
        let days = TimeDelta::days(i64::try_from(begun.seq).unwrap());
        let walk: Vec<Entry> = walk
            .iter()
            .cloned()
            .map(|mut entry| {
                entry.at.wall += days;
                entry
            })
            .collect();
        let first = Said::Begun(Box::new(begun.clone()));
        let (mut journal, mut tip) =
            append(Tip::START, &walk[0].at, &words("Wren Ashdown"), &first).unwrap();
        for entry in &walk {
            let (line, next) = next_line(tip, entry);
            journal.extend(line);
            tip = next;
        }
        let seal = sealed(begun, tip, &walk);
        let signed = |key: &DeviceKey, namespace| key.sign(namespace, &seal).unwrap().into_bytes();
        Trip {
            by_person: signed(&self.driver, PERFORMED),
            by_device: signed(&self.laptop, WITNESSED),
            journal,
            checklist,
            rig,
            seal,
        }
    }

    fn keep(&self, device: &Device<Unsynced>, seq: u64, trip: &Trip) -> TripFolder {
        let texts = store::Pinned {
            checklist: &trip.checklist,
            rig: &trip.rig,
            crew: self.crew.text().as_bytes(),
            drill: None,
        };
        let mut lines = trip.journal.trim_ascii_end().split(|byte| *byte == b'\n');
        let begun = self.begun(seq, None);
        let (folder, mut journal) = device
            .begin(seq, &begun.trip, texts, lines.next().unwrap())
            .unwrap();
        lines.for_each(|line| journal.append(line).unwrap());
        for (path, bytes) in [
            (folder.seal(), &trip.seal),
            (folder.person_signature(), &trip.by_person),
            (folder.device_signature(), &trip.by_device),
        ] {
            write_once(&Unsynced, &path, bytes, store::Mode::Shared).unwrap();
        }
        folder
    }
}

impl Trip {
    pub(crate) fn files(&self) -> TripFiles<'_> {
        TripFiles {
            drill: hames::record::DrillFiles::default(),
            journal: &self.journal,
            checklist: &self.checklist,
            rig: &self.rig,
            seal: Some(SealFiles {
                seal: &self.seal,
                by_person: Some(&self.by_person),
                by_device: Some(&self.by_device),
            }),
        }
    }
}

/// The line of an entry, line end included.
pub(crate) fn next_line(tip: Tip, entry: &Entry) -> (Vec<u8>, Tip) {
    let said = Said::Happened(Box::new(entry.event.clone()));
    append(tip, &entry.at, &entry.actor, &said).unwrap()
}

fn sealed(begun: &Begun, tip: Tip, walk: &[Entry]) -> Vec<u8> {
    let Event::Ended { outcome, .. } = walk.last().unwrap().event else {
        panic!("a walk that has not ended is not sealed");
    };
    let seal = Seal {
        trip: begun.trip.clone(),
        mode: begun.mode,
        device: begun.device.clone(),
        seq: begun.seq,
        lines: tip.lines,
        last: tip.last,
        outcome,
        counts: Counts::of(walk),
        meaning: meaning(outcome).to_owned(),
        name: PrintedName::read("Wren Ashdown").unwrap(),
        role: Role::Driver,
        person: id("wren.ashdown"),
        wall: Wall::new(walk.last().unwrap().at.wall).unwrap(),
    };
    seal.write().unwrap()
}

fn signer(who: &str, role: Role, key: &PublicKey, name: &str) -> Signer {
    Signer {
        id: id(who),
        roles: vec![role],
        namespaces: vec![Namespace::new(role.deed(), Mode::Real)],
        key: key.clone(),
        name: PrintedName::read(name).unwrap(),
    }
}

fn id(text: &str) -> Id {
    Id::read(text).unwrap()
}
