//! Managers' statements: the roster, each signature by the crew it names, and their order.

use crate::record_trip::{LAPTOP, TOBIAS, WREN, id, signer, words};
use hames::record::{
    Change, Changed, Countersigned, Crew, CrewChange, Deed, DeviceKey, Dice, Digest, Finding, Head,
    Known, Mode, Namespace, Opinion, Previous, PrintedName, Role, Says, Signer, Statement,
    StatementFault, StatementFiles, Statements, Wall,
};
use proptest::prelude::*;
use std::sync::LazyLock;

/// A statement as stored.
#[derive(Clone)]
pub(crate) struct Said {
    pub(crate) statement: Vec<u8>,
    pub(crate) signature: Vec<u8>,
    pub(crate) crew: Option<Vec<u8>>,
}

/// Managers who state things, with keys that need no passphrase: it is slow on purpose.
#[derive(Clone)]
pub(crate) struct Office {
    pub(crate) said: Vec<Said>,
    pub(crate) crew: Crew,
    pub(crate) heads: Vec<Head>,
}

/// The key of the manager with this id.
pub(crate) fn key(manager: &str) -> DeviceKey {
    let dice = if manager == "odile.marsh" { 41 } else { 42 };
    DeviceKey::make(&Dice::new([dice; 52]), &id(manager)).unwrap()
}

pub(crate) fn manager(who: &str, name: &str) -> Signer {
    let deeds = [Deed::Performed, Deed::Approved, Deed::Stated];
    Signer {
        namespaces: deeds.map(|deed| Namespace::new(deed, Mode::Real)).to_vec(),
        ..signer(who, Role::Manager, key(who).public(), name)
    }
}

fn name_of(manager: &str) -> &'static str {
    match manager {
        "odile.marsh" => "Odile Marsh",
        "greta.lund" => "Greta Lund",
        _ => "Tobias Fenn",
    }
}

pub(crate) fn people() -> Crew {
    let empty = Crew::read(b"").unwrap();
    [
        manager("odile.marsh", "Odile Marsh"),
        signer("wren.ashdown", Role::Driver, WREN.public(), "Wren Ashdown"),
        signer("laptop-7f3a", Role::Device, LAPTOP.public(), "Laptop"),
    ]
    .iter()
    .fold(empty, |crew, one| crew.add(one).unwrap())
}

impl Office {
    /// A barn with its first crew file.
    pub(crate) fn founded() -> Self {
        let mut office = Self {
            said: Vec::new(),
            crew: people(),
            heads: Vec::new(),
        };
        office.change_crew("odile.marsh", people(), &[]);
        office
    }

    pub(crate) fn read(&self) -> Statements {
        read(&self.said)
    }

    pub(crate) fn last(&self) -> &Said {
        self.said.last().unwrap()
    }

    fn newest(&self, by: &str) -> Option<(u64, Digest)> {
        let known = self.read();
        let newest = known.newest_of(&id(by))?;
        Some((newest.statement().number, newest.hash()))
    }

    /// What the manager would state next.
    pub(crate) fn next(&self, by: &str, says: Says) -> Statement {
        let before = self.newest(by);
        Statement {
            mode: Mode::Real,
            manager: id(by),
            name: PrintedName::read(name_of(by)).unwrap(),
            number: before.map_or(1, |(number, _)| number + 1),
            previous: before.map(|(_, hash)| hash),
            known: self.read().known_to(&id(by)),
            crew: self.crew.revision(),
            heads: self.heads.clone(),
            wall: Wall::read("2026-11-25T18:00:00.000-05:00").unwrap(),
            says,
        }
    }

    pub(crate) fn sign(&mut self, statement: &Statement, crew: Option<&Crew>) {
        let bytes = statement.write().unwrap();
        let by = key(statement.manager.as_str());
        let signed = by.sign(Statement::namespace(statement.mode), &bytes);
        self.said.push(Said {
            statement: bytes,
            signature: signed.unwrap().into_bytes(),
            crew: crew.map(|crew| crew.text().as_bytes().to_vec()),
        });
    }

    pub(crate) fn state(&mut self, by: &str, says: Says) {
        self.sign(&self.next(by, says), None);
    }

