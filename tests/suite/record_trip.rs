//! Trips of an invented barn, recorded, sealed and signed, for the tests of verification.

use crate::walk::bench::Bench;
use hames::record::{
    Begun, Counts, Crew, Deed, DeviceKey, Dice, Digest, Examined, Id, LockedKey, Mode, Namespace,
    Passphrase, Pinned, Previous, PrintedName, PublicKey, Role, Said, Seal, SealFiles, Signer, Tip,
    TripFiles, Verified, Wall, append, meaning, read_chain, verify,
};
use hames::units::{Dimension, Typed};
use hames::walk::{Ended, Entry, Event, Moment, Words};
use std::sync::LazyLock;

pub(crate) const PHRASE: &str = "hay & oats";
pub(crate) const CHECKLIST: &[u8] = b"id: bench\n";
pub(crate) const RIG: &[u8] = b"id: juniper\n";

pub(crate) static WREN: LazyLock<LockedKey> =
    LazyLock::new(|| LockedKey::make(&Dice::new([1; 52]), &phrase(), &id("wren.ashdown")).unwrap());
/// Her key with nothing around it: to unlock it takes most of the time of a test that seals much.
static WREN_UNLOCKED: LazyLock<DeviceKey> =
    LazyLock::new(|| DeviceKey::make(&Dice::new([1; 52]), &id("wren.ashdown")).unwrap());
pub(crate) static TOBIAS: LazyLock<LockedKey> =
    LazyLock::new(|| LockedKey::make(&Dice::new([2; 52]), &phrase(), &id("tobias.fenn")).unwrap());
pub(crate) static LAPTOP: LazyLock<DeviceKey> =
    LazyLock::new(|| DeviceKey::make(&Dice::new([3; 52]), &id("laptop-7f3a")).unwrap());

pub(crate) fn id(text: &str) -> Id {
    Id::read(text).unwrap()
}

pub(crate) fn words(text: &str) -> Words {
    Words::read(text).unwrap()
}

pub(crate) fn phrase() -> Passphrase {
    Passphrase::new(PHRASE.to_owned().into()).unwrap()
}

pub(crate) fn signer(who: &str, role: Role, key: &PublicKey, name: &str) -> Signer {
    Signer {
        id: id(who),
        roles: vec![role],
        namespaces: Mode::ALL
            .map(|mode| Namespace::new(role.deed(), mode))
            .to_vec(),
        key: key.clone(),
        name: PrintedName::read(name).unwrap(),
    }
}

pub(crate) fn crew() -> Crew {
    [
        signer("wren.ashdown", Role::Driver, WREN.public(), "Wren Ashdown"),
        signer("tobias.fenn", Role::Groom, TOBIAS.public(), "Tobias Fenn"),
        signer(
            "laptop-7f3a",
            Role::Device,
            LAPTOP.public(),
            "Laptop in the tack room",
        ),
    ]
    .iter()
    .fold(Crew::read(b"").unwrap(), |crew, signer| {
        crew.add(signer).unwrap()
    })
}

/// The files of a trip.
#[derive(Clone)]
pub(crate) struct Trip {
    pub(crate) journal: Vec<u8>,
    pub(crate) checklist: Vec<u8>,
    pub(crate) rig: Vec<u8>,
    pub(crate) seal: Option<Vec<u8>>,
    pub(crate) by_person: Option<Vec<u8>>,
    pub(crate) by_device: Option<Vec<u8>>,
}

impl Trip {
    /// A sealed trip of this script.
    pub(crate) fn of(script: &str) -> Self {
        Self::numbered(1, None, script)
    }

    pub(crate) fn numbered(seq: u64, previous: Option<Previous>, script: &str) -> Self {
        let mut bench = Bench::new();
        bench.play(script);
        let at = bench.walk.began().clone();
        let mut trip = Self::recorded(&begun(seq, previous), &at, &bench.journal);
        if let Some(outcome) = bench.walk.ended() {
            trip.seal(&seal(seq, &trip, outcome, &bench.journal));
        }
        trip
    }

