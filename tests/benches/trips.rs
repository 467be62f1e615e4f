//! Trips of an invented barn, written as the program writes them: line by line, sealed and signed.

use crate::unsynced::Unsynced;
use crate::walked::{checklist, words};
use chrono::TimeDelta;
use hames::record::{
    Begun, Counts, Crew, Deed, DeviceKey, Dice, Digest, Id, Mode, Namespace, Pinned, Previous,
    PrintedName, PublicKey, Role, Said, Seal, SealFiles, Signer, Tip, TripFiles, Wall, append,
    meaning,
};
use hames::rig::demo::JUNIPER;
use hames::store::{self, Device, JournalText, Logbook, TripFolder, write_once};
use hames::walk::{Ended, Entry};
use std::path::Path;

pub(crate) const PERFORMED: Namespace = Namespace::new(Deed::Performed, Mode::Real);
pub(crate) const WITNESSED: Namespace = Namespace::new(Deed::Witnessed, Mode::Real);

/// The driver and the laptop. The driver's key is without a passphrase: asking for one is slow on
/// purpose, and whoever verifies never does.
pub(crate) struct Barn {
    pub(crate) driver: DeviceKey,
    pub(crate) laptop: DeviceKey,
    pub(crate) crew: Crew,
}

/// The files of one trip, read back.
pub(crate) struct Trip {
    pub(crate) folder: TripFolder,
    pub(crate) journal: Vec<u8>,
    pub(crate) checklist: Vec<u8>,
    pub(crate) rig: Vec<u8>,
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
        }
    }

    /// A logbook in `root` with the same walk on so many days, read back as `verify` takes it.
    pub(crate) fn logbook(&self, root: &Path, days: u64, walk: &[Entry]) -> Vec<Trip> {
        let logbook = Logbook::make(Unsynced, root).unwrap();
        logbook.replace_crew(self.crew.text().as_bytes()).unwrap();
        let device = Device::take(&logbook, &id("laptop-7f3a")).unwrap();
        let mut previous = None;
        for seq in 1..=days {
            previous = Some(self.trip(&device, seq, previous, walk));
        }
        let folders = logbook.trips(&id("laptop-7f3a")).unwrap().trips;
        folders
            .into_iter()
            .map(|folder| read(&logbook, folder))
            .collect()
    }

    fn trip(
        &self,
        device: &Device<Unsynced>,
        seq: u64,
        previous: Option<Previous>,
        walk: &[Entry],
    ) -> Previous {
        let begun = self.begun(seq, previous);
        let days = TimeDelta::days(i64::try_from(seq).unwrap());
        let walk: Vec<Entry> = walk
            .iter()
            .cloned()
            .map(|mut entry| {
                entry.at.wall += days;
                entry
            })
            .collect();
        let first = Said::Begun(Box::new(begun.clone()));
        let (line, mut tip) =
            append(Tip::START, &walk[0].at, &words("Wren Ashdown"), &first).unwrap();
        let texts = store::Pinned {
            checklist: checklist().as_bytes(),
            rig: JUNIPER.as_bytes(),
            crew: self.crew.text().as_bytes(),
        };
        let (folder, mut journal) = device
            .begin(seq, &begun.trip, texts, line.trim_ascii_end())
            .unwrap();
        for entry in &walk {
            let (line, next) = next_line(tip, entry);
            journal.append(line.trim_ascii_end()).unwrap();
            tip = next;
        }
        let seal = sealed(&begun, tip, &walk);
        let put = |path: &Path, bytes: &[u8]| {
            write_once(&Unsynced, path, bytes, store::Mode::Shared).unwrap();
        };
        put(&folder.seal(), &seal);
        let by_person = self.driver.sign(PERFORMED, &seal).unwrap();
        put(&folder.person_signature(), by_person.as_bytes());
        let by_device = self.laptop.sign(WITNESSED, &seal).unwrap();
        put(&folder.device_signature(), by_device.as_bytes());
        Previous::Sealed(Seal::hash(&seal))
    }
}

impl Trip {
    pub(crate) fn files(&self) -> TripFiles<'_> {
        TripFiles {
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
    let seal = Seal {
        trip: begun.trip.clone(),
        mode: begun.mode,
        device: begun.device.clone(),
        seq: begun.seq,
        lines: tip.lines,
        last: tip.last,
        outcome: Ended::Complete,
        counts: Counts::of(walk),
        meaning: meaning(Ended::Complete).to_owned(),
        name: PrintedName::read("Wren Ashdown").unwrap(),
        role: Role::Driver,
        person: id("wren.ashdown"),
        wall: Wall::new(walk.last().unwrap().at.wall).unwrap(),
    };
    seal.write().unwrap()
}

fn read(logbook: &Logbook<Unsynced>, folder: TripFolder) -> Trip {
    let file = |path: &Path| logbook.read(path).unwrap();
    Trip {
        journal: JournalText::read(logbook.disk(), &folder.journal())
            .unwrap()
            .lines,
        checklist: file(&folder.checklist()),
        rig: file(&folder.rig()),
        seal: file(&folder.seal()),
        by_person: file(&folder.person_signature()),
        by_device: file(&folder.device_signature()),
        folder,
    }
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