    /// Puts another crew file in force.
    pub(crate) fn change_crew(&mut self, by: &str, crew: Crew, changes: &[(&str, Changed)]) {
        let known = self.read();
        let before = known.roster().in_force();
        let change = CrewChange {
            number: before.map_or(1, |before| before.change.number + 1),
            before: before.map(|before| before.statement),
            file: crew.revision(),
            changes: changes
                .iter()
                .map(|(who, what)| Change {
                    who: id(who),
                    what: *what,
                    words: None,
                })
                .collect(),
            signed_off: Vec::new(),
        };
        self.sign(&self.next(by, Says::Crew(change)), Some(&crew));
        self.crew = crew;
    }
}

pub(crate) fn read(said: &[Said]) -> Statements {
    read_by(said, &[])
}

fn read_by(said: &[Said], trusted: &[Crew]) -> Statements {
    let files: Vec<_> = said
        .iter()
        .map(|one| StatementFiles {
            statement: &one.statement,
            signature: Some(&one.signature),
            crew: one.crew.as_deref(),
        })
        .collect();
    Statements::read(&files, Mode::Real, trusted)
}

pub(crate) fn told(statements: &Statements) -> Vec<String> {
    let faults = statements.faults().iter();
    faults
        .map(|fault| format!("{}: {fault}", fault.finding()))
        .collect()
}

pub(crate) fn countersigned(seq: u64) -> Says {
    Says::Countersigned(Countersigned {
        trip: id("9f0c11b2"),
        device: id("laptop-7f3a"),
        seq,
        seal: Digest::of(&seq.to_be_bytes()),
        opinion: Opinion::Agreed,
        opened: vec![words("tire-front-left: out of limits")],
        remarks: None,
        took_ms: None,
    })
}

pub(crate) fn head(seq: u64) -> Head {
    Head {
        device: id("laptop-7f3a"),
        seq,
        ends: Previous::Sealed(Digest::of(&seq.to_be_bytes())),
    }
}

/// Two managers, four statements.
pub(crate) fn office() -> Office {
    static MADE: LazyLock<Office> = LazyLock::new(make_office);
    MADE.clone()
}

fn make_office() -> Office {
    let mut office = Office::founded();
    office.state("odile.marsh", countersigned(1));
    let more = people()
        .add(&manager("tobias.fenn", "Tobias Fenn"))
        .unwrap();
    office.change_crew("odile.marsh", more, &[("tobias.fenn", Changed::Added)]);
    office.heads = vec![head(2)];
    office.state("tobias.fenn", countersigned(2));
    office
}

#[test]
fn statements_by_managers_of_the_roster_are_read_and_stand_behind_those_they_name() {
    let statements = office().read();
    assert_eq!(told(&statements), [""; 0]);
    let order: Vec<_> = statements
        .stated()
        .iter()
        .map(|one| (one.statement().manager.as_str(), one.statement().number))
        .collect();
    assert_eq!(
        order,
        [
            ("odile.marsh", 1),
            ("odile.marsh", 2),
            ("odile.marsh", 3),
            ("tobias.fenn", 1)
        ]
    );
    let newest = statements.newest().unwrap();
    assert_eq!(statements.behind(&newest.hash()).len(), 4);
    assert_eq!(statements.roster().in_force().unwrap().change.number, 2);
}

#[test]
fn every_statement_taken_out_but_the_newest_is_missed() {
    let whole = office();
    for gone in 0..3 {
        let mut said = whole.said.clone();
        said.remove(gone);
        let told = told(&read(&said));
        // What rests on a crew file that is gone counts for nothing either.
        let missed = |fault: &String| fault.starts_with("gap: ") || fault.contains("no manager");
        assert!(told.iter().any(missed), "{gone}: {told:?}");
    }
    let newest = &whole.said[..3];
    assert_eq!(
        told(&read(newest)),
        [""; 0],
        "the newest is witnessed by nothing"
    );
}

/// A file of a statement.
type Part = fn(&mut Said) -> Option<&mut Vec<u8>>;

#[test]
fn every_byte_changed_in_a_statement_its_signature_or_its_crew_file_is_found() {
    let whole = office();
    for at in 0..whole.said.len() {
        let parts: [Part; 3] = [
            |said| Some(&mut said.statement),
            |said| Some(&mut said.signature),
            |said| said.crew.as_mut(),
        ];
        for part in parts {
            let Some(length) = part(&mut whole.said[at].clone()).map(|bytes| bytes.len()) else {
                continue;
            };
            for byte in 0..length {
                let mut said = whole.said.clone();
                part(&mut said[at]).unwrap()[byte] ^= 1;
                assert!(!read(&said).faults().is_empty(), "{at}, byte {byte}");
            }
        }
    }
}

