//! What managers state, held against trips: keys that leave and come back, losses, forks.

use super::making::{Barn, LAPTOPS, Left, people};
use super::order::examined;
use crate::record_trip::{id, words};
use hames::logbook::order::Order;
use hames::record::{
    Branch, Changed, Finding, ForkClosed, LossAccepted, Opinion, Says, Statements,
};

const WREN: &str = "wren.ashdown";
const TOBIAS: &str = "tobias.fenn";

/// A laptop whose backup was put back behind trip 1: one history has trips 2 and 3, the other its own
/// 2 to 4. Answers the two histories of number 2, and trip 3 of the shorter one.
pub(crate) fn forked() -> (Barn, [Branch; 2], usize) {
    let mut barn = Barn::founded();
    barn.change_crew(people(true), &[(TOBIAS, Changed::Added)]);
    barn.walk(0, TOBIAS, Left::Sealed);
    let mut other = barn.clone();
    let shorter = barn.walk(0, TOBIAS, Left::Sealed);
    let last = barn.walk(0, TOBIAS, Left::Sealed);
    other.walked = barn.walked;
    let (mut longer, known) = (0, other.trips.len());
    for seq in 2..=4 {
        let walked = other.walk(0, WREN, Left::Sealed);
        if seq == 2 {
            longer = barn.trips.len() + walked - known;
        }
    }
    barn.walked = other.walked;
    barn.files.extend(other.files);
    barn.trips.extend(other.trips.drain(known..));
    let branch = |trip: usize| Branch {
        trip: id(&barn.trips[trip].id),
        ends: barn.trips[trip].ends,
    };
    let histories = [branch(shorter), branch(longer)];
    (barn, histories, last)
}

/// Says which history of number 2 goes on.
pub(crate) fn close(barn: &mut Barn, goes_on: &Branch, ended: &Branch) {
    barn.state(Says::ForkClosed(ForkClosed {
        device: id(LAPTOPS[0]),
        seq: 2,
        goes_on: goes_on.clone(),
        ended: vec![ended.clone()],
        words: words("asked on the phone"),
    }));
}

fn give_up(barn: &mut Barn, laptop: usize, seq: u64) {
    barn.state(Says::LossAccepted(LossAccepted {
        device: id(LAPTOPS[laptop]),
        from: seq,
        to: seq,
        words: words("the disk broke"),
    }));
}

/// What is wrong, and what is told besides.
fn judged(barn: &Barn) -> (Vec<(Finding, String)>, Vec<String>) {
    let statements: Statements = barn.office.read();
    assert_eq!(statements.faults(), []);
    let mut order = Order::new(&statements);
    for trip in &barn.trips {
        if let Some(trip) = examined(barn, &barn.files, &trip.folder).trip {
            order.take(&trip);
        }
    }
    let judged = order.judge();
    let faults = judged.faults.iter();
    (
        faults
            .map(|fault| (fault.finding(), fault.to_string()))
            .collect(),
        judged.notes.iter().map(ToString::to_string).collect(),
    )
}

fn findings(barn: &Barn) -> Vec<Finding> {
    judged(barn).0.iter().map(|(finding, _)| *finding).collect()
}

#[test]
fn somebody_who_comes_back_with_the_same_key_signs_as_before() {
    let mut barn = Barn::founded();
    barn.change_crew(people(true), &[(TOBIAS, Changed::Added)]);
    barn.walk(0, TOBIAS, Left::Sealed);
    barn.change_crew(people(false), &[(TOBIAS, Changed::Retired)]);
    assert_eq!(findings(&barn), []);
    let mut meanwhile = barn.clone();
    meanwhile.walk_as(1, TOBIAS, Left::Sealed, people(true).revision());
    assert_eq!(findings(&meanwhile), [Finding::OutsideBracket]);
    barn.change_crew(people(true), &[(TOBIAS, Changed::Added)]);
    barn.walk(1, TOBIAS, Left::Sealed);
    assert_eq!(findings(&barn), []);
}

#[test]
fn a_trip_still_open_when_the_key_was_revoked_and_sealed_after_it_is_found() {
    let mut barn = Barn::founded();
    barn.change_crew(people(true), &[(TOBIAS, Changed::Added)]);
    barn.walk(0, TOBIAS, Left::SealedLate);
    barn.change_crew(people(false), &[(TOBIAS, Changed::Revoked)]);
    assert_eq!(findings(&barn), [Finding::RevokedSigner]);
}

#[test]
fn one_key_on_two_laptops_at_once_is_a_question_and_no_finding() {
    let mut barn = Barn::founded();
    for laptop in [0, 1] {
        barn.today = Some(200);
        barn.walk(laptop, WREN, Left::Sealed);
    }
    barn.today = None;
    barn.walk(1, WREN, Left::Sealed);
    let (faults, notes) = judged(&barn);
    assert_eq!(faults, []);
    assert_eq!(notes.len(), 1, "{notes:?}");
    assert!(
        notes[0].starts_with(
            "was the key of wren.ashdown in use in two places? trip 1 of laptop-0a11 from "
        ),
        "{notes:?}"
    );
}

