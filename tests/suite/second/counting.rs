//! Which countersign counts, judged by the program as its user runs it and by the second verifier.

use super::barns::{change, whole, without};
use crate::barn50::making::{Barn, Left, lay, people};
use crate::harness::home::Home;
use crate::record_statements::manager;
use crate::record_trip::{id, words};
use hames::record::{Changed, Countersigned, Crew, Opinion, Previous, Says};

const WREN: &str = "wren.ashdown";
const ODILE: &str = "odile.marsh";
const GRETA: &str = "greta.lund";
const TOBIAS: &str = "tobias.fenn";

fn two_managers() -> Crew {
    people(false).add(&manager(GRETA, "Greta Lund")).unwrap()
}

/// A barn with two managers and one trip, which this person signed.
fn barn(signed: &str) -> Barn {
    let mut barn = Barn::founded();
    barn.change_crew(two_managers(), &[(GRETA, Changed::Added)]);
    barn.walk(0, signed, Left::Sealed);
    barn
}

/// What somebody says of the first trip, as if it had this number.
fn opinion(barn: &Barn, seq: u64) -> Says {
    let trip = &barn.trips[0];
    let Previous::Sealed(seal) = trip.ends else {
        panic!("not sealed: {trip:?}")
    };
    Says::Countersigned(Countersigned {
        trip: id(&trip.id),
        device: id(trip.device),
        seq,
        seal,
        opinion: Opinion::Agreed,
        opened: vec![words("latch")],
        remarks: None,
        took_ms: None,
    })
}

fn says(barn: &mut Barn, by: &str, says: Says) {
    barn.office.heads = barn.heads();
    barn.office.state(by, says);
    barn.keep_statement();
}

#[test]
fn both_count_who_agrees_and_nobody_who_asks() {
    let mut barn = barn(WREN);
    assert_eq!(whole(&barn), "not-countersigned");
    barn.countersign(0, Opinion::Asked);
    assert_eq!(whole(&barn), "not-countersigned");
    barn.countersign(0, Opinion::Agreed);
    assert_eq!(whole(&barn), "intact", "a later opinion");
    let agreed = opinion(&barn, 1);
    says(&mut barn, GRETA, agreed);
    assert_eq!(whole(&barn), "intact", "of both managers");
}

#[test]
fn both_go_on_counting_who_agreed_and_asked_later_and_the_question_is_open() {
    let told = |barn: &Barn| {
        let home = Home::new();
        lay(&barn.files, &home.path("book"));
        [
            "logbook --logbook book --open",
            "logbook questions --logbook book",
        ]
        .map(|command| home.hames(command).run().out)
    };
    let mut barn = barn(WREN);
    barn.countersign(0, Opinion::Agreed);
    let [agreed, _] = told(&barn);
    barn.countersign(0, Opinion::Asked);
    assert_eq!(whole(&barn), "intact");
    let [open, questions] = told(&barn);
    assert_ne!(agreed, open);
    assert!(questions.contains("Odile Marsh"), "{questions}");
    barn.countersign(0, Opinion::Agreed);
    assert_eq!(whole(&barn), "intact");
    let [open, questions] = told(&barn);
    assert_eq!(agreed, open);
    assert!(!questions.contains("Odile Marsh"), "{questions}");
}

#[test]
fn both_go_on_counting_the_word_of_a_manager_who_left_later() {
    for how in [Changed::Retired, Changed::Revoked] {
        let mut barn = barn(WREN);
        let agreed = opinion(&barn, 1);
        let late = barn.office.next(GRETA, agreed.clone());
        let mut known = barn.clone();
        says(&mut known, GRETA, agreed);
        let gone = without(&two_managers(), GRETA);
        change(&mut known, ODILE, gone.clone(), &[(GRETA, how)]);
        assert_eq!(whole(&known), "intact", "{how:?}");
        change(&mut barn, ODILE, gone, &[(GRETA, how)]);
        barn.office.sign(&late, None);
        barn.keep_statement();
        assert!(whole(&barn).ends_with(match how {
            Changed::Retired => "outside-bracket",
            _ => "revoked-signer",
        }));
    }
}

#[test]
fn both_count_nobody_s_word_on_their_own_work_and_another_s_beside_it() {
    let mut barn = barn(ODILE);
    barn.countersign(0, Opinion::Agreed);
    assert_eq!(whole(&barn), "not-countersigned", "read and signed it");
    let agreed = opinion(&barn, 1);
    says(&mut barn, GRETA, agreed);
    assert_eq!(whole(&barn), "intact", "another agreed");
    // He does the work of every walk of these barns.
    let mut barn = Barn::founded();
    let tobias = manager(TOBIAS, "Tobias Fenn");
    let crew = people(false).add(&tobias).unwrap();
    barn.change_crew(crew, &[(TOBIAS, Changed::Added)]);
    barn.walk(0, WREN, Left::Sealed);
    let agreed = opinion(&barn, 1);
    says(&mut barn, TOBIAS, agreed);
    assert_eq!(whole(&barn), "not-countersigned", "did the work");
}

#[test]
fn both_count_no_word_on_another_number() {
    let mut barn = barn(WREN);
    let other = opinion(&barn, 2);
    says(&mut barn, ODILE, other);
    assert_eq!(whole(&barn), "gap");
    barn.walk(0, WREN, Left::Sealed);
    assert_ne!(whole(&barn), "intact");
}
