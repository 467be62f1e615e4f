//! The barn of three laptops and fifty trips: a logbook as a map of its files, made once.

use crate::record_statements::{self as office, Office};
use crate::record_trip::{id, signer, words};
use crate::walk::bench::Bench;
use chrono::TimeDelta;
use hames::checklist::{Checklist, Plan};
use hames::record::{
    Begun, Changed, Countersigned, Counts, Crew, DeviceKey, Dice, Digest, Head, Mode, Namespace,
    Opinion, Pinned, Previous, PrintedName, Role, Said, Says, Seal, Statement, Tip, Wall, append,
    meaning,
};
use hames::rig::Rig;
use hames::rig::demo::JUNIPER;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::sync::LazyLock;

/// The files of a logbook, by their paths below its folder.
pub(crate) type Files = BTreeMap<String, Vec<u8>>;

pub(crate) const LAPTOPS: [&str; 3] = ["laptop-0a11", "laptop-0b22", "laptop-0c33"];
const CHECKLIST: &str = include_str!("../../vectors/checklist-small.yaml");

/// A logbook in the making: whoever has it has every key.
#[derive(Clone)]
pub(crate) struct Barn {
    pub(crate) files: Files,
    pub(crate) office: Office,
    pub(crate) mode: Mode,
    /// The day walks are on, where they are not each on a day of their own.
    pub(crate) today: Option<i64>,
    /// How many trips were walked.
    pub(crate) walked: u64,
    /// Each trip: its folder, device, number, and how it ends.
    pub(crate) trips: Vec<Walked>,
    /// Each drill.
    pub(crate) drills: Vec<Walked>,
}

/// A trip that was walked.
#[derive(Clone, Debug)]
pub(crate) struct Walked {
    pub(crate) folder: String,
    pub(crate) id: String,
    pub(crate) device: &'static str,
    pub(crate) seq: u64,
    pub(crate) ends: Previous,
    pub(crate) sealed: bool,
}

/// How a walk is left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Left {
    Sealed,
    /// Passed by, and never ended.
    Unsealed,
    /// Passed by, and sealed after the next one began.
    SealedLate,
}

pub(crate) fn key(who: &str) -> DeviceKey {
    let dice = match who {
        "odile.marsh" | "tobias.fenn" => return office::key(who),
        "wren.ashdown" => 43,
        "laptop-0a11" => 44,
        "laptop-0b22" => 45,
        _ => 46,
    };
    DeviceKey::make(&Dice::new([dice; 52]), &id(who)).unwrap()
}

/// Odile, Wren and the laptops; with Tobias or without.
pub(crate) fn people(tobias: bool) -> Crew {
    let person = |who, role, name| signer(who, role, key(who).public(), name);
    let mut all = vec![
        office::manager("odile.marsh", "Odile Marsh"),
        person("wren.ashdown", Role::Driver, "Wren Ashdown"),
    ];
    all.extend(LAPTOPS.map(|laptop| person(laptop, Role::Device, laptop)));
    if tobias {
        all.push(person("tobias.fenn", Role::Groom, "Tobias Fenn"));
    }
    let empty = Crew::read(b"").unwrap();
    let crew = all.iter().fold(empty, |crew, one| crew.add(one).unwrap());
    // The tests' signer may sign in every mode; this barn is for real trips.
    let text = crew
        .text()
        .replace(",hames.performed.v1.demo,hames.performed.v1.drill", "");
    let text = text.replace(",hames.witnessed.v1.demo,hames.witnessed.v1.drill", "");
    Crew::read(text.as_bytes()).unwrap()
}

fn plan() -> &'static Plan {
    static PLAN: LazyLock<Plan> = LazyLock::new(|| {
        let checklist = Checklist::read(CHECKLIST).unwrap();
        Plan::lay(checklist, Rig::read(JUNIPER).unwrap()).unwrap()
    });
    &PLAN
}

impl Barn {
    /// An empty barn with its first crew file.
    pub(crate) fn founded() -> Self {
        let mut barn = Self {
            files: Files::new(),
            office: Office {
                said: Vec::new(),
                crew: people(false),
                heads: Vec::new(),
            },
            mode: Mode::Real,
            today: None,
            walked: 0,
            trips: Vec::new(),
            drills: Vec::new(),
        };
        barn.keep(".gitattributes", b"* -text\n");
        barn.change_crew(people(false), &[]);
        barn
    }

    fn keep(&mut self, path: &str, bytes: &[u8]) {
        self.files.insert(path.to_owned(), bytes.to_vec());
    }

    /// Puts a crew file in force.
    pub(crate) fn change_crew(&mut self, crew: Crew, changes: &[(&str, Changed)]) {
        self.office.heads = self.heads();
        let text = crew.text().to_owned();
        self.office.change_crew("odile.marsh", crew, changes);
        self.keep_statement();
        self.keep("crew/allowed_signers", text.as_bytes());
    }

    /// What Odile states next.
    pub(crate) fn state(&mut self, says: Says) {
        self.office.heads = self.heads();
        self.office.state("odile.marsh", says);
        self.keep_statement();
    }

