//! A receipt read out on the phone leads to its trip, or to a plain answer why not.

use super::countersign::{AGREED, countersign, laptop, says, short_trips};
use super::forks::forked;
use crate::cli::demo::sealed;
use crate::harness::home::{Ended, Home, trip};
use hames::record::{Receipt, Seal};
use std::fs;
use std::path::Path;

fn receipt_of(home: &Home) -> String {
    let seal = fs::read(trip(&home.demo(), 1).join("seal.json")).unwrap();
    Receipt::of(&Seal::hash(&seal)).to_string()
}

#[test]
fn a_receipt_leads_to_its_trip_or_says_plainly_why_not() {
    let home = sealed();
    let receipt = receipt_of(&home);
    let spoken = receipt.to_lowercase().replace('-', " ").replace('0', "o");
    let found = home
        .hames("logbook receipt --logbook share/hames/demo")
        .argument(&spoken)
        .run();
    assert_eq!((found.status, found.err.as_str()), (9, ""), "{}", found.out);
    for told in [
        "The receipt RECEIPT is of this trip:\n  trip 1 of LAPTOP, demo record\n",
        " steps answered, ",
        "  no manager has countersigned it\n  verified: not-countersigned\n  in share/hames/demo/dev/LAPTOP/t/000001-TRIP\n",
    ] {
        assert!(found.out.contains(told), "{}", found.out);
    }

    let mut slip: Vec<char> = receipt.chars().collect();
    slip[0] = if slip[0] == 'Z' { 'Y' } else { 'Z' };
    let slip: String = slip.into_iter().collect();
    let mistyped = home
        .hames(&format!(
            "logbook receipt --logbook share/hames/demo {slip}"
        ))
        .run();
    assert_eq!((mistyped.status, mistyped.err.as_str()), (2, ""));
    assert!(
        mistyped.out.contains("mistyped or misheard") && !mistyped.out.contains("No seal"),
        "{}",
        mistyped.out
    );

    let other = Receipt::of(&Seal::hash(b"another barn's")).to_string();
    let none = home
        .hames(&format!(
            "logbook receipt --logbook share/hames/demo {other}"
        ))
        .run();
    assert_eq!(none.status, 1);
    assert!(
        none.out.starts_with(
            "No seal in share/hames/demo has the receipt RECEIPT; 1 seal was looked at."
        ),
        "{}",
        none.out
    );
}

#[test]
fn a_trip_that_is_named_is_told_as_its_logbook_tells_it_and_once_whatever_paths_lead_to_it() {
    let home = sealed();
    let receipt = receipt_of(&home);
    let told = |paths: &str| {
        home.hames(&format!("logbook receipt {receipt} {paths}"))
            .run()
    };
    let folder = trip(Path::new(&home.demo()), 1);
    let folder = folder
        .strip_prefix(home.path(""))
        .unwrap()
        .display()
        .to_string();
    let (whole, alone) = (told("share/hames/demo"), told(&folder));
    assert!(
        whole.out.contains(", signed by Wren Ashdown, driver\n"),
        "{}",
        whole.out
    );
    // The folder is told as it was named.
    let plain = |ended: &Ended| ended.out.replace("HOME/", "");
    assert_eq!((alone.status, plain(&alone)), (whole.status, plain(&whole)));
    let twice = told(&format!("share/hames/demo {folder} ./{folder}"));
    assert_eq!((twice.status, plain(&twice)), (whole.status, plain(&whole)));
}

#[test]
fn a_receipt_of_a_damaged_trip_ends_as_its_verification_does() {
    let home = sealed();
    let receipt = receipt_of(&home);
    let path = trip(&home.demo(), 1).join("trip.jsonl");
    let journal = fs::read_to_string(&path).unwrap();
    fs::write(&path, journal.replacen("Tobias", "Tobios", 1)).unwrap();
    let found = home
        .hames(&format!(
            "logbook receipt --logbook share/hames/demo {receipt}"
        ))
        .run();
    assert_eq!(found.status, 16, "{}", found.out);
    assert!(
        found.out.contains("  verified: altered\n    "),
        "{}",
        found.out
    );
    let json = home
        .hames(&format!(
            "logbook receipt --json {receipt} share/hames/demo"
        ))
        .run();
    assert_eq!(json.status, 16);
    assert!(
        json.out.contains(r#""answer":"one""#) && json.out.contains(r#""finding":"altered""#),
        "{}",
        json.out
    );
}

#[test]
fn a_receipt_of_a_trip_on_a_history_that_ended_says_so_and_names_the_one_that_goes_on() {
    let (home, names) = forked();
    let folder = home.demo().join(format!("dev/{}/t", laptop(&home)));
    let receipt = |name: &str| {
        let seal = fs::read(folder.join(name).join("seal.json")).unwrap();
        Receipt::of(&Seal::hash(&seal)).to_string()
    };
    let [goes_on, ends] = names.each_ref().map(|name| receipt(name));
    let told = |receipt: &str, json: &str| {
        let asked = home.hames(&format!(
            "logbook receipt --logbook share/hames/demo {json} {receipt}"
        ));
        asked.run()
    };
    assert!(!told(&ends, "").out.contains("a history that ended"));
    let device = laptop(&home);
    let close = home.hames(&format!(
        "logbook close-fork --logbook share/hames/demo {device} 2 --goes-on"
    ));
    let close = close.argument(&names[0]).argument("--why");
    let closed = close
        .argument("The disk was changed.")
        .typed("demo\n")
        .run();
    assert_eq!(closed.status, 0, "{}{}", closed.out, closed.err);
    says(
        &told(&ends, "").out,
        &[
            "  it is on a history that ended: ",
            "of Odile Marsh",
            "closed the fork at trip 2, and the trip 2 with the receipt RECEIPT goes on\n",
        ],
    );
    assert!(
        told(&ends, "--json")
            .out
            .contains(r#""history_ended":"it is on a history"#)
    );
    assert!(!told(&goes_on, "").out.contains("a history that ended"));
    assert!(
        told(&goes_on, "--json")
            .out
            .contains(r#""history_ended":null"#)
    );
}

#[test]
fn a_receipt_of_a_trip_that_was_pruned_tells_who_pruned_it_and_what_is_kept() {
    let home = short_trips(2);
    let receipt = receipt_of(&home);
    assert_eq!(countersign(&home, 1, AGREED).status, 0);
    let prune = home.hames(&format!(
        "logbook prune --logbook share/hames/demo {}/1 --why",
        laptop(&home)
    ));
    let pruned = prune.argument("Older than we keep.");
    let pruned = pruned.typed("prune 1\ndemo\n").run();
    assert_eq!(pruned.status, 0, "{}{}", pruned.out, pruned.err);
    let found = home
        .hames(&format!(
            "logbook receipt --logbook share/hames/demo {receipt}"
        ))
        .run();
    assert_eq!((found.status, found.err.as_str()), (1, ""), "{}", found.out);
    says(
        &found.out,
        &[
            "trip 1 of LAPTOP\n  its record is here no more: Odile Marsh pruned it by statement 3, DATE",
            "which keeps its seal",
        ],
    );
    let json = home
        .hames(&format!(
            "logbook receipt --logbook share/hames/demo --json {receipt}"
        ))
        .run();
    says(
        &json.out,
        &["\"finding\":\"pruned\"", "\"pruned_by\":\"Odile Marsh\""],
    );
    assert!(!json.out.contains("\"person\":\""), "{}", json.out);
}