#[test]
fn a_crew_file_put_in_force_by_someone_who_is_no_manager_of_the_one_before_is_none() {
    let mut office = Office::founded();
    let taken_over = people()
        .add(&manager("tobias.fenn", "Tobias Fenn"))
        .unwrap();
    office.change_crew(
        "tobias.fenn",
        taken_over,
        &[("tobias.fenn", Changed::Added)],
    );
    let statements = office.read();
    assert_eq!(
        told(&statements),
        [
            "unknown-signer: statement 1 of tobias.fenn does not count: nobody in the crew is called tobias.fenn"
        ]
    );
    assert_eq!(statements.roster().in_force().unwrap().change.number, 1);
}

#[test]
fn a_key_or_an_id_is_never_given_to_another_person() {
    let people = people();
    let others = people
        .text()
        .lines()
        .filter(|line| !line.starts_with("wren"));
    let others = others.collect::<Vec<_>>().join("\n") + "\n";
    let without_wren = Crew::read(others.as_bytes()).unwrap();
    for thief in [
        signer("tobias.fenn", Role::Groom, WREN.public(), "Tobias Fenn"),
        signer("wren.ashdown", Role::Groom, TOBIAS.public(), "Tobias Fenn"),
    ] {
        let mut office = Office::founded();
        office.change_crew(
            "odile.marsh",
            without_wren.clone(),
            &[("wren.ashdown", Changed::Retired)],
        );
        office.change_crew("odile.marsh", without_wren.add(&thief).unwrap(), &[]);
        let told = told(&office.read());
        assert!(
            told[0].contains("a key and an id are one person's for good"),
            "{told:?}"
        );
    }
}

#[test]
fn of_a_roster_that_forks_neither_branch_is_chosen() {
    let mut one = Office::founded();
    let mut other = Office::founded();
    let groom = signer("tobias.fenn", Role::Groom, TOBIAS.public(), "Tobias Fenn");
    one.change_crew(
        "odile.marsh",
        people().add(&groom).unwrap(),
        &[("tobias.fenn", Changed::Added)],
    );
    other.change_crew("odile.marsh", people(), &[]);
    let statements = read(&[one.said, other.said].concat());
    let told = told(&statements);
    assert!(
        told.iter().all(|fault| fault.starts_with("fork: ")),
        "{told:?}"
    );
    assert_eq!(statements.roster().in_force().unwrap().change.number, 1);
    assert_eq!(statements.roster().revisions().len(), 3);
}

#[test]
fn a_statement_of_a_revoked_manager_counts_only_where_it_was_known_before() {
    for (how, finding) in [
        (Changed::Revoked, Finding::RevokedSigner),
        (Changed::Retired, Finding::OutsideBracket),
    ] {
        let mut office = office();
        let thief = office.next("tobias.fenn", countersigned(3));
        office.change_crew("odile.marsh", people(), &[("tobias.fenn", how)]);
        assert_eq!(told(&office.read()), [""; 0]);
        // Whoever has the key goes on under the old crew file, as if nothing had happened.
        office.sign(&thief, None);
        let statements = office.read();
        let found: Vec<_> = statements
            .faults()
            .iter()
            .map(StatementFault::finding)
            .collect();
        assert_eq!(found, [finding]);
    }
}

#[test]
fn a_roster_counts_for_whoever_trusts_one_of_its_crew_files() {
    let office = office();
    assert_eq!(told(&read_by(&office.said, &[people()])), [""; 0]);
    let stranger = people().text().replace("Laptop\n", "Another laptop\n");
    let stranger = Crew::read(stranger.as_bytes()).unwrap();
    assert_eq!(
        told(&read_by(&office.said, &[stranger])),
        ["unknown-signer: what managers signed leads to no crew file you trust"]
    );
}