    /// Odile's word on a trip.
    pub(crate) fn countersign(&mut self, trip: usize, opinion: Opinion) {
        let trip = self.trips[trip].clone();
        let Previous::Sealed(seal) = trip.ends else {
            panic!("not sealed: {trip:?}")
        };
        self.state(Says::Countersigned(Countersigned {
            trip: id(&trip.id),
            device: id(trip.device),
            seq: trip.seq,
            seal,
            opinion,
            opened: vec![words("latch")],
            remarks: (opinion == Opinion::Asked).then(|| words("why so late?")),
            took_ms: None,
        }));
    }

    /// Keeps what was stated last.
    pub(crate) fn keep_statement(&mut self) {
        let said = self.office.last().clone();
        let statement = Statement::read(&said.statement).unwrap();
        let hash = Statement::hash(&said.statement).to_string();
        let folder = format!(
            "mgr/{}/{:06}-{}",
            statement.manager,
            statement.number,
            &hash[..8]
        );
        self.keep(&format!("{folder}/statement.json"), &said.statement);
        self.keep(&format!("{folder}/statement.sig"), &said.signature);
        if let Some(crew) = &said.crew {
            self.keep(&format!("{folder}/allowed_signers"), crew);
        }
    }

    /// The newest trip of each laptop that is in the logbook.
    pub(crate) fn heads(&self) -> Vec<Head> {
        let newest = |device: &&str| {
            let own = self.trips.iter().filter(|trip| trip.device == *device);
            own.max_by_key(|trip| trip.seq)
        };
        LAPTOPS
            .iter()
            .filter_map(newest)
            .map(|trip| Head {
                device: id(trip.device),
                seq: trip.seq,
                ends: trip.ends,
            })
            .collect()
    }

    /// A walk on this laptop, signed by this person, to be sealed or not.
    pub(crate) fn walk(&mut self, laptop: usize, who: &str, left: Left) -> usize {
        self.walk_as(laptop, who, left, self.office.crew.revision())
    }

    /// A walk that names this trip as the one before it, over whatever numbers were used since.
    pub(crate) fn walk_on(&mut self, laptop: usize, who: &str, from: usize) -> usize {
        let all = self.trips.clone();
        let ends = all[from].ends;
        let own = |trip: &&mut Walked| trip.device == LAPTOPS[laptop];
        let own = self.trips.iter_mut().filter(own);
        own.max_by_key(|trip| trip.seq).unwrap().ends = ends;
        let walked = self.walk(laptop, who, Left::Sealed);
        self.trips[..walked].clone_from_slice(&all);
        walked
    }

