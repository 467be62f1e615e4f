//! Who sees to a defect: version 2 of the format, read alike by the program and by the second verifier,
//! and in no other spelling.

use super::barns::both;
use super::statements::Batch;
use crate::barn50::making::{Barn, Left};
use crate::record_statements::{Office, key};
use crate::record_trip::{id, words};
use hames::record::{DefectOwned, Digest, Mode, Odometer, Owner, Previous, Says, Statement};
use hames::units::{Dimension, Typed};

const ODILE: &str = "odile.marsh";

fn owned(seal: Digest) -> DefectOwned {
    DefectOwned {
        trip: id("9f0c11b2"),
        device: id("laptop-7f3a"),
        seq: 3,
        seal,
        step: words("tire/left-rear"),
        owner: Owner::Crew(id("wren.ashdown")),
        by_day: "2026-12-01".parse().ok(),
        by_odometer: Some(Odometer(
            Typed::read("48700.50 mi", Dimension::Length).unwrap(),
        )),
        words: Some(words("A new valve core.")),
    }
}

fn stated(owned: DefectOwned) -> Office {
    let mut office = Office::founded();
    office.state(ODILE, Says::DefectOwned(owned));
    office
}

#[test]
fn both_read_who_sees_to_a_defect_and_no_other_spelling_of_it() {
    let seal = Digest::of(b"seal");
    let whole = owned(seal);
    let mut batch = Batch::default();
    let bare = DefectOwned {
        owner: Owner::Outside(words("Alder Road trailer shop")),
        by_day: None,
        by_odometer: None,
        words: None,
        ..whole.clone()
    };
    for (name, says) in [("whole", whole.clone()), ("bare", bare)] {
        let office = stated(says.clone());
        let read = Statement::read(&office.last().statement).unwrap();
        assert_eq!(read.says, Says::DefectOwned(says));
        batch.put(name, office.said);
    }
    let office = stated(whole);
    let text = String::from_utf8(office.last().statement.clone()).unwrap();
    let odile = key(ODILE);
    let crew = "{\"crew\":\"wren.ashdown\"}";
    let changes = [
        ("{\"v\":2", "{\"v\":1"),
        ("only a later reading closes it", "this closes it"),
        (crew, "{\"outside\":\"\"}"),
        (crew, "{\"crew\":\"wren.ashdown\",\"outside\":\"a shop\"}"),
        (crew, "{\"crew\":\"Wren Ashdown\"}"),
        (crew, "{\"outside\":\"a\u{202e}shop\"}"),
        (crew, "{}"),
        (crew, "null"),
        ("2026-12-01", "2026-12-1"),
        ("2026-12-01", "2026-02-30"),
        ("2026-12-01", "20261201"),
        ("2026-12-01", "+12026-12-01"),
        ("2026-12-01", "0000-12-01"),
        ("48700.5 mi", "48700.50 mi"),
        ("48700.5 mi", "-48700.5 mi"),
        ("48700.5 mi", "48700.5 psi"),
        ("\"seq\":3", "\"seq\":0"),
        (",\"words\":\"A new valve core.\"", ""),
        ("\"A new valve core.\"", "\"\""),
        ("\"by_day\":", "\"by\":"),
    ];
    for (part, other) in changes {
        let wrong = text.replace(part, other);
        assert_ne!(wrong, text, "{part}");
        assert!(Statement::read(wrong.as_bytes()).is_err(), "{other}");
        let signed = odile.sign(Statement::namespace(Mode::Real), wrong.as_bytes());
        let mut office = office.clone();
        let said = office.said.last_mut().unwrap();
        said.statement = wrong.into_bytes();
        said.signature = signed.unwrap().into_bytes();
        batch.put(other, office.said);
    }
    let told = batch.both();
    assert_eq!(told[..2], ["intact"; 2], "{told:?}");
    assert_eq!(told[2..], ["unreadable"; 20], "{told:?}");
    // What was typed means what stands beside it.
    let other = text.replace("48700.50 mi", "48701 mi");
    assert!(Statement::read(other.as_bytes()).is_err());
}

#[test]
fn both_hold_the_trip_where_a_defect_was_found_to_the_seal_it_had_then() {
    let mut barn = Barn::founded();
    barn.walk(1, "wren.ashdown", Left::Sealed);
    let trip = barn.walk(0, "wren.ashdown", Left::Sealed);
    let trip = barn.trips[trip].clone();
    let Previous::Sealed(seal) = trip.ends else {
        panic!("not sealed: {trip:?}")
    };
    let says = |seal| {
        Says::DefectOwned(DefectOwned {
            trip: id(&trip.id),
            device: id(trip.device),
            seq: trip.seq,
            ..owned(seal)
        })
    };
    let mut other = barn.clone();
    barn.state(says(seal));
    assert_eq!(both(&barn), "intact");
    other.state(says(Digest::of(b"another")));
    assert_eq!(
        both(&other),
        "fork",
        "it ended otherwise than the manager saw"
    );
    let of_trip = |file: &String| file.starts_with(&format!("{}/", trip.folder));
    let files = barn.files.keys().filter(|file| of_trip(file)).cloned();
    let files: Vec<String> = files.collect();
    assert!(!files.is_empty(), "{}", trip.folder);
    for file in files {
        barn.files.remove(&file);
    }
    assert_eq!(both(&barn), "gap");
}
