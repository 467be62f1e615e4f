//! A barn of two laptops, as files: trips, a fork, a manager's statements. Copies of it are put on
//! a pretended disk under whatever names.

use crate::record_statements::{Office, key, manager};
use crate::record_trip::{CHECKLIST, RIG, begun, id, signer, words};
use crate::store::pretend::Pretend;
use crate::walk::bench::Bench;
use chrono::TimeDelta;
use hames::cli::merge::{Merged, Stopped, merge};
use hames::record::{
    Begun, Counts, Crew, Deed, DeviceKey, Dice, Mode, Namespace, Previous, PrintedName, Role, Said,
    Seal, Tip, Wall, append, meaning,
};
use hames::store::{Disk, Logbook, Mode as Permits};
use hames::walk::{Ended, Entry};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::LazyLock;

/// Files by their place below a folder.
pub(crate) type Files = BTreeMap<String, Vec<u8>>;

pub(crate) const SCRIPT: &str = "open\n see down\n end incomplete: the vet called";

static WREN: LazyLock<DeviceKey> = LazyLock::new(|| made(51, "wren.ashdown"));
static ONE: LazyLock<DeviceKey> = LazyLock::new(|| made(52, "laptop-one"));
static TWO: LazyLock<DeviceKey> = LazyLock::new(|| made(53, "laptop-two"));

fn made(dice: u8, name: &str) -> DeviceKey {
    DeviceKey::make(&Dice::new([dice; 52]), &id(name)).unwrap()
}

/// Everyone of the barn.
pub(crate) fn crew() -> Crew {
    [
        manager("odile.marsh", "Odile Marsh"),
        signer("wren.ashdown", Role::Driver, WREN.public(), "Wren Ashdown"),
        signer("laptop-one", Role::Device, ONE.public(), "Laptop one"),
        signer("laptop-two", Role::Device, TWO.public(), "Laptop two"),
    ]
    .iter()
    .fold(Crew::read(b"").unwrap(), |crew, one| crew.add(one).unwrap())
}

/// The barn with one more in its crew.
pub(crate) fn larger_crew() -> Crew {
    let tobias = made(54, "tobias.fenn");
    let one = signer("tobias.fenn", Role::Groom, tobias.public(), "Tobias Fenn");
    crew().add(&one).unwrap()
}

/// A trip, of which there may be several histories.
#[derive(Clone, Copy)]
pub(crate) struct Way<'a> {
    pub(crate) device: &'a str,
    pub(crate) seq: u64,
    /// Letters of its id.
    pub(crate) letters: &'a str,
    /// In which way it went on after its second line: by so many seconds.
    pub(crate) turn: i64,
    pub(crate) sealed: bool,
    pub(crate) mode: Mode,
}

impl<'a> Way<'a> {
    pub(crate) fn of(device: &'a str, seq: u64) -> Self {
        Self {
            device,
            seq,
            letters: "9f0c11b2",
            turn: 0,
            sealed: true,
            mode: Mode::Real,
        }
    }

    /// Where its files lie in a logbook.
    pub(crate) fn folder(&self) -> String {
        format!("dev/{}/t/{:06}-{}", self.device, self.seq, self.letters)
    }

    fn begun(&self, previous: Option<Previous>) -> Begun {
        Begun {
            trip: id(&format!("{}{:04}", self.letters, self.seq)),
            device: id(self.device),
            crew: crew().revision(),
            mode: self.mode,
            ..begun(self.seq, previous)
        }
    }

    /// Its files, and how it ends.
    pub(crate) fn files(&self, previous: Option<Previous>) -> (Files, Previous) {
        let mut bench = Bench::new();
        bench.play(SCRIPT);
        let mut entries: Vec<Entry> = bench.journal.clone();
        for entry in entries.iter_mut().skip(1) {
            entry.at.wall += TimeDelta::seconds(self.turn);
        }
        let begun = self.begun(previous);
        let said = Said::Begun(Box::new(begun.clone()));
        let at = bench.walk.began().clone();
        let wren = words("Wren Ashdown");
        let (mut journal, mut tip) = append(Tip::START, &at, &wren, &said).unwrap();
        for entry in &entries {
            let said = Said::Happened(Box::new(entry.event.clone()));
            let (line, next) = append(tip, &entry.at, &entry.actor, &said).unwrap();
            journal.extend(line);
            tip = next;
        }
        let mut ends = Previous::Unsealed(tip.last);
        let mut files = vec![
            ("checklist.yaml", CHECKLIST.to_vec()),
            ("rig.yaml", RIG.to_vec()),
            ("crew.allowed_signers", crew().text().as_bytes().to_vec()),
            ("trip.jsonl", journal),
        ];
        if self.sealed {
            let seal = sealed(&begun, tip, &entries);
            let signed = |key: &DeviceKey, deed| {
                let armor = key.sign(Namespace::new(deed, self.mode), &seal);
                armor.unwrap().into_bytes()
            };
            let device = if self.device == "laptop-one" {
                &ONE
            } else {
                &TWO
            };
            ends = Previous::Sealed(Seal::hash(&seal));
            files.extend([
                ("seal.person.sig", signed(&WREN, Deed::Performed)),
                ("seal.device.sig", signed(device, Deed::Witnessed)),
            ]);
            files.insert(4, ("seal.json", seal));
        }
        let folder = self.folder();
        let named = files.into_iter();
        let named = named.map(|(name, bytes)| (format!("{folder}/{name}"), bytes));
        (named.collect(), ends)
    }
}

