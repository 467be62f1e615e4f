//! Folders of trips, judged by the program's library and by the second verifier.

use crate::architecture::root;
use crate::harness::tools::python;
use crate::record_trip::{Trip, crew};
use hames::record::{
    Crew, Digest, DrillFiles, Examined, Finding, Mode, SealFiles, TripFault, TripFiles, verify,
};
use std::collections::BTreeMap;
use std::ffi::OsString;
use std::fs;
use std::path::Path;
use std::process::Command;
use tempfile::TempDir;

pub(crate) const VERIFIER: &str = "tests/second/verify.py";

/// The files of a trip by their names in its folder.
#[derive(Clone)]
pub(crate) struct Folder(BTreeMap<&'static str, Vec<u8>>);

/// Folders that both verifiers are to judge.
pub(crate) struct Batch {
    home: TempDir,
    trusted: Vec<Crew>,
    cases: Vec<(String, Folder)>,
}

/// What the second verifier said: each line's name and finding, and its exit status.
#[derive(Debug)]
pub(crate) struct Told {
    pub(crate) lines: Vec<(String, String)>,
    pub(crate) status: i32,
    pub(crate) all: String,
}

const NAMES: [(&str, &str); 10] = [
    ("trip.jsonl", "journal.jsonl"),
    ("checklist.yaml", "checklist.yaml"),
    ("rig.yaml", "rig.yaml"),
    ("scenario.yaml", "scenario.yaml"),
    ("sights.yaml", "sights.yaml"),
    ("crew.allowed_signers", "crew"),
    ("seal.json", "seal.json"),
    ("seal.person.sig", "seal.person.sig"),
    ("seal.device.sig", "seal.device.sig"),
    ("seal.examiner.sig", "seal.examiner.sig"),
];

impl Folder {
    pub(crate) fn of(trip: &Trip) -> Self {
        let crew = crew().text().as_bytes().to_vec();
        let files = [
            ("trip.jsonl", Some(trip.journal.clone())),
            ("checklist.yaml", Some(trip.checklist.clone())),
            ("rig.yaml", Some(trip.rig.clone())),
            ("crew.allowed_signers", Some(crew)),
            ("seal.json", trip.seal.clone()),
            ("seal.person.sig", trip.by_person.clone()),
            ("seal.device.sig", trip.by_device.clone()),
        ];
        let there = files
            .into_iter()
            .filter_map(|(name, file)| Some((name, file?)));
        Self(there.collect())
    }

    /// The files of a trip by their names.
    pub(crate) fn named(files: &[(&'static str, Vec<u8>)]) -> Self {
        Self(files.iter().cloned().collect())
    }

    /// One of the records kept for every later version.
    pub(crate) fn stored(vector: &str) -> Self {
        let folder = root().join("tests/vectors/record").join(vector);
        let read = |(name, stored): (&'static str, &str)| {
            let file = fs::read(folder.join(stored)).ok()?;
            Some((name, file))
        };
        Self(NAMES.into_iter().filter_map(read).collect())
    }

    pub(crate) fn names(&self) -> impl Iterator<Item = &'static str> + use<> {
        self.0.keys().copied().collect::<Vec<_>>().into_iter()
    }

    pub(crate) fn file(&self, name: &str) -> &[u8] {
        &self.0[name]
    }

    pub(crate) fn with(&self, name: &'static str, bytes: &[u8]) -> Self {
        let mut other = self.clone();
        other.0.insert(name, bytes.to_vec());
        other
    }

    pub(crate) fn without(&self, name: &str) -> Self {
        let mut other = self.clone();
        other.0.remove(name);
        other
    }

    pub(crate) fn unsealed(&self) -> Self {
        let seal = ["seal.json", "seal.person.sig", "seal.device.sig"];
        seal.iter()
            .fold(self.clone(), |folder, name| folder.without(name))
    }

    pub(crate) fn flipped(&self, name: &'static str, at: usize) -> Self {
        let mut bytes = self.file(name).to_vec();
        bytes[at] ^= 1 << (at % 8);
        self.with(name, &bytes)
    }

    pub(crate) fn write(&self, folder: &Path) {
        fs::create_dir_all(folder).unwrap();
        for (name, bytes) in &self.0 {
            fs::write(folder.join(name), bytes).unwrap();
        }
    }

    /// The same trip as it lies in a logbook.
    pub(crate) fn lying(at: &Path) -> Self {
        let read = |(name, _)| Some((name, fs::read(at.join(name)).ok()?));
        Self(NAMES.into_iter().filter_map(read).collect())
    }

    /// What the library finds, trusting these crew files and what they grew from.
    fn examined(&self, trusted: &[Crew]) -> Examined {
        let file = |name: &str| self.0.get(name).map(Vec::as_slice);
        let mut crews = trusted.to_vec();
        if let Some(pinned) = file("crew.allowed_signers").and_then(|text| Crew::read(text).ok()) {
            let grew = trusted.iter().any(|crew| crew.grew_from(&pinned));
            crews.extend(grew.then_some(pinned));
        }
        let files = TripFiles {
            drill: DrillFiles {
                scenario: file("scenario.yaml").unwrap_or_default(),
                sights: file("sights.yaml").unwrap_or_default(),
                by_examiner: file("seal.examiner.sig"),
            },
            journal: file("trip.jsonl").unwrap_or_default(),
            checklist: file("checklist.yaml").unwrap_or_default(),
            rig: file("rig.yaml").unwrap_or_default(),
            seal: file("seal.json").map(|seal| SealFiles {
                seal,
                by_person: file("seal.person.sig"),
                by_device: file("seal.device.sig"),
            }),
        };
        // One that is sent alone is taken to be where it belongs.
        let says_so = files.journal.starts_with(b"{\"v\":3,");
        let mode = if says_so { Mode::Drill } else { Mode::Real };
        verify(&files, mode, &crews)
    }

    /// The finding, with the crew file beside the trip, which has to be the one in force.
    fn finding(&self, ours: &Examined) -> Finding {
        let beside = self.0.get("crew.allowed_signers");
        let other = ours.trip.as_ref().is_some_and(|trip| {
            let crew = trip.begun().crew;
            beside.is_some_and(|file| !file.is_empty() && Digest::of(file) != crew)
        });
        let found = ours.finding();
        if other {
            found.max(Finding::Altered)
        } else {
            found
        }
    }
}

impl Batch {
    pub(crate) fn new(trusted: &[Crew]) -> Self {
        Self {
            home: tempfile::tempdir().unwrap(),
            trusted: trusted.to_vec(),
            cases: Vec::new(),
        }
    }

    pub(crate) fn put(&mut self, name: &str, folder: Folder) {
        self.cases.push((name.to_owned(), folder));
    }

    /// What both find of each case, which has to be the same.
    #[track_caller]
    pub(crate) fn both(self) -> Vec<(String, String)> {
        let mut arguments = Vec::new();
        for (at, crew) in self.trusted.iter().enumerate() {
            let file = self.home.path().join(format!("crew-{at}"));
            fs::write(&file, crew.text()).unwrap();
            arguments.push(format!("--crew={}", file.display()).into());
        }
        for (at, (_, folder)) in self.cases.iter().enumerate() {
            let at = self.home.path().join(format!("{at:05}"));
            folder.write(&at);
            arguments.push(at.into());
        }
        let told = second(&arguments);
        // Drills are told behind trips.
        let word = |at: usize| {
            let own = format!("{at:05}");
            let mut lines = told.lines.iter();
            lines.find_map(|(name, word)| (*name == own).then_some(word))
        };
        let judged = self.cases.iter().enumerate().map(|(at, (name, folder))| {
            let word = word(at).unwrap();
            let ours = folder.examined(&self.trusted);
            let ours_word = folder.finding(&ours);
            assert!(
                agree(&ours, ours_word, word),
                "{name}: {} here and {word} there, {:?}\n{}",
                ours_word,
                ours.faults,
                told.all
            );
            (name.clone(), word.clone())
        });
        let judged: Vec<_> = judged.collect();
        assert_eq!(judged.len(), self.cases.len());
        judged
    }
}

/// Whether both found the same. The second verifier does not look into values it does not use: a
/// line or seal with one that cannot be is unreadable here, and there what else is wrong with it.
fn agree(ours: &Examined, finding: Finding, word: &str) -> bool {
    let values = |fault: &TripFault| matches!(fault, TripFault::Body { .. } | TripFault::Seal(_));
    finding.word() == word
        || finding == Finding::Unreadable
            && word == Finding::Altered.word()
            && ours.faults.iter().any(values)
}

/// Runs the second verifier.
pub(crate) fn second(arguments: &[OsString]) -> Told {
    run(VERIFIER, arguments)
}

pub(crate) fn run(verifier: &str, arguments: &[OsString]) -> Told {
    let ended = Command::new(python())
        .arg(root().join(verifier))
        .args(arguments)
        .env("PYTHONDONTWRITEBYTECODE", "1")
        .output()
        .unwrap();
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    let (out, err) = (text(&ended.stdout), text(&ended.stderr));
    assert_eq!(err, "", "{out}");
    let word = |line: &str| {
        let mut words = line.split(' ').map(str::to_owned);
        (words.next().unwrap(), words.next().unwrap())
    };
    Told {
        lines: out.lines().map(word).collect(),
        status: ended.status.code().unwrap_or(-1),
        all: out,
    }
}
