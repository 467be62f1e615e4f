//! A barn with three people, three laptops and a second manager, and two who may join it.

use super::keys;
use crate::store::pretend::{Fate, Pretend};
use hames::checklist::Checklist;
use hames::cli::clerk::{Offer, Place, Stock};
use hames::record::{Crew, Id, Mode, Namespace, Passphrase, PrintedName, PublicKey, Role, Signer};
use hames::rig::Rig;
use hames::store::Logbook;
use std::sync::LazyLock;

/// Where every laptop keeps the logbook.
pub(crate) const ROOT: &str = "/barn";

/// Id, printed name, role.
pub(crate) const PEOPLE: [(&str, &str, Role); 3] = [
    ("wren.ashdown", "Wren Ashdown", Role::Driver),
    ("tobias.fenn", "Tobias Fenn", Role::Groom),
    ("odile.marsh", "Odile Marsh", Role::Manager),
];

/// Who may join the crew in the course of a day. Their keys lie on every laptop, as those of
/// everybody do.
pub(crate) const RECRUITS: [(&str, &str, Role); 2] = [
    ("ivo.hale", "Ivo Hale", Role::Groom),
    ("maud.kerr", "Maud Kerr", Role::Driver),
];

/// Who states things about the logbook.
pub(crate) const MANAGER: &str = "odile.marsh";

/// The other manager: id, printed name. Their key lies on the second laptop alone.
pub(crate) const OTHER: (&str, &str) = ("greta.lund", "Greta Lund");

/// The laptops.
pub(crate) const LAPTOPS: [&str; 3] = ["barn-laptop", "cab-laptop", "tack-room"];

/// Who may sign, and with what.
struct Keys {
    crew: Crew,
    people: Vec<(Id, String)>,
    laptops: Vec<(Id, String)>,
    recruits: Vec<PublicKey>,
    other: (Id, String),
}

static KEYS: LazyLock<Keys> = LazyLock::new(keys);

/// A small list and the rig it is laid on, which is an earlier day's, without most of its
/// instruments: a run reads and verifies them often.
pub(crate) static SMALL: LazyLock<Stock> = LazyLock::new(small);

/// Lists of the demo barn on its bumper pull.
pub(crate) static REAL: LazyLock<Stock> = LazyLock::new(|| {
    let mut stock = Stock::demo();
    stock.rigs.retain(|offer| offer.read.id == "juniper");
    let wanted = [
        "hitch-bumper",
        "first-stop",
        "arrive",
        "unhitch",
        "storage-in",
    ];
    stock
        .checklists
        .retain(|list| wanted.contains(&list.heading.id.as_str()));
    stock
});

const SMALL_LIST: &str = include_str!("../../vectors/checklist-small.yaml");
const SMALL_RIG: &str = include_str!("../../vectors/record/hitch-bumper-2/rig.yaml");

pub(crate) fn place() -> Place {
    Place {
        root: ROOT.into(),
        mode: Mode::Real,
    }
}

/// What opens a person's key: their own id.
pub(crate) fn passphrase(person: &str) -> Passphrase {
    Passphrase::new(person.to_owned().into()).unwrap()
}

/// The disk of a laptop that is enrolled in the barn and has written nothing yet.
pub(crate) fn disk(laptop: &str) -> Pretend {
    let disk = Pretend::empty();
    let logbook = Logbook::make(disk.clone(), ROOT.as_ref()).unwrap();
    for (person, key) in &KEYS.people {
        logbook.keep_key(person, key.as_bytes()).unwrap();
    }
    if laptop == LAPTOPS[1] {
        let (other, key) = &KEYS.other;
        logbook.keep_key(other, key.as_bytes()).unwrap();
    }
    let own = KEYS.laptops.iter().find(|(id, _)| id.as_str() == laptop);
    let (id, key) = own.unwrap();
    logbook.keep_key(id, key.as_bytes()).unwrap();
    logbook.replace_crew(KEYS.crew.text().as_bytes()).unwrap();
    disk.after_power_loss(Fate::Kept)
}

/// The public half of a recruit's key.
pub(crate) fn recruit(at: usize) -> PublicKey {
    KEYS.recruits[at].clone()
}

/// A disk with the people's keys on it and nothing else of a logbook, before it is founded.
pub(crate) fn unfounded() -> Pretend {
    let disk = Pretend::empty();
    let logbook = Logbook::make(disk.clone(), ROOT.as_ref()).unwrap();
    for (person, key) in &KEYS.people {
        logbook.keep_key(person, key.as_bytes()).unwrap();
    }
    disk.after_power_loss(Fate::Kept)
}

fn small() -> Stock {
    let (rig, instruments) = SMALL_RIG.split_once("\ninstruments:\n").unwrap();
    let (rig, _) = rig.split_once("\nload:\n").unwrap();
    let wanted = ["gauge-100", "tape", "count"];
    let is_wanted = |one: &&str| wanted.contains(&one.lines().next().unwrap());
    let instruments: Vec<&str> = instruments
        .trim_start_matches("  - id: ")
        .split("\n  - id: ")
        .filter(is_wanted)
        .collect();
    let instruments = instruments.join("\n  - id: ");
    let text = format!(
        "{rig}\nload: []\ninstruments:\n  - id: {}\n",
        instruments.trim_end()
    );
    let rig = Offer {
        read: Rig::read(&text).unwrap_or_else(|faults| panic!("{faults:?}\n{text}")),
        text,
    };
    let list = Offer {
        read: Checklist::read(SMALL_LIST).unwrap(),
        text: SMALL_LIST.to_owned(),
    };
    Stock {
        rigs: vec![rig],
        checklists: vec![list.into()],
        ..Stock::default()
    }
}

fn keys() -> Keys {
    let mut crew = Crew::read(b"").unwrap();
    let (mut people, mut laptops) = (vec![], vec![]);
    for (number, (id, name, role)) in (1..).zip(PEOPLE) {
        let (file, public) = keys::person(id, number);
        crew = crew.add(&signer(id, name, role, &public)).unwrap();
        people.push((Id::read(id).unwrap(), file));
    }
    let (other, name) = OTHER;
    let (file, public) = keys::person(other, 71);
    let row = signer(other, name, Role::Manager, &public);
    crew = crew.add(&row).unwrap();
    let other = (Id::read(other).unwrap(), file);
    let mut recruits = vec![];
    for (number, (id, ..)) in (51..).zip(RECRUITS) {
        let (file, public) = keys::person(id, number);
        people.push((Id::read(id).unwrap(), file));
        recruits.push(public);
    }
    for (number, laptop) in (101..).zip(LAPTOPS) {
        let id = Id::read(laptop).unwrap();
        let (file, public) = keys::laptop(laptop, number);
        let row = signer(laptop, laptop, Role::Device, &public);
        crew = crew.add(&row).unwrap();
        laptops.push((id, file));
    }
    Keys {
        crew,
        people,
        laptops,
        recruits,
        other,
    }
}

fn signer(id: &str, name: &str, role: Role, key: &PublicKey) -> Signer {
    let modes = [Mode::Real, Mode::Drill];
    let deeds = role.deeds().iter();
    let namespaces = deeds.flat_map(|deed| modes.map(|mode| Namespace::new(*deed, mode)));
    Signer {
        id: Id::read(id).unwrap(),
        roles: vec![role],
        namespaces: namespaces.collect(),
        key: key.clone(),
        name: PrintedName::read(name).unwrap(),
    }
}