fn sealed(begun: &Begun, tip: Tip, entries: &[Entry]) -> Vec<u8> {
    let seal = Seal {
        trip: begun.trip.clone(),
        mode: begun.mode,
        device: begun.device.clone(),
        seq: begun.seq,
        lines: tip.lines,
        last: tip.last,
        outcome: Ended::Incomplete,
        counts: Counts::of(entries),
        meaning: meaning(Ended::Incomplete).to_owned(),
        name: PrintedName::read("Wren Ashdown").unwrap(),
        role: Role::Driver,
        person: id("wren.ashdown"),
        wall: Wall::new(entries.last().unwrap().at.wall).unwrap(),
    };
    seal.write().unwrap()
}

/// So many sealed trips of a laptop.
pub(crate) fn trips(device: &str, count: u64) -> Files {
    let mut files = Files::new();
    let mut previous = None;
    for seq in 1..=count {
        let (trip, ends) = Way::of(device, seq).files(previous);
        files.extend(trip);
        previous = Some(ends);
    }
    files
}

/// The crew file, as a logbook has it.
pub(crate) fn founded() -> Files {
    let text = crew().text().as_bytes().to_vec();
    Files::from([("crew/allowed_signers".to_owned(), text)])
}

/// The files of statements, as a logbook has them.
pub(crate) fn stated(office: &Office) -> Files {
    let mut files = Files::new();
    for said in &office.said {
        let statement = hames::record::Statement::read(&said.statement).unwrap();
        let hash = hames::record::Statement::hash(&said.statement).to_string();
        let folder = format!(
            "mgr/{}/{:06}-{}",
            statement.manager,
            statement.number,
            &hash[..8]
        );
        files.insert(format!("{folder}/statement.json"), said.statement.clone());
        files.insert(format!("{folder}/statement.sig"), said.signature.clone());
        if let Some(crew) = &said.crew {
            files.insert(format!("{folder}/allowed_signers"), crew.clone());
        }
    }
    files
}

/// A manager who has stated nothing yet.
pub(crate) fn office() -> Office {
    assert!(key("odile.marsh").public() == &crew().signers()[0].key);
    Office {
        said: Vec::new(),
        crew: crew(),
        heads: Vec::new(),
    }
}

/// The whole barn: two laptops, one of whose trips went on in two ways, one trip not sealed, and a
/// manager's statements.
pub(crate) fn whole() -> Files {
    static WHOLE: LazyLock<Files> = LazyLock::new(made_whole);
    WHOLE.clone()
}

fn made_whole() -> Files {
    let mut files = founded();
    files.extend(trips("laptop-one", 2));
    files.extend(trips("laptop-two", 2));
    let open = Way {
        sealed: false,
        ..Way::of("laptop-one", 3)
    };
    files.extend(open.files(None).0);
    let mut other = Way::of("laptop-one", 2);
    other.turn = 7;
    let fork = other.files(None).0.into_iter();
    files.extend(fork.map(|(name, bytes)| (name.replace("-one", "-one-copy"), bytes)));
    let mut office = office();
    office.change_crew("odile.marsh", crew(), &[]);
    files.extend(stated(&office));
    files
}

/// Puts files on the disk.
pub(crate) fn put(disk: &Pretend, root: &str, files: &Files) {
    for (name, bytes) in files {
        let path = Path::new(root).join(name);
        let mut above: Vec<&Path> = path.ancestors().skip(1).collect();
        above.reverse();
        for folder in above {
            drop(disk.make_folder(folder, Permits::Shared));
        }
        disk.place(&path, bytes);
    }
    let folders: Vec<&Path> = Path::new(root).ancestors().collect();
    for folder in folders.into_iter().rev() {
        drop(disk.make_folder(folder, Permits::Shared));
    }
}

/// A disk with a logbook of this barn that has these files.
pub(crate) fn disk_with(files: &Files) -> Pretend {
    let disk = Pretend::empty();
    drop(Logbook::make(disk.clone(), Path::new("/barn")).unwrap());
    put(&disk, "/barn", &founded());
    put(&disk, "/barn", files);
    disk
}

pub(crate) fn take(disk: &Pretend, from: &str) -> Result<Merged, Stopped> {
    merge(disk, Path::new("/barn"), Path::new(from), false)
}

/// Puts files into a new folder and merges it.
pub(crate) fn bring(disk: &Pretend, name: &str, files: &Files) -> Merged {
    let from = format!("/{name}");
    put(disk, &from, files);
    take(disk, &from).unwrap()
}

/// What the logbook holds, whatever it is called there.
pub(crate) fn contents(disk: &Pretend) -> BTreeSet<Vec<u8>> {
    let of_records = |path: &&std::path::PathBuf| {
        ["/barn/dev", "/barn/mgr", "/barn/approved"]
            .iter()
            .any(|part| path.starts_with(part))
    };
    let files = disk.files();
    let files = files.iter().filter(of_records);
    let bytes = files.map(|path| disk.seen(path).unwrap());
    bytes.filter(|bytes| !bytes.is_empty()).collect()
}

/// The files of the logbook by name.
pub(crate) fn names(disk: &Pretend) -> Vec<String> {
    let files = disk.files().into_iter();
    let below = files.filter_map(|path| Some(path.strip_prefix("/barn").ok()?.to_owned()));
    below.map(|path| path.display().to_string()).collect()
}

/// The kinds of what is told as JSON, in order.
pub(crate) fn kinds(merged: &Merged) -> Vec<String> {
    let mut out = Vec::new();
    merged.as_json(&mut out).unwrap();
    let text = String::from_utf8(out).unwrap();
    let kind = |line: &str| {
        let line: serde_json::Value = serde_json::from_str(line).unwrap();
        line["kind"].as_str().unwrap().to_owned()
    };
    text.lines().map(kind).collect()
}

pub(crate) fn text(merged: &Merged) -> String {
    let mut out = Vec::new();
    merged.as_text(&mut out).unwrap();
    String::from_utf8(out).unwrap()
}