#[test]
fn a_statement_has_one_spelling() {
    let office = office();
    let text = String::from_utf8(office.last().statement.clone()).unwrap();
    assert_eq!(
        Statement::read(text.as_bytes()).unwrap().write().unwrap(),
        text.as_bytes()
    );
    let hash = Digest::of(b"x");
    for (part, other) in [
        ("{\"v\":1", "{ \"v\":1"),
        ("\"v\":1", "\"v\":3"),
        ("\"role\":\"manager\"", "\"role\":\"groom\""),
        ("\"number\":1", "\"number\":2"),
        ("\"opinion\":\"agreed\"", "\"opinion\":\"asked\""),
        ("\"kind\":\"countersigned\"", "\"kind\":\"pruned\""),
        ("I have looked at this trip", "I have seen this trip"),
        ("\"remarks\":null}}", "\"remarks\":null},\"more\":1}"),
        ("\"seq\":2", "\"seq\":0"),
        (
            "\"heads\":[",
            &format!(
                "\"heads\":[{{\"device\":\"laptop-7f3a\",\"seq\":2,\"ends\":{{\"last\":\"seal\",\"hash\":\"{hash}\"}}}},"
            ),
        ),
    ] {
        assert!(text.contains(part), "{part}");
        assert!(
            Statement::read(text.replace(part, other).as_bytes()).is_err(),
            "{part}"
        );
    }
}

#[test]
fn every_other_manager_known_is_named_once() {
    let office = office();
    let next = office.next("odile.marsh", countersigned(3));
    assert_eq!(
        next.known,
        [Known {
            manager: id("tobias.fenn"),
            hash: Statement::hash(&office.last().statement)
        }]
    );
    let own = Known {
        manager: id("odile.marsh"),
        hash: Digest::of(b""),
    };
    let itself = Statement {
        known: vec![own],
        ..next
    };
    assert!(itself.write().is_err());
}

proptest! {
    #[test]
    fn in_whatever_order_and_however_often_statements_come_they_are_read_the_same(
        order in Just((0..8_usize).collect::<Vec<_>>()).prop_shuffle(),
    ) {
        let office = office();
        let said: Vec<_> = order.iter().map(|at| office.said[at % 4].clone()).collect();
        prop_assert_eq!(read(&said), office.read());
    }
}

/// Statements of every kind, stored once and never edited.
fn frozen() -> Vec<Said> {
    let folder = crate::architecture::root().join("tests/vectors/record/statements");
    (0..9)
        .map(|at| {
            let read = |name| std::fs::read(folder.join(at.to_string()).join(name));
            Said {
                statement: read("statement.json").unwrap(),
                signature: read("statement.sig").unwrap(),
                crew: read("allowed_signers").ok(),
            }
        })
        .collect()
}

#[test]
fn statements_of_every_kind_stored_with_version_1_are_read_and_written_to_the_byte() {
    let said = frozen();
    let statements = read(&said);
    assert_eq!(told(&statements), [""; 0]);
    assert_eq!(statements.stated().len(), said.len());
    let kinds: std::collections::BTreeSet<_> = statements
        .stated()
        .iter()
        .map(|one| one.statement().says.meaning())
        .collect();
    assert_eq!(kinds.len(), 5);
    for one in &said {
        let again = Statement::read(&one.statement).unwrap().write().unwrap();
        assert_eq!(again, one.statement);
    }
    let newest = statements.newest().unwrap().hash();
    assert_eq!(newest, Statement::hash(&said[8].statement));
}

#[test]
fn the_stock_tool_takes_a_manager_for_the_signer_of_a_statement_and_nobody_else() {
    let folder = crate::architecture::root().join("tests/vectors/record/statements/0");
    let verify = |identity: &str, namespace: &str| {
        let mut tool = std::process::Command::new("ssh-keygen");
        tool.args([
            "-Y",
            "verify",
            "-f",
            "allowed_signers",
            "-s",
            "statement.sig",
        ]);
        tool.args(["-I", identity, "-n", namespace])
            .current_dir(&folder);
        tool.stdin(std::fs::File::open(folder.join("statement.json")).unwrap());
        tool.output().unwrap().status.success()
    };
    assert!(verify("odile.marsh", "hames.stated.v1"));
    assert!(verify("role:manager", "hames.stated.v1"));
    assert!(!verify("wren.ashdown", "hames.stated.v1"));
    assert!(!verify("odile.marsh", "hames.approved.v1"));
    assert!(!verify("odile.marsh", "hames.stated.v1.demo"));
}
