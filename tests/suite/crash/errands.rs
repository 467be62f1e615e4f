//! The errands that are broken at every call. One more errand is one more row.

use crate::sim::actor;
use crate::sim::barn::passphrase;
use crate::sim::dice::Dice;
use crate::sim::laptop::Laptop;
use hames::desk::{Consent, Errand, Reply};
use hames::record::{Countersigned, CrewAct, Id, Opinion, Says, Seal, SignedOff};
use hames::walk::{Act, Ended, Now};

/// An errand, and what was done before it. It says whether it was called done.
pub(super) struct Case {
    pub(super) name: &'static str,
    pub(super) before: fn(&mut Laptop),
    pub(super) errand: fn(&mut Laptop) -> bool,
}

pub(super) const ERRANDS: &[Case] = &[
    Case {
        name: "the first trip is begun",
        before: |_| (),
        errand: begin,
    },
    Case {
        name: "a trip is begun after a sealed one",
        before: |laptop| {
            begin(laptop);
            end(laptop);
            seal(laptop);
        },
        errand: begin,
    },
    Case {
        name: "a trip is begun while another is under way",
        before: |laptop| {
            begin(laptop);
            record(laptop);
        },
        errand: begin,
    },
    Case {
        name: "a line is recorded",
        before: |laptop| assert!(begin(laptop)),
        errand: record,
    },
    Case {
        name: "a trip is taken up",
        before: |laptop| {
            begin(laptop);
            record(laptop);
        },
        errand: take_up,
    },
    Case {
        name: "a trip is ended",
        before: |laptop| {
            begin(laptop);
            record(laptop);
        },
        errand: end,
    },
    Case {
        name: "a trip is sealed",
        before: |laptop| {
            begin(laptop);
            record(laptop);
            end(laptop);
        },
        errand: seal,
    },
    Case {
        name: "the first crew file is stated",
        before: |_| (),
        errand: change_crew,
    },
    Case {
        name: "a trip is countersigned",
        before: |laptop| {
            change_crew(laptop);
            begin(laptop);
            end(laptop);
            seal(laptop);
        },
        errand: countersign,
    },
];

/// The manager signs somebody off: the first statement of the logbook, and a new crew file.
fn change_crew(laptop: &mut Laptop) -> bool {
    laptop.change_crew(&CrewAct::SignOff(SignedOff {
        person: Id::read("tobias.fenn").unwrap(),
        rigs: None,
        checklists: None,
    }))
}

/// The manager agrees to the newest trip.
fn countersign(laptop: &mut Laptop) -> bool {
    let folder = laptop.told.keys().next_back().unwrap();
    let seal = laptop.disk.seen(&folder.seal()).unwrap();
    let read = Seal::read(&seal).unwrap();
    laptop.state(&Says::Countersigned(Countersigned {
        trip: read.trip,
        device: read.device,
        seq: read.seq,
        seal: Seal::hash(&seal),
        opinion: Opinion::Agreed,
        opened: Vec::new(),
        remarks: None,
    }))
}

pub(super) fn begin(laptop: &mut Laptop) -> bool {
    let begin = Errand::Begin {
        rig: "juniper".into(),
        checklist: "small".into(),
        reader: "Wren Ashdown".into(),
        doer: "Tobias Fenn".into(),
        odometer: "48210 mi".into(),
        walked: String::new(),
    };
    matches!(laptop.perform(begin), Reply::Walking { .. })
}

fn record(laptop: &mut Laptop) -> bool {
    matches!(laptop.act(Act::Open), Reply::Recorded(_))
}

pub(super) fn end(laptop: &mut Laptop) -> bool {
    let end = Act::End {
        outcome: Ended::Incomplete,
        words: "rain".into(),
    };
    matches!(laptop.act(end), Reply::Recorded(_))
}

pub(super) fn seal(laptop: &mut Laptop) -> bool {
    let signer = "wren.ashdown".to_owned();
    let consent = Consent::Passphrase(passphrase(&signer));
    let reply = laptop.perform(Errand::Seal { signer, consent });
    matches!(reply, Reply::Sealed(_))
}

/// Takes up the newest trip that is not sealed.
fn take_up(laptop: &mut Laptop) -> bool {
    let Ok(barn) = laptop.look_around() else {
        return false;
    };
    let Some(card) = barn.unfinished.first() else {
        return false;
    };
    let trip = card.trip.clone();
    matches!(
        laptop.perform(Errand::TakeUp { trip }),
        Reply::Walking { .. }
    )
}

/// Takes up every trip that is not sealed, ends it where it has not ended, and seals it.
pub(super) fn make_good(laptop: &mut Laptop, told: &str) {
    let barn = laptop.look_around().unwrap();
    for card in barn.unfinished {
        let trip = card.trip.clone();
        let reply = laptop.perform(Errand::TakeUp { trip });
        assert!(matches!(reply, Reply::Walking { .. }), "{told}: {reply:?}");
        let walk = laptop.in_hand.as_ref().unwrap().walk.clone();
        if !matches!(walk.now(), Now::Ended(_)) {
            let reply = laptop.act(actor::end(&walk, &mut Dice::new(3)));
            assert!(matches!(reply, Reply::Recorded(_)), "{told}: {reply:?}");
        }
        assert!(seal(laptop), "{told}: not sealed");
    }
}
