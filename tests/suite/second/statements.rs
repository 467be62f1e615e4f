//! What managers stated, judged by the program's library and by the second verifier.

use super::bench::run;
use crate::architecture::root;
use crate::record_statements::{Office, Said, countersigned, manager, people};
use crate::record_trip::{TOBIAS, WREN, signer};
use hames::record::{
    Changed, Crew, Finding, Mode, Role, StatementFault, StatementFiles, Statements,
};
use std::fs;
use std::path::Path;

const VERIFIER: &str = "tests/second/statements.py";

/// Logbooks of statements that both verifiers are to judge.
#[derive(Default)]
pub(super) struct Batch {
    trusted: Vec<Crew>,
    cases: Vec<(String, Vec<Said>)>,
}

pub(super) fn write(said: &[Said], logbook: &Path) {
    for (at, one) in said.iter().enumerate() {
        let folder = logbook.join(format!("mgr/manager/{at:06}"));
        fs::create_dir_all(&folder).unwrap();
        fs::write(folder.join("statement.json"), &one.statement).unwrap();
        // A signature that is taken out is an empty one here.
        if !one.signature.is_empty() {
            fs::write(folder.join("statement.sig"), &one.signature).unwrap();
        }
        if let Some(crew) = &one.crew {
            fs::write(folder.join("allowed_signers"), crew).unwrap();
        }
    }
    fs::create_dir_all(logbook).unwrap();
}

impl Batch {
    pub(super) fn put(&mut self, name: &str, said: Vec<Said>) {
        self.cases.push((name.to_owned(), said));
    }

    /// What both find of each case, which has to be the same.
    #[track_caller]
    pub(super) fn both(self) -> Vec<String> {
        let home = tempfile::tempdir().unwrap();
        let mut arguments = Vec::new();
        for (at, crew) in self.trusted.iter().enumerate() {
            let file = home.path().join(format!("crew-{at}"));
            fs::write(&file, crew.text()).unwrap();
            arguments.push(format!("--crew={}", file.display()).into());
        }
        for (at, (_, said)) in self.cases.iter().enumerate() {
            let logbook = home.path().join(format!("{at:05}"));
            write(said, &logbook);
            arguments.push(logbook.into());
        }
        let told = run(VERIFIER, &arguments);
        let judged = told.lines.iter().zip(&self.cases);
        let judged = judged.map(|((_, word), (name, said))| {
            let files: Vec<_> = said.iter().map(files).collect();
            let ours = Statements::read(&files, Mode::Real, &self.trusted);
            let worst = ours.faults().iter().map(StatementFault::finding).max();
            let worst = worst.unwrap_or(Finding::Intact);
            // It does not look into values it does not use, and then tells what else is wrong.
            let lighter = worst == Finding::Unreadable && word != Finding::Intact.word();
            assert!(
                worst.word() == word || lighter,
                "{name}: {worst} here and {word} there, {:?}\n{}",
                ours.faults(),
                told.all
            );
            word.clone()
        });
        let judged: Vec<_> = judged.collect();
        assert_eq!(judged.len(), self.cases.len());
        judged
    }
}

fn files(said: &Said) -> StatementFiles<'_> {
    StatementFiles {
        statement: &said.statement,
        signature: (!said.signature.is_empty()).then_some(&said.signature),
        crew: said.crew.as_deref(),
    }
}

/// The statements kept for every later version.
fn stored() -> Vec<Said> {
    let folder = root().join("tests/vectors/record/statements");
    let count = fs::read_dir(&folder).unwrap().count();
    let read = |at: usize| {
        let read = |name: &str| fs::read(folder.join(at.to_string()).join(name));
        Said {
            statement: read("statement.json").unwrap(),
            signature: read("statement.sig").unwrap(),
            crew: read("allowed_signers").ok(),
        }
    };
    (0..count).map(read).collect()
}

#[test]
fn both_find_stored_statements_whole_and_miss_each_that_is_taken_out() {
    let whole = stored();
    let mut batch = Batch::default();
    batch.put("whole", whole.clone());
    batch.put("none", Vec::new());
    batch.put("backwards", whole.iter().rev().cloned().collect());
    batch.put("twice", [whole.clone(), whole.clone()].concat());
    for at in 0..whole.len() {
        let mut left = whole.clone();
        left.remove(at);
        batch.put(&format!("without {at}"), left);
        let mut bare = whole.clone();
        bare[at].signature.clear();
        batch.put(&format!("{at} without its signature"), bare);
        let mut swapped = whole.clone();
        swapped[at].signature = whole[(at + 1) % whole.len()].signature.clone();
        batch.put(&format!("{at} under another signature"), swapped);
        let mut alone = whole.clone();
        alone[at].crew = None;
        batch.put(&format!("{at} without a crew file"), alone);
    }
    let told = batch.both();
    assert_eq!(told[..4], ["intact"; 4]);
}

