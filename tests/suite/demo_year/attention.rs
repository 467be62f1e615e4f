//! What is asked about the year: of what was typed up from the seat of a truck nearly always, of
//! what was walked hardly ever.

use super::YEAR;
use hames::record::Id;
use hames::review::{Asking, Brief, Named, Signal, Trace, attention};
use hames::year::Trip;
use std::collections::BTreeSet;

fn trace((trip, seq): (&Trip, u64)) -> Trace {
    let who = trip.signed.as_ref().map(|(person, _)| person.name);
    let of = Named {
        trip: Id::read(&trip.id).unwrap(),
        device: Id::read(&format!("laptop-{}", trip.laptop)).unwrap(),
        seq,
        at: trip.walk.paper().copied().unwrap_or(trip.began.wall),
        who: who.map_or_else(|| trip.reader.to_string(), str::to_owned),
    };
    Trace::new(of, &trip.walk, (&trip.began, &trip.entries))
}

fn asked() -> Vec<Asking> {
    attention(
        YEAR.iter()
            .zip(1..)
            .map(|trip| Brief::of(&trace(trip)))
            .collect(),
    )
}

#[test]
fn nine_of_ten_that_were_typed_up_are_asked_about_and_one_of_twenty_that_was_walked() {
    let asked = asked();
    let about: BTreeSet<&str> = asked
        .iter()
        .filter(|asking| !asking.what.is_of_many())
        .map(|asking| asking.of.trip.as_str())
        .collect();
    let (typed, walked): (Vec<&Trip>, Vec<&Trip>) = YEAR.iter().partition(|trip| trip.typed_up);
    let of = |trips: &[&Trip]| {
        trips
            .iter()
            .filter(|trip| about.contains(trip.id.as_str()))
            .count()
    };
    let told: Vec<String> = asked.iter().map(ToString::to_string).collect();
    assert!(
        10 * of(&typed) >= 9 * typed.len() && typed.len() > 4,
        "{} of {}: {told:#?}",
        of(&typed),
        typed.len()
    );
    assert!(
        20 * of(&walked) <= walked.len(),
        "{} of {}: {told:#?}",
        of(&walked),
        walked.len()
    );
}

#[test]
fn whoever_reads_to_the_nearest_five_is_asked_once_and_nobody_else() {
    let asked = asked();
    let round = asked
        .iter()
        .filter(|one| matches!(one.what, Signal::RoundDigits { .. }));
    let who: Vec<&str> = round.map(|one| one.of.who.as_str()).collect();
    assert_eq!(who, ["Perrin Quill"]);
}