    /// A journal of these entries, not sealed.
    pub(crate) fn recorded(begun: &Begun, at: &Moment, entries: &[Entry]) -> Self {
        let said = Said::Begun(Box::new(begun.clone()));
        let (mut journal, mut tip) = append(Tip::START, at, &words("Wren Ashdown"), &said).unwrap();
        for entry in entries {
            let said = Said::Happened(Box::new(entry.event.clone()));
            let (line, next) = append(tip, &entry.at, &entry.actor, &said).unwrap();
            journal.extend(line);
            tip = next;
        }
        Self {
            journal,
            checklist: CHECKLIST.to_vec(),
            rig: RIG.to_vec(),
            seal: None,
            by_person: None,
            by_device: None,
        }
    }

    /// Seals the trip, signed by Wren and the laptop.
    pub(crate) fn seal(&mut self, seal: &Seal) {
        let bytes = seal.write().unwrap();
        let performed = Namespace::new(Deed::Performed, seal.mode);
        let witnessed = Namespace::new(Deed::Witnessed, seal.mode);
        self.by_person = Some(WREN_UNLOCKED.sign(performed, &bytes).unwrap().into_bytes());
        self.by_device = Some(LAPTOP.sign(witnessed, &bytes).unwrap().into_bytes());
        self.seal = Some(bytes);
    }

    /// The seal as it is, to be changed and signed again by someone who holds the keys.
    pub(crate) fn reseal(&mut self, change: impl FnOnce(&mut Seal)) {
        let mut seal = Seal::read(self.seal.as_ref().unwrap()).unwrap();
        change(&mut seal);
        self.seal(&seal);
    }

    pub(crate) fn examined(&self) -> Examined {
        self.examined_as(Mode::Real, &[crew()])
    }

    pub(crate) fn examined_as(&self, mode: Mode, crews: &[Crew]) -> Examined {
        let seal = self.seal.as_deref().map(|seal| SealFiles {
            seal,
            by_person: self.by_person.as_deref(),
            by_device: self.by_device.as_deref(),
        });
        let files = TripFiles {
            drill: hames::record::DrillFiles::default(),
            journal: &self.journal,
            checklist: &self.checklist,
            rig: &self.rig,
            seal,
        };
        verify(&files, mode, crews)
    }

    pub(crate) fn verified(&self) -> Verified {
        let examined = self.examined();
        examined
            .trip
            .unwrap_or_else(|| panic!("{:?}", examined.faults))
    }
}

pub(crate) fn begun(seq: u64, previous: Option<Previous>) -> Begun {
    let pinned = |id: &str, bytes: &[u8]| Pinned {
        id: id.to_owned(),
        hash: Digest::of(bytes),
    };
    Begun {
        trip: id(&format!("9f0c11b2{seq:04}")),
        mode: Mode::Real,
        device: id("laptop-7f3a"),
        seq,
        previous,
        checklist: pinned("bench", CHECKLIST),
        rig: pinned("juniper", RIG),
        crew: crew().revision(),
        manager: None,
        program: "0.1.0".to_owned(),
        odometer: Some(Typed::read("48210 mi", Dimension::Length).unwrap()),
        reader: words("Wren Ashdown"),
        doer: words("Tobias Fenn"),
        haul: None,
        carried: vec![],
        paper: None,
        answers: Vec::new(),
        drill: None,
    }
}

pub(crate) fn seal(seq: u64, trip: &Trip, outcome: Ended, entries: &[Entry]) -> Seal {
    let begun = begun(seq, None);
    let end = read_chain(&trip.journal).tip();
    let last = entries.last().unwrap();
    assert!(matches!(last.event, Event::Ended { .. }));
    Seal {
        trip: begun.trip,
        mode: begun.mode,
        device: begun.device,
        seq,
        lines: end.lines,
        last: end.last,
        outcome,
        counts: Counts::of(entries),
        meaning: meaning(outcome).to_owned(),
        name: PrintedName::read("Wren Ashdown").unwrap(),
        role: Role::Driver,
        person: id("wren.ashdown"),
        wall: Wall::new(last.at.wall).unwrap(),
    }
}
