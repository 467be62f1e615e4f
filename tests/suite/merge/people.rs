//! What managers signed: statements come in their order, and the crew file follows a signed chain
//! and nothing else.

use super::barn::{
    Files, Way, bring, contents, crew, disk_with, larger_crew, office, put, stated, take, text,
    trips,
};
use crate::record_statements::key;
use crate::record_trip::{id, signer, words};
use hames::cli::merge::{Open, Status};
use hames::record::{
    Change, Changed, Crew, CrewChange, ForkClosed, Head, LossAccepted, Previous, Pruned, Role,
    Says, Seal, Stub, read_chain,
};
use std::path::Path;

fn crew_here(disk: &crate::store::pretend::Pretend) -> Vec<u8> {
    disk.seen(Path::new("/barn/crew/allowed_signers")).unwrap()
}

#[test]
fn the_crew_file_follows_the_roster_that_leads_on_from_the_one_here() {
    let mut office = office();
    office.change_crew("odile.marsh", crew(), &[]);
    office.change_crew(
        "odile.marsh",
        larger_crew(),
        &[("tobias.fenn", Changed::Added)],
    );
    let statements = stated(&office);
    let disk = disk_with(&Files::new());
    // The second statement comes before the first.
    let (early, late): (Files, Files) = statements
        .into_iter()
        .partition(|(name, _)| name.contains("/000002-"));
    let merged = bring(&disk, "early", &early);
    assert_eq!(merged.statements, ["statement 2 of odile.marsh"]);
    assert!(
        matches!(merged.open[0], Open::Statement(_)),
        "{}",
        text(&merged)
    );
    assert_eq!(crew_here(&disk), crew().text().as_bytes());
    let merged = bring(&disk, "late", &late);
    assert_eq!(merged.statements, ["statement 1 of odile.marsh"]);
    assert_eq!(crew_here(&disk), larger_crew().text().as_bytes());
    assert!(merged.crew.is_some());
    assert_eq!(merged.status(), Status::Fine, "{}", text(&merged));
    // Going back is not possible: an older copy changes nothing.
    let merged = bring(&disk, "older", &super::barn::founded());
    assert!(!merged.is_new());
    assert_eq!(crew_here(&disk), larger_crew().text().as_bytes());
}

#[test]
fn a_strangers_roster_does_not_unseat_the_crew_here() {
    // He copies our laptop's public line, and makes himself manager.
    let thief = crate::record_statements::manager("tobias.fenn", "Tobias Fenn");
    let laptop = crew().signers()[2].clone();
    let forged = Crew::read(b"").unwrap();
    let forged = forged.add(&thief).unwrap().add(&laptop).unwrap();
    let mut bad = office();
    bad.crew = forged.clone();
    bad.change_crew("tobias.fenn", forged, &[]);
    let mut good = office();
    good.change_crew("odile.marsh", crew(), &[]);
    for ours in [Files::new(), stated(&good)] {
        let disk = disk_with(&ours);
        let merged = bring(&disk, "stick", &stated(&bad));
        assert_eq!(merged.statements.len(), 0);
        assert_eq!(merged.status(), Status::Findings);
        assert_eq!(crew_here(&disk), crew().text().as_bytes());
        assert!(merged.open.is_empty(), "{}", text(&merged));
        assert!(contents(&disk).is_disjoint(&stated(&bad).into_values().collect()));
    }
}

#[test]
fn a_crew_file_nobody_signed_is_kept_aside_and_the_one_here_stays() {
    let disk = disk_with(&Files::new());
    let mut stick = trips("laptop-one", 1);
    let larger = larger_crew().text().as_bytes().to_vec();
    stick.insert("crew/allowed_signers".to_owned(), larger);
    let merged = bring(&disk, "stick", &stick);
    assert_eq!(merged.came.len(), 1);
    assert_eq!(crew_here(&disk), crew().text().as_bytes());
    assert!(
        text(&merged).contains("no signed statement leads to"),
        "{}",
        text(&merged)
    );
    assert_eq!(merged.status(), Status::Findings);
}

#[test]
fn two_statements_with_one_number_are_both_kept_and_told() {
    let mut one = office();
    one.change_crew("odile.marsh", crew(), &[]);
    let mut other = one.clone();
    let lost = |from| {
        Says::LossAccepted(LossAccepted {
            device: id("laptop-one"),
            from,
            to: from,
            words: words("drowned"),
        })
    };
    one.state("odile.marsh", lost(1));
    other.state("odile.marsh", lost(2));
    let disk = disk_with(&stated(&one));
    let merged = bring(&disk, "stick", &stated(&other));
    assert_eq!(merged.statements, ["statement 2 of odile.marsh"]);
    assert!(
        text(&merged).contains("odile.marsh signed different statements 2: on two laptops"),
        "{}",
        text(&merged)
    );
}