#[test]
fn both_find_a_changed_byte_in_any_file_of_a_statement() {
    let whole = stored();
    let mut batch = Batch::default();
    for (at, one) in whole.iter().enumerate() {
        for byte in (at..one.statement.len()).step_by(97) {
            let mut other = whole.clone();
            other[at].statement[byte] ^= 1 << (byte % 8);
            batch.put(&format!("{at}, byte {byte}"), other);
        }
        let byte = 60 + at * 20;
        let mut other = whole.clone();
        other[at].signature[byte] ^= 1;
        batch.put(&format!("{at}, signature byte {byte}"), other);
        if one.crew.is_some() {
            let mut other = whole.clone();
            other[at].crew.as_mut().unwrap()[byte] ^= 1;
            batch.put(&format!("{at}, crew file byte {byte}"), other);
        }
    }
    for (at, word) in batch.both().iter().enumerate() {
        assert_ne!(word, "intact", "case {at}");
    }
}

#[test]
fn both_hold_a_roster_to_its_managers_and_a_key_to_its_place() {
    let mut batch = Batch::default();
    let more = || {
        let tobias = manager("tobias.fenn", "Tobias Fenn");
        people().add(&tobias).unwrap()
    };
    let mut office = Office::founded();
    batch.put("founded", office.said.clone());
    let mut taken_over = office.clone();
    taken_over.change_crew("tobias.fenn", more(), &[]);
    batch.put("taken over", taken_over.said);
    let mut fork = office.clone();
    fork.change_crew("odile.marsh", people(), &[]);
    let fork = fork.said;
    office.change_crew("odile.marsh", more(), &[("tobias.fenn", Changed::Added)]);
    batch.put("fork", [office.said.clone(), fork].concat());
    office.state("tobias.fenn", countersigned(2));
    batch.put("two managers", office.said.clone());
    for how in [Changed::Revoked, Changed::Retired, Changed::Roles] {
        let mut office = office.clone();
        let thief = office.next("tobias.fenn", countersigned(3));
        office.change_crew("odile.marsh", people(), &[("tobias.fenn", how)]);
        batch.put("gone", office.said.clone());
        office.sign(&thief, None);
        batch.put(&format!("{how:?}, and on"), office.said);
    }
    let others = people().text().to_owned();
    let others: Vec<&str> = others.split_inclusive('\n').collect();
    let without = |start: &str| {
        let left = others.iter().filter(|line| !line.starts_with(start));
        Crew::read(left.copied().collect::<String>().as_bytes()).unwrap()
    };
    for thief in [
        signer("tobias.fenn", Role::Groom, WREN.public(), "Tobias Fenn"),
        signer("wren.ashdown", Role::Groom, TOBIAS.public(), "Tobias Fenn"),
    ] {
        let mut office = Office::founded();
        office.change_crew("odile.marsh", without("wren"), &[]);
        let next = without("wren").add(&thief).unwrap();
        office.change_crew("odile.marsh", next, &[]);
        batch.put("another's key or id", office.said);
    }
    let mut office = Office::founded();
    office.change_crew("odile.marsh", without("odile"), &[]);
    batch.put("no manager left", office.said);
    let told = batch.both();
    for word in [
        "intact",
        "fork",
        "revoked-signer",
        "outside-bracket",
        "altered",
    ] {
        assert!(told.iter().any(|one| one == word), "{word}: {told:?}");
    }
}

#[test]
fn both_trust_a_roster_that_leads_to_a_crew_file_they_trust() {
    let stranger = people().text().replace("Laptop\n", "Another laptop\n");
    let stranger = Crew::read(stranger.as_bytes()).unwrap();
    for (crew, word) in [(people(), "intact"), (stranger, "unknown-signer")] {
        let mut batch = Batch {
            trusted: vec![crew],
            ..Batch::default()
        };
        batch.put("founded", Office::founded().said);
        assert_eq!(batch.both(), [word]);
    }
}
