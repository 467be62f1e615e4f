//! A countersign that says how long the looking took: version 2 of the format, read alike by the
//! program and by the second verifier, and in no other spelling.

use super::statements::Batch;
use crate::record_statements::{Office, countersigned, key};
use hames::record::{Countersigned, Mode, Says, Statement};

const ODILE: &str = "odile.marsh";

/// Odile has looked at a trip for so long.
fn timed(took_ms: Option<u64>) -> Office {
    let Says::Countersigned(says) = countersigned(3) else {
        panic!("another kind");
    };
    let mut office = Office::founded();
    office.state(
        ODILE,
        Says::Countersigned(Countersigned { took_ms, ..says }),
    );
    office
}

#[test]
fn both_read_how_long_the_looking_took_and_no_other_spelling_of_it() {
    let mut batch = Batch::default();
    for (took, version) in [
        (None, "{\"v\":1,"),
        (Some(0), "{\"v\":2,"),
        (Some(61_000), "{\"v\":2,"),
    ] {
        let office = timed(took);
        let text = String::from_utf8(office.last().statement.clone()).unwrap();
        assert!(text.starts_with(version), "{text}");
        batch.put(&format!("{took:?}"), office.said);
    }
    let office = timed(Some(61_000));
    let text = String::from_utf8(office.last().statement.clone()).unwrap();
    let odile = key(ODILE);
    for (part, other) in [
        ("{\"v\":2", "{\"v\":1"),
        ("\"took_ms\":61000", "\"took_ms\":-61000"),
        ("\"took_ms\":61000", "\"took_ms\":61000.5"),
        ("\"took_ms\":61000", "\"took_ms\":\"61000\""),
        ("\"took_ms\":61000", "\"took_ms\":null"),
        ("\"took_ms\":61000", "\"took_ms\":true"),
        (",\"took_ms\":61000", ""),
    ] {
        let changed = text.replace(part, other);
        assert_ne!(changed, text, "{part}");
        assert!(Statement::read(changed.as_bytes()).is_err(), "{other}");
        let signed = odile.sign(Statement::namespace(Mode::Real), changed.as_bytes());
        let mut office = office.clone();
        let said = office.said.last_mut().unwrap();
        said.statement = changed.into_bytes();
        said.signature = signed.unwrap().into_bytes();
        batch.put(other, office.said);
    }
    let told = batch.both();
    assert_eq!(told[..3], ["intact"; 3], "{told:?}");
    assert_eq!(told[3..], ["unreadable"; 7], "{told:?}");
}
