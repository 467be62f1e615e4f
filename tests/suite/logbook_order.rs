//! The order of trips, by their numbers and hashes and by what managers state.

use crate::record_trip::Trip;
use hames::logbook::order::Order;
use hames::record::{Digest, Previous, Seal, Statements};

/// A short walk to its end.
const SHORT: &str = "open\n see down\n end incomplete: the vet called";

/// Trips 1 to 5 of one laptop, each quoting the one before.
fn logbook() -> Vec<Trip> {
    let mut trips: Vec<Trip> = Vec::new();
    for seq in 1..=5 {
        let previous = trips.last().map(|trip| {
            let seal = trip.seal.as_ref().unwrap();
            Previous::Sealed(Seal::hash(seal))
        });
        trips.push(Trip::numbered(seq, previous, SHORT));
    }
    trips
}

fn order(trips: &[&Trip]) -> Vec<String> {
    let none = Statements::default();
    let mut order = Order::new(&none);
    for trip in trips {
        order.take(&trip.verified());
    }
    let faults = order.judge().faults.into_iter();
    faults
        .map(|fault| format!("{}: {fault}", fault.finding()))
        .collect()
}

/// The same with the hashes left out.
fn told(trips: &[&Trip]) -> Vec<String> {
    order(trips).iter().map(|told| short(told)).collect()
}

fn short(told: &str) -> String {
    let words = told.split(' ').map(|word| {
        let hash = word.trim_end_matches([')', ';', ',']);
        let is_hash = hash.len() == 16 && hash.bytes().all(|byte| byte.is_ascii_hexdigit());
        if is_hash {
            word.replace(hash, "HASH")
        } else {
            word.to_owned()
        }
    });
    words.collect::<Vec<_>>().join(" ")
}

#[test]
fn a_missing_trip_leaves_a_gap_but_the_newest_can_always_be_missing() {
    let trips = logbook();
    let all: Vec<&Trip> = trips.iter().collect();
    assert_eq!(order(&all), [""; 0]);
    for gone in 0..4 {
        let mut left = all.clone();
        left.remove(gone);
        assert_eq!(
            told(&left),
            [format!(
                "gap: trip {} of laptop-7f3a is not here, or cannot be relied on{}; \
                 behind stands trip {2} (9f0c11b2000{2}, seal HASH), which names seal HASH",
                gone + 1,
                if gone == 0 {
                    String::new()
                } else {
                    format!("; before stands trip {gone} (9f0c11b2000{gone}, seal HASH)")
                },
                gone + 2
            )]
        );
    }
    assert_eq!(order(&all[..4]), [""; 0], "nothing came after it");
    assert_eq!(
        told(&[all[0], all[4]]),
        [
            "gap: trips 2 to 4 of laptop-7f3a are not here, or cannot be relied on; \
             before stands trip 1 (9f0c11b20001, seal HASH); \
             behind stands trip 5 (9f0c11b20005, seal HASH), which names seal HASH"
        ]
    );
}

#[test]
fn copies_in_any_order_are_one_trip() {
    let trips = logbook();
    let mut twice: Vec<&Trip> = trips.iter().chain(&trips).collect();
    twice.reverse();
    assert_eq!(order(&twice), [""; 0]);
    let mut unsealed = trips[2].clone();
    unsealed.seal = None;
    twice.push(&unsealed);
    assert_eq!(
        order(&twice),
        [""; 0],
        "a copy not yet sealed is the same trip"
    );
}

#[test]
fn two_histories_with_one_number_are_a_fork_and_neither_is_chosen() {
    let trips = logbook();
    let previous = Previous::Sealed(Seal::hash(trips[1].seal.as_ref().unwrap()));
    let other = Trip::numbered(3, Some(previous), "open\n end incomplete: rain");
    let all: Vec<&Trip> = trips.iter().chain([&other]).collect();
    assert_eq!(
        told(&all),
        [
            "fork: laptop-7f3a has 2 different trips 3: 9f0c11b20003 (seal HASH); 9f0c11b20003 (seal HASH); a backup was put back, or a disk was copied; both are kept"
        ]
    );
}

#[test]
fn one_journal_under_two_seals_is_a_fork_too() {
    let trip = Trip::of(SHORT);
    let mut again = trip.clone();
    again.reseal(|seal| seal.meaning = "I looked at nothing.".to_owned());
    let told = order(&[&trip, &again]);
    assert!(
        told[0].starts_with("fork: laptop-7f3a has 2 different trips 1"),
        "{told:?}"
    );
}

#[test]
fn a_trip_that_ended_otherwise_than_the_next_one_says_is_found() {
    let full = Trip::numbered(1, None, "open\n see down\n open");
    let last = hames::record::read_chain(&full.journal).tip().last;
    let next = Trip::numbered(2, Some(Previous::Unsealed(last)), SHORT);
    assert_eq!(order(&[&full, &next]), [""; 0]);
    let went_on = Trip::numbered(
        1,
        None,
        "open\n see down\n open\n see none\n end abandoned: rain",
    );
    assert_eq!(
        order(&[&went_on, &next]),
        [""; 0],
        "it was taken up again later"
    );
    let mut cut = full.clone();
    let end = cut
        .journal
        .trim_ascii_end()
        .iter()
        .rposition(|byte| *byte == b'\n');
    cut.journal.truncate(end.unwrap() + 1);
    assert_eq!(
        told(&[&cut, &next]),
        [
            "truncated: trip 1 of laptop-7f3a is shorter here than when the next one began: \
             it is trip 1 (9f0c11b20001, line HASH), and the next is trip 2 (9f0c11b20002, seal HASH)"
        ]
    );
    let quoting = Previous::Sealed(Digest::of(b"another"));
    let next = Trip::numbered(2, Some(quoting), SHORT);
    let first = Trip::of(SHORT);
    assert_eq!(
        told(&[&first, &next]),
        [
            "fork: trip 1 of laptop-7f3a has another seal than the next one quotes: \
             it is trip 1 (9f0c11b20001, seal HASH), and the next is trip 2 (9f0c11b20002, seal HASH)"
        ]
    );
}

#[test]
fn a_trip_that_ended_and_was_not_signed_is_no_abandoned_one() {
    let next_of = |trip: &Trip| {
        let last = hames::record::read_chain(&trip.journal).tip().last;
        Trip::numbered(2, Some(Previous::Unsealed(last)), SHORT)
    };
    let none = Statements::default();
    let notes = |trips: [&Trip; 2]| {
        let mut order = Order::new(&none);
        for trip in trips {
            order.take(&trip.verified());
        }
        let notes = order.judge().notes.into_iter();
        notes.map(|note| note.to_string()).collect::<Vec<_>>()
    };
    let mut ended = Trip::numbered(1, None, SHORT);
    ended.seal = None;
    assert_eq!(
        notes([&ended, &next_of(&ended)]),
        ["ended and not signed: trip 1 of laptop-7f3a (9f0c11b20001); trip 2 began after it"]
    );
    let left = Trip::numbered(1, None, "open\n see down\n open");
    assert_eq!(
        notes([&left, &next_of(&left)]),
        [
            "abandoned: trip 1 of laptop-7f3a (9f0c11b20001) was never ended, and trip 2 began after \
             it"
        ]
    );
}