/// Statements of a manager who pruned the first trip of laptop-one.
fn pruning() -> Files {
    let way = Way::of("laptop-one", 1);
    let trip = way.files(None).0;
    let seal = &trip[&format!("{}/seal.json", way.folder())];
    let journal = &trip[&format!("{}/trip.jsonl", way.folder())];
    let end = read_chain(journal).tip();
    let mut office = office();
    office.change_crew("odile.marsh", crew(), &[]);
    office.state(
        "odile.marsh",
        Says::Pruned(Pruned {
            trips: vec![Stub {
                device: id("laptop-one"),
                seq: 1,
                trip: id("9f0c11b20001"),
                previous: None,
                lines: end.lines,
                last: end.last,
                seal: Some(Seal::hash(seal)),
                outcome: Some(hames::walk::Ended::Incomplete),
                crew: crew().revision(),
                manager: None,
            }],
            words: words("two years old"),
        }),
    );
    stated(&office)
}

#[test]
fn trips_a_manager_has_pruned_are_not_brought_back() {
    let disk = disk_with(&pruning());
    let merged = bring(&disk, "stick", &trips("laptop-one", 2));
    let numbers: Vec<u64> = merged.came.iter().map(|came| came.key.seq).collect();
    assert_eq!(numbers, [2]);
    assert_eq!(merged.pruned.len(), 1);
    assert_eq!(merged.status(), Status::Fine, "{}", text(&merged));
}

#[test]
fn files_here_of_a_trip_that_a_statement_prunes_are_told_with_the_command_that_lets_them_go() {
    let disk = disk_with(&trips("laptop-one", 2));
    let merged = bring(&disk, "stick", &pruning());
    let told = text(&merged);
    assert_eq!(merged.status(), Status::Fine, "{told}");
    let said = "pruned: files of 1 trip that a manager pruned lie here still: trip 1 of laptop-one\n  \
                To let go of them here too: hames logbook prune\n";
    assert!(told.contains(said), "{told}");
    let before = contents(&disk_with(&trips("laptop-one", 2)));
    assert!(contents(&disk).is_superset(&before));
}

#[test]
fn a_manager_has_seen_trips_that_are_not_here_and_a_known_loss_is_not_looked_for() {
    let mut office = office();
    office.change_crew("odile.marsh", crew(), &[]);
    let all = trips("laptop-one", 3);
    let seal = all
        .iter()
        .find(|(name, _)| name.contains("000003-") && name.ends_with("seal.json"));
    office.heads = vec![Head {
        device: id("laptop-one"),
        seq: 3,
        ends: Previous::Sealed(Seal::hash(seal.unwrap().1)),
    }];
    let lost = Says::LossAccepted(LossAccepted {
        device: id("laptop-one"),
        from: 2,
        to: 2,
        words: words("drowned"),
    });
    office.state("odile.marsh", lost);
    let disk = disk_with(&trips("laptop-one", 1));
    let merged = bring(&disk, "stick", &stated(&office));
    let told = text(&merged);
    assert!(
        told.contains("gap: trip 3 of laptop-one is not here; before it trip 1 with the receipt "),
        "{told}"
    );
    assert!(
        told.contains("and a manager's statement knows of it"),
        "{told}"
    );
    assert_eq!(merged.open.len(), 1);
}

#[test]
fn a_fork_a_manager_has_closed_is_not_told_again() {
    let here = Way::of("laptop-one", 1);
    let there = Way { turn: 60, ..here };
    let ((ours, goes_on), (theirs, ended)) = (here.files(None), there.files(None));
    let mut office = office();
    office.change_crew("odile.marsh", crew(), &[]);
    let branch = |ends| hames::record::Branch {
        trip: id("9f0c11b20001"),
        ends,
    };
    office.state(
        "odile.marsh",
        Says::ForkClosed(ForkClosed {
            device: id("laptop-one"),
            seq: 1,
            goes_on: branch(goes_on),
            ended: vec![branch(ended)],
            words: words("restored from a backup"),
        }),
    );
    let disk = disk_with(&ours);
    let merged = bring(&disk, "stick", &theirs);
    assert!(matches!(merged.open[0], Open::Fork(..)));
    let merged = bring(&disk, "manager", &stated(&office));
    assert_eq!(merged.status(), Status::Fine, "{}", text(&merged));
}

#[test]
fn a_laptop_added_elsewhere_comes_with_the_statement_that_added_it() {
    let new = key("laptop-new");
    let laptop = signer("laptop-new", Role::Device, new.public(), "Laptop new");
    let larger = crew().add(&laptop).unwrap();
    let mut office = office();
    office.change_crew("odile.marsh", crew(), &[]);
    let change = office.next(
        "odile.marsh",
        Says::Crew(CrewChange {
            number: 2,
            before: Some(hames::record::Statement::hash(&office.last().statement)),
            file: larger.revision(),
            changes: vec![Change {
                who: id("laptop-new"),
                what: Changed::Added,
                words: None,
            }],
            signed_off: Vec::new(),
        }),
    );
    office.sign(&change, Some(&larger));
    assert_eq!(key("laptop-new").public(), new.public());
    let disk = disk_with(&Files::new());
    put(&disk, "/stick", &stated(&office));
    let merged = take(&disk, "/stick").unwrap();
    assert_eq!(merged.statements.len(), 2);
    assert_eq!(crew_here(&disk), larger.text().as_bytes());
}