    /// The same by a crew file of the barn's past.
    #[allow(
        clippy::too_many_lines,
        reason = "one walk, from its first line to its signatures"
    )]
    pub(crate) fn walk_as(&mut self, laptop: usize, who: &str, left: Left, crew: Digest) -> usize {
        let device = LAPTOPS[laptop];
        let before = self.trips.iter().filter(|trip| trip.device == device);
        let before = before.max_by_key(|trip| trip.seq);
        let seq = before.map_or(1, |trip| trip.seq + 1);
        let previous = before.map(|trip| trip.ends);
        self.walked += 1;
        let number = self.walked;
        let trip = format!("{:016x}", 0x9e37_79b9_7f4a_7c15_u64.wrapping_mul(number));
        let pinned = |name: &str, text: &str| Pinned {
            id: name.to_owned(),
            hash: Digest::of(text.as_bytes()),
        };
        let odile = who == "odile.marsh";
        let reader = words(if odile { "Odile Marsh" } else { "Wren Ashdown" });
        let begun = Begun {
            trip: id(&trip),
            mode: self.mode,
            device: id(device),
            seq,
            previous,
            checklist: pinned("small", CHECKLIST),
            rig: pinned("juniper", JUNIPER),
            crew,
            manager: self.office.read().newest().map(hames::record::Stated::hash),
            program: "0.1.0".to_owned(),
            odometer: None,
            reader: reader.clone(),
            doer: words("Tobias Fenn"),
            haul: None,
            carried: vec![],
            paper: None,
            answers: Vec::new(),
            drill: None,
        };
        let mut bench = Bench::on(plan().clone());
        let end = if left == Left::Unsealed {
            String::new()
        } else {
            format!("\n end incomplete: day {number}")
        };
        bench.play(&format!(
            "open\n see down\n wait 40\n note day {number}{end}"
        ));
        let day = self.today.unwrap_or_else(|| i64::try_from(number).unwrap());
        let days = TimeDelta::days(day - 300);
        let mut at = bench.walk.began().clone();
        at.wall += days;
        let said = Said::Begun(Box::new(begun));
        let (mut lines, mut next_to) = append(Tip::START, &at, &reader, &said).unwrap();
        let mut ends = Previous::Unsealed(next_to.last);
        for entry in &bench.journal {
            ends = Previous::Unsealed(next_to.last);
            let mut at = entry.at.clone();
            at.wall += days;
            let said = Said::Happened(Box::new(entry.event.clone()));
            let (line, next) = append(next_to, &at, &reader, &said).unwrap();
            lines.extend(line);
            next_to = next;
        }
        if left == Left::Unsealed {
            ends = Previous::Unsealed(next_to.last);
        }
        let folder = format!("dev/{device}/t/{seq:06}-{}", &trip[..8]);
        let file = |name: &str| format!("{folder}/{name}");
        self.keep(&file("trip.jsonl"), &lines);
        self.keep(&file("checklist.yaml"), CHECKLIST.as_bytes());
        self.keep(&file("rig.yaml"), JUNIPER.as_bytes());
        if let Some(text) = self.crew_text(&crew) {
            self.keep(&file("crew.allowed_signers"), &text);
        }
        if let Some(outcome) = bench.walk.ended() {
            let (role, name) = match who {
                "wren.ashdown" => (Role::Driver, "Wren Ashdown"),
                "odile.marsh" => (Role::Manager, "Odile Marsh"),
                _ => (Role::Groom, "Tobias Fenn"),
            };
            let seal = Seal {
                trip: id(&trip),
                mode: self.mode,
                device: id(device),
                seq,
                lines: next_to.lines,
                last: next_to.last,
                outcome,
                counts: Counts::of(&bench.journal),
                meaning: meaning(outcome).to_owned(),
                name: PrintedName::read(name).unwrap(),
                role,
                person: id(who),
                wall: Wall::new(bench.journal.last().unwrap().at.wall + days).unwrap(),
            };
            let bytes = seal.write().unwrap();
            let sign = |who: &str, role: Role| {
                let namespace = Namespace::new(role.deed(), self.mode);
                key(who).sign(namespace, &bytes).unwrap().into_bytes()
            };
            let (by_person, by_device) = (sign(who, role), sign(device, Role::Device));
            self.keep(&file("seal.json"), &bytes);
            self.keep(&file("seal.person.sig"), &by_person);
            self.keep(&file("seal.device.sig"), &by_device);
            if left == Left::Sealed {
                ends = Previous::Sealed(Seal::hash(&bytes));
            }
        }
        self.trips.push(Walked {
            folder,
            id: trip,
            device,
            seq,
            ends,
            sealed: left != Left::Unsealed,
        });
        self.trips.len() - 1
    }

    fn crew_text(&self, revision: &Digest) -> Option<Vec<u8>> {
        let known = self.office.read();
        let found = known.roster().crew(revision)?;
        Some(found.crew.text().as_bytes().to_vec())
    }

    /// Takes a trip's folder out.
    pub(crate) fn lose(&mut self, folder: &str) {
        self.files
            .retain(|path, _| !path.starts_with(&format!("{folder}/")));
    }

    /// Takes the newest trips of a laptop out, as an older copy has it.
    pub(crate) fn put_back(&mut self, laptop: usize, last: u64) {
        let (gone, kept): (Vec<_>, Vec<_>) = self
            .trips
            .drain(..)
            .partition(|trip| trip.device == LAPTOPS[laptop] && trip.seq > last);
        self.trips = kept;
        for trip in gone {
            self.lose(&trip.folder);
        }
    }

    /// The folder of a trip.
    pub(crate) fn trip(&self, laptop: usize, seq: u64) -> &Walked {
        let mut trips = self.trips.iter();
        trips
            .find(|trip| trip.device == LAPTOPS[laptop] && trip.seq == seq)
            .unwrap()
    }

    /// The folders of the statements, by number.
    pub(crate) fn statement(&self, number: u64) -> String {
        let start = format!("mgr/odile.marsh/{number:06}-");
        let path = self.files.keys().find(|path| path.starts_with(&start));
        path.unwrap().rsplit_once('/').unwrap().0.to_owned()
    }
}

/// Fifty trips: Tobias comes after the twentieth and leaves, so or so, after the forty-fifth.
/// Trip 5 of the second laptop is never ended, trip 6 of the first one sealed late. The last five
/// trips are behind the last statement.
pub(crate) fn fifty(leaves: Changed) -> Barn {
    let mut barn = Barn::founded();
    for number in 0..50 {
        match number {
            10 => barn.countersign(7, Opinion::Agreed),
            20 => barn.change_crew(people(true), &[("tobias.fenn", Changed::Added)]),
            25 => barn.countersign(21, Opinion::Agreed),
            35 => barn.countersign(30, Opinion::Asked),
            45 => barn.change_crew(people(false), &[("tobias.fenn", leaves)]),
            _ => {}
        }
        let laptop = [0, 1, 2, 0, 1][number % 5];
        let tobias = (20..45).contains(&number) && number % 4 == 0;
        let who = if tobias {
            "tobias.fenn"
        } else {
            "wren.ashdown"
        };
        let left = match number {
            11 => Left::Unsealed,
            13 => Left::SealedLate,
            _ => Left::Sealed,
        };
        barn.walk(laptop, who, left);
    }
    barn
}

/// The barn, made once for all tests.
pub(crate) fn barn() -> Barn {
    static MADE: LazyLock<Barn> = LazyLock::new(|| fifty(Changed::Retired));
    MADE.clone()
}

/// Lays the files down.
pub(crate) fn lay(files: &Files, folder: &Path) {
    for (path, bytes) in files {
        let path = folder.join(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }
}
