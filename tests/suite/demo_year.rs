//! The year of an invented barn: whether it is what it says, and whether its records hold.

mod attention;
mod leak;
mod opened;
mod records;
mod services;
mod steps;
pub(crate) mod trends;

use chrono::TimeDelta;
use hames::checklist::SHIPPED;
use hames::cli::year::{SEED, invented};
use hames::walk::{Ended, Event, Round};
use hames::year::{LAPTOPS, Look, PEOPLE, TRIPS, Trip, first_walked, walked};
use std::collections::BTreeSet;
use std::sync::LazyLock;

static YEAR: LazyLock<Vec<Trip>> = LazyLock::new(|| walked(&invented(), SEED));

#[test]
fn it_is_six_hundred_walks_of_three_rigs_by_six_people_on_three_laptops() {
    assert_eq!((YEAR.len(), TRIPS), (600, 600));
    let count = |of: fn(&Trip) -> usize| YEAR.iter().map(of).collect::<BTreeSet<_>>().len();
    assert_eq!(count(|trip| trip.rig), 3);
    assert_eq!(count(|trip| trip.laptop), LAPTOPS);
    let hands = YEAR.iter().flat_map(|trip| [&trip.reader, &trip.doer]);
    let hands: BTreeSet<&str> = hands.map(hames::walk::Words::as_str).collect();
    let manager = PEOPLE.iter().find(|one| !hands.contains(one.name)).unwrap();
    assert_eq!(hands.len() + 1, PEOPLE.len());
    assert_eq!(manager.name, "Odile Marsh");
}

#[test]
fn every_list_that_comes_with_the_program_is_walked_in_it() {
    let barn = invented();
    let walked: BTreeSet<&str> = YEAR
        .iter()
        .map(|trip| barn.lists[trip.list].id.as_str())
        .collect();
    let all: BTreeSet<&str> = SHIPPED.iter().map(|list| list.id).collect();
    assert_eq!(walked, all);
}

#[test]
fn other_seeds_come_to_six_hundred_walks_as_well_and_the_same_one_to_the_same_year() {
    let barn = invented();
    let other = walked(&barn, SEED + 1);
    assert_eq!(other.len(), TRIPS);
    assert_ne!(other[0].id, YEAR[0].id);
    let again = first_walked(&barn, SEED, 60);
    assert_eq!(again.len(), 60);
    for (one, two) in YEAR.iter().zip(&again) {
        assert_eq!((&one.id, &one.began), (&two.id, &two.began));
        assert_eq!(one.entries, two.entries);
    }
}

#[test]
fn the_walks_follow_each_other_and_take_a_year() {
    for (one, next) in YEAR.iter().zip(&YEAR[1..]) {
        let end = one.signed.as_ref().map_or(one.walk.last(), |(_, at)| at);
        assert!(end.wall < next.began.wall, "{} and {}", one.id, next.id);
    }
    let year = YEAR[TRIPS - 1].began.wall - YEAR[0].began.wall;
    assert!(
        year > TimeDelta::days(350) && year < TimeDelta::days(366),
        "{year}"
    );
}

#[test]
fn everything_a_walk_can_come_to_happens_in_it() {
    let has = |is: &dyn Fn(&Event) -> bool| {
        YEAR.iter()
            .any(|trip| trip.entries.iter().any(|entry| is(&entry.event)))
    };
    let round = |wanted: Round| {
        has(&|event| matches!(event, Event::Answered { round, .. } if *round == wanted))
    };
    assert!(has(&|event| matches!(event, Event::Held { .. })));
    assert!(has(&|event| matches!(event, Event::HandedOver { .. })));
    assert!(has(&|event| matches!(event, Event::Deferred { .. })));
    assert!(has(&|event| matches!(event, Event::Unsure { .. })));
    assert!(has(&|event| matches!(event, Event::PutRight { .. })));
    for (_, wanted) in Round::WORDS {
        assert!(round(wanted), "{wanted:?}");
    }
    let ended = |how: Option<Ended>| YEAR.iter().filter(|trip| trip.walk.ended() == how).count();
    assert!(ended(Some(Ended::NotFitToGo)) > 0);
    assert_eq!(ended(Some(Ended::Incomplete)), 0);
    assert_eq!(ended(None), 2);
    for look in [Look::Agreed, Look::NotYet] {
        assert!(YEAR.iter().filter(|trip| trip.look == look).count() > 40);
    }
    assert!(YEAR.iter().any(|trip| matches!(trip.look, Look::Asked(_))));
}

/// The middle of the milliseconds from the opening of a step to its answer.
fn pace(trip: &Trip) -> i64 {
    let pairs = trip.entries.iter().zip(&trip.entries[1..]);
    let answered = pairs.filter(|(_, next)| matches!(next.event, Event::Answered { .. }));
    let took = answered.map(|(one, next)| (next.at.wall - one.at.wall).num_milliseconds());
    let mut took: Vec<i64> = took.collect();
    took.sort_unstable();
    took[took.len() / 2]
}

#[test]
fn what_was_typed_up_from_the_seat_of_the_truck_went_faster_than_anything_walked() {
    let (typed, honest): (Vec<&Trip>, Vec<&Trip>) = YEAR.iter().partition(|trip| trip.typed_up);
    let slowest = typed.iter().map(|trip| pace(trip)).max().unwrap();
    let fastest = honest.iter().map(|trip| pace(trip)).min().unwrap();
    assert!(
        typed.len() > 4 && 2 * slowest < fastest,
        "{slowest} and {fastest}"
    );
}
