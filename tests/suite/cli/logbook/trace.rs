//! An instrument that read wrong: which readings relied on it, and which verdicts would not hold.

use super::countersign::copy;
use crate::cli::crew::done;
use crate::cli::demo::sealed;
use crate::harness::home::{Home, trip};
use std::fs;

#[test]
fn every_reading_of_a_gauge_is_listed_and_judged_again_as_if_it_had_read_wrong() {
    let home = sealed();
    let listed = home
        .hames("logbook trace gauge-100 --logbook share/hames/demo")
        .run();
    assert_eq!(
        (listed.status, listed.err.as_str()),
        (0, ""),
        "{}",
        listed.out
    );
    let readings = listed
        .out
        .lines()
        .filter(|line| line.contains("  trip 1 of LAPTOP  "));
    let readings = readings.count();
    assert!(readings >= 4, "{}", listed.out);
    assert!(
        listed.out.ends_with(&format!(
            "{readings} readings on 1 trip taken with “gauge-100”.\n"
        )),
        "{}",
        listed.out
    );

    let wrong = home
        .hames("logbook trace gauge-100 --logbook share/hames/demo --error")
        .argument("30 psi")
        .run();
    assert_eq!(wrong.status, 1, "{}", wrong.out);
    assert!(
        wrong.out.contains("    wrong by 30 psi it may stand for ")
            && wrong.out.contains(": measure-again, ")
            && wrong.out.contains("the records stay as they are"),
        "{}",
        wrong.out
    );

    let none = home
        .hames("logbook trace gauge-7 --logbook share/hames/demo")
        .run();
    assert_eq!(none.status, 1);
    assert!(
        none.out.starts_with(
            "No reading here was taken with “gauge-7”. Instruments of the rigs walked: "
        ),
        "{}",
        none.out
    );
    let later = home
        .hames("logbook trace gauge-100 --logbook share/hames/demo --since 2100-01-01")
        .run();
    assert_eq!(later.status, 1);
    assert_eq!(
        later.out,
        format!(
            "No reading here was taken with “gauge-100” on DATE or later; {readings} were \
             before.\n"
        )
    );
    let not = home.hames("logbook trace gauge-100 --error wide").run();
    assert_eq!(not.status, 2);
    assert!(
        not.err.contains("is no error an instrument could have"),
        "{}",
        not.err
    );
}

#[test]
fn an_error_of_another_kind_of_quantity_is_refused_with_the_kind_the_instrument_measures() {
    let home = sealed();
    let asked = home.hames("logbook trace gauge-100 --logbook share/hames/demo --error");
    let ended = asked.argument("5 kg").run();
    assert_eq!((ended.status, ended.out.as_str()), (2, ""), "{}", ended.err);
    assert!(
        ended.err.starts_with(
            "“gauge-100” measures pressure, and the error behind --error is of another"
        ),
        "{}",
        ended.err
    );
}

#[test]
fn a_rig_that_no_trip_here_was_walked_with_is_told_as_such() {
    let home = sealed();
    let ended = home
        .hames("logbook trace gauge-100 --logbook share/hames/demo --rig zz")
        .run();
    assert_eq!((ended.status, ended.err.as_str()), (1, ""));
    assert_eq!(
        ended.out,
        "There is no rig “zz” among the trips here. Rigs walked: juniper.\n"
    );
}

#[test]
fn what_is_found_of_a_traced_trip_is_what_the_whole_logbook_says_of_it() {
    let home = sealed();
    let traced = home
        .hames("logbook trace gauge-100 --logbook share/hames/demo --json")
        .run();
    assert_eq!(traced.status, 0, "{}", traced.err);
    let told = r#""finding":"not-countersigned""#;
    assert!(
        traced.out.lines().all(|line| line.contains(told)),
        "{}",
        traced.out
    );
    let table = home
        .hames("logbook table trips --logbook share/hames/demo --json")
        .run();
    assert!(table.out.contains("not-countersigned"), "{}", table.out);
}

#[test]
fn a_reading_on_a_trip_by_a_revoked_key_is_told_with_that() {
    let home = sealed();
    // Revoked on a laptop that had not seen the trip.
    let apart = Home::new();
    copy(&home.demo(), &apart.demo());
    fs::remove_dir_all(trip(&apart.demo(), 1)).unwrap();
    done(&apart, "revoke wren.ashdown --why lost", &[], "demo\n");
    for folder in ["mgr", "crew"] {
        copy(&apart.demo().join(folder), &home.demo().join(folder));
    }
    let traced = home
        .hames("logbook trace gauge-100 --logbook share/hames/demo")
        .run();
    assert_eq!(traced.status, 0, "{}{}", traced.out, traced.err);
    let mut readings = traced
        .out
        .lines()
        .filter(|line| line.contains("  trip 1 of LAPTOP  "));
    let doubt = "; the trip is found revoked-signer";
    assert!(readings.all(|line| line.ends_with(doubt)), "{}", traced.out);
    assert!(traced.out.contains(doubt), "{}", traced.out);
    let traced = home
        .hames("logbook trace gauge-100 --logbook share/hames/demo --json")
        .run();
    let told = r#""finding":"revoked-signer""#;
    assert!(
        traced.out.lines().all(|line| line.contains(told)),
        "{}",
        traced.out
    );
}