#[test]
fn a_laptop_that_quotes_less_than_it_did_before_is_told() {
    let mut barn = Barn::founded();
    let first = barn.walk(0, WREN, Left::Sealed);
    barn.countersign(first, Opinion::Agreed);
    barn.walk(0, WREN, Left::Sealed);
    let whole = barn.office.clone();
    barn.office.said.pop();
    barn.walk(0, WREN, Left::Sealed);
    barn.office = whole;
    let (faults, notes) = judged(&barn);
    assert_eq!(faults, []);
    assert!(
        notes[0].starts_with(
            "trip 3 of laptop-0a11 quotes statement 1 of Odile Marsh, though the trip before it quotes statement 2 of Odile Marsh"
        ),
        "{notes:?}"
    );
}

#[test]
fn an_accepted_loss_does_not_excuse_what_was_witnessed_since() {
    let mut barn = Barn::founded();
    for _ in 0..3 {
        barn.walk(2, WREN, Left::Sealed);
    }
    barn.countersign(2, Opinion::Agreed);
    barn.put_back(2, 2);
    assert_eq!(findings(&barn), [Finding::Gap]);
    give_up(&mut barn, 2, 3);
    assert_eq!(findings(&barn), []);
    let again = barn.walk(2, WREN, Left::Sealed);
    barn.countersign(again, Opinion::Agreed);
    assert_eq!(findings(&barn), []);
    barn.put_back(2, 2);
    let (faults, _) = judged(&barn);
    assert_eq!(faults.len(), 1, "{faults:?}");
    assert!(
        faults[0]
            .1
            .starts_with("trip 3 of laptop-0c33 is witnessed by statement 4 of Odile Marsh"),
        "{faults:?}"
    );
}

#[test]
fn of_a_fork_that_is_closed_anew_the_word_that_stands_on_the_other_counts() {
    let mut barn = Barn::founded();
    let one = barn.walk(0, WREN, Left::Sealed);
    let mut other = barn.clone();
    other.put_back(0, 0);
    other.walk(0, WREN, Left::Sealed);
    barn.files.extend(other.files);
    barn.trips.extend(other.trips);
    assert_eq!(findings(&barn), [Finding::Fork]);
    let branches: Vec<Branch> = barn
        .trips
        .iter()
        .map(|trip| Branch {
            trip: id(&trip.id),
            ends: trip.ends,
        })
        .collect();
    let close = |barn: &mut Barn, goes_on: usize| {
        barn.state(Says::ForkClosed(ForkClosed {
            device: id(LAPTOPS[0]),
            seq: 1,
            goes_on: branches[goes_on].clone(),
            ended: vec![branches[1 - goes_on].clone()],
            words: words("asked on the phone"),
        }));
    };
    close(&mut barn, one);
    assert_eq!(findings(&barn), []);
    close(&mut barn, 1 - one);
    assert_eq!(findings(&barn), []);
}

#[test]
fn numbers_that_only_an_ended_history_used_are_no_gap_where_the_next_trip_goes_over_them() {
    let (mut barn, [shorter, longer], last) = forked();
    close(&mut barn, &shorter, &longer);
    assert_eq!(findings(&barn), []);
    let next = barn.walk_on(0, WREN, last);
    assert_eq!(barn.trips[next].seq, 5);
    assert_eq!(judged(&barn).0, []);
    // What the next one names reaches what is before those numbers.
    barn.change_crew(people(false), &[(TOBIAS, Changed::Retired)]);
    assert_eq!(judged(&barn).0, []);
    // The other one goes on after all: the trip beyond ends with the history that it went on from.
    close(&mut barn, &longer, &shorter);
    assert_eq!(judged(&barn).0, []);
    let longest = barn.trips.iter().position(|trip| trip.seq == 4).unwrap();
    barn.walk_on(0, WREN, longest);
    assert_eq!(judged(&barn).0, []);
}

#[test]
fn a_lost_trip_among_numbers_that_an_ended_history_used_is_the_only_one_told() {
    let (mut barn, [shorter, longer], last) = forked();
    close(&mut barn, &shorter, &longer);
    let gone = barn.walk_on(0, WREN, last);
    barn.walk(0, WREN, Left::Sealed);
    let folder = barn.trips[gone].folder.clone();
    barn.lose(&folder);
    let (faults, _) = judged(&barn);
    assert_eq!(faults.len(), 1, "{faults:?}");
    assert!(
        faults[0].1.starts_with("trip 5 of laptop-0a11 is not here"),
        "{faults:?}"
    );
    let mut given_up = barn.clone();
    give_up(&mut given_up, 0, 5);
    assert_eq!(judged(&given_up).0, []);
}

#[test]
fn a_number_of_the_history_that_goes_on_is_missing_though_an_ended_one_used_it_too() {
    let (mut barn, [shorter, longer], last) = forked();
    close(&mut barn, &shorter, &longer);
    barn.walk_on(0, WREN, last);
    let folder = barn.trips[last].folder.clone();
    barn.lose(&folder);
    let (faults, _) = judged(&barn);
    assert!(
        faults[0]
            .1
            .starts_with("trips 3 to 4 of laptop-0a11 are not here"),
        "{faults:?}"
    );
    give_up(&mut barn, 0, 3);
    give_up(&mut barn, 0, 4);
    let (faults, notes) = judged(&barn);
    assert_eq!(faults, []);
    assert!(
        !notes.iter().any(|note| note.contains("found again")),
        "{notes:?}"
    );
}
