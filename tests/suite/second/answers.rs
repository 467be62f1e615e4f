//! What a groom answers to a manager in line 0: read alike by the program and by the second verifier,
//! and in no other spelling.

use super::bench::{Batch, Folder};
use crate::record_trip::{Trip, crew, seal};
use crate::record_version_2::answering;
use crate::walk::bench::Bench;
use hames::walk::Ended;

/// A trip whose line 0 answers, with these words of it changed, as if it had been written so.
fn changed(part: &str, other: &str) -> Folder {
    let mut bench = Bench::new();
    bench.play("open\n see down\n end incomplete: the vet called");
    let at = bench.walk.began().clone();
    let mut trip = Trip::recorded(&answering(), &at, &bench.journal);
    trip.seal(&seal(2, &trip, Ended::Incomplete, &bench.journal));
    if part != other {
        let text = String::from_utf8(trip.journal.clone()).unwrap();
        let (line, _) = text.split_once('\n').unwrap();
        assert!(line.contains(part), "{part}");
        // Line 0 alone, of which nothing tells the hash.
        trip.journal = format!("{}\n", line.replacen(part, other, 1)).into_bytes();
        (trip.seal, trip.by_person, trip.by_device) = (None, None, None);
    }
    Folder::of(&trip)
}

#[test]
fn both_read_an_answer_and_no_other_spelling_of_it() {
    let mut batch = Batch::new(&[crew()]);
    let words = "\"words\":\"The ferry was late, and we waited.\"";
    let whole = "{\"question\":";
    batch.put("whole", changed("", ""));
    batch.put("other words", changed("The ferry", "A ferry"));
    for (name, part, other) in [
        (
            "by another",
            "\"by\":\"Tobias Fenn\"",
            "\"by\":\"Odile Marsh\"",
        ),
        ("by nobody", "\"by\":\"Tobias Fenn\"", "\"by\":null"),
        ("no words", words, "\"words\":null"),
        ("no word for it", words, "\"word\":\"The ferry was late.\""),
        ("hidden words", "The ferry", "The\u{202e} ferry"),
        ("no question", "\"question\":\"", "\"question\":\"0"),
        ("version 1", "{\"v\":2", "{\"v\":1"),
        (
            "before the rest",
            "\"paper\":null,\"answers\":",
            "\"answers\":",
        ),
        ("a number", whole, "7,{\"question\":"),
        ("none", "\"answers\":[{", "\"answers\":[],\"more\":[{"),
    ] {
        batch.put(name, changed(part, other));
    }
    let told: Vec<String> = batch.both().into_iter().map(|(_, word)| word).collect();
    assert_eq!(told[..2], ["intact", "unsealed"], "{told:?}");
    assert_eq!(told[2..], ["unreadable"; 10], "{told:?}");
}
