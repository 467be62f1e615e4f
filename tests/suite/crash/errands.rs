//! The errands that are broken at every call. One more errand is one more row.

use crate::sim::actor;
use crate::sim::barn::passphrase;
use crate::sim::dice::Dice;
use crate::sim::laptop::Laptop;
use hames::desk::{Consent, Errand as Asked, Reply};
use hames::record::{Countersigned, CrewAct, Id, Opinion, Says, Seal, SignedOff};
use hames::walk::{Act, Ended, Now};

/// What is done; it answers whether it was called done.
pub(super) type Errand = fn(&mut Laptop) -> bool;

/// An errand, and what was done before it.
pub(super) struct Case {
    pub(super) name: &'static str,
    /// What was done before the program was started.
    pub(super) before: fn(&mut Laptop),
    /// What was done since.
    pub(super) hand: fn(&mut Laptop),
    pub(super) errand: Errand,
}

pub(super) const ERRANDS: &[Case] = &[
    Case {
        name: "the first trip is begun",
        before: |_| (),
        hand: |_| (),
        errand: begin,
    },
    Case {
        name: "a trip is begun after a sealed one",
        before: |laptop| {
            begin(laptop);
            end(laptop);
            seal(laptop);
        },
        hand: |_| (),
        errand: begin,
    },
    Case {
        name: "a trip is begun while another is under way",
        before: |_| (),
        hand: |laptop| {
            begin(laptop);
            record(laptop);
        },
        errand: begin,
    },
    Case {
        name: "a line is recorded",
        before: |_| (),
        hand: |laptop| assert!(begin(laptop)),
        errand: record,
    },
    Case {
        name: "a trip is taken up",
        before: |laptop| {
            begin(laptop);
            record(laptop);
        },
        hand: |_| (),
        errand: take_up,
    },
    Case {
        name: "a trip is ended",
        before: |_| (),
        hand: |laptop| {
            begin(laptop);
            record(laptop);
        },
        errand: end,
    },
    Case {
        name: "a trip is sealed",
        before: |_| (),
        hand: |laptop| {
            begin(laptop);
            record(laptop);
            end(laptop);
        },
        errand: seal,
    },
    Case {
        name: "the first crew file is stated",
        before: |_| (),
        hand: |_| (),
        errand: change_crew,
    },
    Case {
        name: "a trip is countersigned",
        before: |laptop| {
            let done = [
                change_crew(laptop),
                begin(laptop),
                end(laptop),
                seal(laptop),
            ];
            assert_eq!(done, [true; 4]);
        },
        hand: |_| (),
        errand: countersign,
    },
];

/// The manager signs somebody off: the first statement of the logbook, and a new crew file.
fn change_crew(laptop: &mut Laptop) -> bool {
    let changed = laptop.change_crew(&CrewAct::SignOff(SignedOff {
        person: Id::read("tobias.fenn").unwrap(),
        rigs: None,
        checklists: None,
        rides: Vec::new(),
    }));
    changed.is_ok()
}

/// The manager agrees to the newest trip.
fn countersign(laptop: &mut Laptop) -> bool {
    let folder = laptop.told.keys().next_back().unwrap();
    let seal = laptop.disk.seen(&folder.seal()).unwrap();
    let read = Seal::read(&seal).unwrap();
    let stated = laptop.state(&Says::Countersigned(Countersigned {
        trip: read.trip,
        device: read.device,
        seq: read.seq,
        seal: Seal::hash(&seal),
        opinion: Opinion::Agreed,
        opened: Vec::new(),
        remarks: None,
        took_ms: None,
    }));
    stated.is_ok()
}

pub(super) fn begin(laptop: &mut Laptop) -> bool {
    let begin = Asked::Begin {
        rig: "juniper".into(),
        checklist: "small".into(),
        reader: "Wren Ashdown".into(),
        doer: "Tobias Fenn".into(),
        odometer: "48210 mi".into(),
        walked: String::new(),
        answers: Vec::new(),
    };
    matches!(laptop.perform(begin), Reply::Walking { .. })
}

fn record(laptop: &mut Laptop) -> bool {
    matches!(laptop.act(Act::Open), Reply::Recorded(_))
}

fn end(laptop: &mut Laptop) -> bool {
    let end = Act::End {
        outcome: Ended::Incomplete,
        words: "rain".into(),
    };
    matches!(laptop.act(end), Reply::Recorded(_))
}

fn seal(laptop: &mut Laptop) -> bool {
    let signer = "wren.ashdown".to_owned();
    let consent = Consent::Passphrase(passphrase(&signer));
    let reply = laptop.perform(Asked::Seal { signer, consent });
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
        laptop.perform(Asked::TakeUp { trip }),
        Reply::Walking { .. }
    )
}

/// Takes up every trip that is not sealed, ends it where it has not ended, and seals it.
pub(super) fn make_good(laptop: &mut Laptop, told: &str) {
    let barn = laptop.look_around().unwrap();
    for card in barn.unfinished {
        let trip = card.trip.clone();
        let reply = laptop.perform(Asked::TakeUp { trip });
        assert!(matches!(reply, Reply::Walking { .. }), "{told}: {reply:?}");
        let walk = laptop.in_hand.as_ref().unwrap().walk.clone();
        if !matches!(walk.now(), Now::Ended(_)) {
            let reply = laptop.act(actor::end(&walk, &mut Dice::new(3)));
            assert!(matches!(reply, Reply::Recorded(_)), "{told}: {reply:?}");
        }
        assert!(seal(laptop), "{told}: not sealed");
    }
}
