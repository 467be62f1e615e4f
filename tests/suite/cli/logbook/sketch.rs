//! What nearly happened on a trip, as a scenario that is still to be written.

use super::countersign::says;
use super::report::book;
use serde_json::Value;
use std::fs;

#[test]
fn what_was_found_on_a_trip_is_sketched_step_by_step_and_nobody_is_named_in_it() {
    let home = book(36);
    // Names of laptops as they are.
    let listed = home.hames("logbook --logbook book --json").start();
    let listed = String::from_utf8(listed.wait_with_output().unwrap().stdout).unwrap();
    let trips = listed
        .lines()
        .map(|line| -> Value { serde_json::from_str(line).unwrap() });
    let (mut alone, mut several) = (0, 0);
    for trip in trips {
        let name = trip["named"].as_str().unwrap();
        let sketch = |step: &str| {
            let asked = format!("logbook sketch {name} --logbook book{step}");
            home.hames(&asked).run()
        };
        let told = sketch("");
        let said = told.err.split_whitespace().collect::<Vec<_>>().join(" ");
        let sketched = match told.status {
            1 => {
                says(
                    &said,
                    &["so there is nothing to sketch. Choose another trip: "],
                );
                continue;
            }
            2 => {
                several += 1;
                let (_, steps) = said
                    .split_once("behind --step: ")
                    .unwrap_or_else(|| panic!("{said}"));
                let first = steps.split(", ").next().unwrap();
                assert!(steps.contains(", "), "{steps}");
                let one = sketch(&format!(" --step {first}"));
                says(&one.out, &[first]);
                let none = sketch(" --step no/such");
                assert_eq!((none.status, none.out.as_str()), (2, ""));
                says(&none.err, &["“no/such” is no step of this trip", first]);
                one
            }
            _ => {
                alone += 1;
                told
            }
        };
        assert_eq!(sketched.status, 0, "{}", sketched.err);
        says(
            &sketched.err,
            &["hames lint FILE", "hames drill --logbook book FILE", "____"],
        );
        let others = trip["others"].as_array().unwrap().iter();
        for who in others.chain([&trip["who"]]) {
            let who = who.as_str().unwrap();
            for part in who.split(' ') {
                assert!(!sketched.out.contains(part), "{part}: {}", sketched.out);
            }
        }
        fs::write(home.path("near-miss.yaml"), &sketched.out).unwrap();
        if alone + several == 4 {
            break;
        }
    }
    assert!(alone > 0 && several > 0, "{alone} {several}");
    // Kept as it is, it cannot be played, and each place to be written is told.
    let checked = home.hames("lint near-miss.yaml").run();
    let played = home.hames("drill near-miss.yaml --plain").run();
    assert_eq!((checked.status, played.status), (1, 1), "{}", played.err);
    says(&checked.out, &["near-miss.yaml:", "____"]);
}

#[test]
fn a_trip_that_is_not_there_is_not_sketched() {
    let home = book(1);
    let told = home.hames("logbook sketch laptop-0/7 --logbook book").run();
    assert_eq!((told.status, told.out.as_str()), (2, ""), "{}", told.err);
}
