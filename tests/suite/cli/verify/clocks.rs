//! Clocks are marked beside the trips they are wrong in, and nothing is found for it.

use crate::barn50::making::{Barn, Left, lay};
use crate::harness::home::Home;
use crate::record_trip::{Trip, begun, crew, seal};
use crate::second::bench::Folder;
use crate::walk::bench::Bench;
use hames::walk::Ended;
use std::fs;

/// A laptop's clock shows these days on its trips, one after the other.
fn days(days: &[i64]) -> Home {
    let mut barn = Barn::founded();
    for day in days {
        barn.today = Some(*day);
        barn.walk(0, "wren.ashdown", Left::Sealed);
    }
    let home = Home::new();
    lay(&barn.files, &home.path("book"));
    home
}

#[test]
fn a_clock_that_was_set_back_or_runs_far_ahead_is_marked_and_the_finding_stays() {
    let home = days(&[5, 3, 9000]);
    let ended = home.hames("verify book").run();
    assert_eq!((ended.status, ended.err.as_str()), (9, ""));
    for told in [
        "  marked, line 1, DATE TIME -05:00: the clock shows less than it had shown before, DATE ",
        "the clock is more than a day ahead of everything else known, ",
        "what is marked is no finding: work went on, and which times to lean on is for you to say\n",
    ] {
        assert!(ended.out.contains(told), "{told}\n{}", ended.out);
    }
    assert!(
        ended.out.ends_with("3 trips: not-countersigned\n"),
        "{}",
        ended.out
    );

    let output = home.hames("verify --json book").start().wait_with_output();
    let text = String::from_utf8(output.unwrap().stdout).unwrap();
    let lines = text.lines().map(|line| serde_json::from_str(line).unwrap());
    let trips: Vec<serde_json::Value> = lines
        .filter(|line: &serde_json::Value| line["kind"] == "trip")
        .collect();
    let about = |trip: &serde_json::Value| -> Vec<String> {
        let marks = trip["clock_marks"].as_array().unwrap().iter();
        marks
            .map(|mark| mark["about"].as_str().unwrap().to_owned())
            .collect()
    };
    assert_eq!(about(&trips[0]), [""; 0]);
    assert!(
        about(&trips[1]).contains(&"clock-set-back".to_owned()),
        "{trips:?}"
    );
    assert!(
        about(&trips[2]).contains(&"clock-far-ahead".to_owned()),
        "{trips:?}"
    );
    assert_eq!(trips[1]["clock_marks"][0]["doubtful"], true);

    // One trip asked for is marked as it is in the whole, and so is its row in the table.
    let path = trips[1]["path"].as_str().unwrap();
    let one = home.hames(&format!("verify {path}")).run();
    assert!(
        one.out
            .contains("the clock shows less than it had shown before"),
        "{}",
        one.out
    );
    assert!(!one.out.contains("ahead of everything"), "{}", one.out);
    let rows = home
        .hames("logbook table trips --json --logbook book")
        .run();
    let rows: Vec<serde_json::Value> = rows
        .out
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    for (row, trip) in rows.iter().zip(&trips) {
        assert_eq!(row["clock_marks"], about(trip).len(), "{row}");
    }
}

#[test]
fn a_laptop_that_slept_or_was_started_anew_within_a_walk_is_marked_there() {
    let mut bench = Bench::new();
    bench.play("open\n wait 7200\n see down\n restart\n end incomplete: rain");
    let at = bench.walk.began().clone();
    let mut trip = Trip::recorded(&begun(1, None), &at, &bench.journal);
    trip.seal(&seal(1, &trip, Ended::Incomplete, &bench.journal));
    let home = Home::new();
    let folder = format!("book/dev/laptop-7f3a/t/000001-{}", &id_of(&trip)[..8]);
    Folder::of(&trip).write(&home.path(&folder));
    fs::create_dir_all(home.path("book/crew")).unwrap();
    home.put("book/crew/allowed_signers", crew().text());
    let ended = home.hames("verify book").run();
    for told in [
        "  marked, line 3, DATE TIME -05:00: nothing was done for 2 h 0 min; the laptop slept or was left\n",
        "  marked, line 4, DATE TIME -05:00: the laptop was started anew since the line before\n",
    ] {
        assert!(ended.out.contains(told), "{told}\n{}", ended.out);
    }
    assert_eq!(ended.out.matches("marked, ").count(), 2, "{}", ended.out);
}

fn id_of(trip: &Trip) -> String {
    trip.verified().begun().trip.to_string()
}
