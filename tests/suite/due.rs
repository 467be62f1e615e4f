//! What is due for a rig: by date, by distance, by what walks have served, by age and by paper.

use chrono::NaiveDate;
use hames::barn::TireYears;
use hames::due::{
    Day, Done, Due, Odometer, OdometerRead, Walked, due, due_by, lines, odometer, reckoned, usual,
};
use hames::plain::due_report;
use hames::rig::demo::{JUNIPER, MESQUITE};
use hames::rig::{Rig, ServiceKind};
use hames::rules::{Authority, Verdict};
use hames::units::{Dimension, Quantity, parse_quantity};

fn rig(text: &str) -> Rig {
    Rig::read(text).unwrap()
}

fn day(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

fn miles(text: &str) -> Quantity {
    parse_quantity(text, Dimension::Length).unwrap()
}

fn done(what: ServiceKind, item: Option<&str>, on: &str, odometer: Option<&str>) -> Done {
    Done {
        what,
        item: item.map(str::to_owned),
        on: day(on),
        odometer: odometer.map(miles),
        by: "Wren Ashdown".to_owned(),
        trip: "000007-9f3c01ab".to_owned(),
    }
}

/// Juniper on this day, with this odometer and these services of its file.
fn juniper(services: &str, on: &str, odometer: Option<&str>, done: &[Done]) -> Vec<Due> {
    let (head, _) = JUNIPER.split_once("\n# What is serviced").unwrap();
    let text = format!("{head}\nservice:\n{services}\n");
    let odometer = odometer.map(miles);
    due(&rig(&text), day(on), odometer.as_ref(), done)
}

fn one<'d>(due: &'d [Due], what: &str) -> &'d Due {
    due.iter().find(|one| one.what == what).unwrap()
}

const BEARINGS: &str = "  - what: wheel-bearings\n    last: { on: 2026-02-10, odometer: 41200 mi }\n    \
                        every: { months: 12, distance: 12000 mi, by: manual, at: axle manual }";

#[test]
fn what_is_due_for_the_demo_rigs_is_told_the_worst_and_soonest_first() {
    let odometer = miles("48210 mi");
    let told = [JUNIPER, MESQUITE].map(|text| {
        let rig = rig(text);
        let due = due(&rig, day("2026-11-25"), Some(&odometer), &[]);
        format!("{}\n{}\n", rig.name, lines(&due).join("\n"))
    });
    insta::assert_snapshot!(told.join("\n"));
}

#[test]
fn line_by_line_what_is_due_stands_first_and_what_is_in_time_below() {
    let rig = rig(MESQUITE);
    let odometer = miles("48210 mi");
    let due = due(&rig, day("2026-11-25"), Some(&odometer), &[]);
    let report = due_report(
        &rig,
        true,
        (day("2026-11-25"), Some(&Odometer::Today(odometer.clone()))),
        &due,
        &[],
    );
    assert!(report.lines().all(|line| line.chars().count() <= 80));
    insta::assert_snapshot!(report);
}

#[test]
fn a_service_is_due_by_date_or_distance_whichever_comes_first() {
    for (on, odometer, verdict) in [
        ("2026-11-25", "48210 mi", Verdict::Ok),
        // 30 days and 500 miles are soon, 31 days and 501 miles are not yet.
        ("2027-01-10", "48210 mi", Verdict::Ok),
        ("2027-01-11", "48210 mi", Verdict::Note),
        ("2026-11-25", "52699 mi", Verdict::Ok),
        ("2026-11-25", "52700 mi", Verdict::Note),
        // On the last day and at the last mile it is in time; a day or a mile later it is not.
        ("2027-02-10", "48210 mi", Verdict::Note),
        ("2027-02-11", "48210 mi", Verdict::Fix),
        ("2026-11-25", "53200 mi", Verdict::Note),
        ("2026-11-25", "53200.1 mi", Verdict::Fix),
        // Kilometers compare exactly: 53200 mi are 85617.1008 km.
        ("2026-11-25", "85617.1 km", Verdict::Note),
        ("2026-11-25", "85617.2 km", Verdict::Fix),
    ] {
        let due = juniper(BEARINGS, on, Some(odometer), &[]);
        let bearings = one(&due, "wheel bearings");
        assert_eq!(bearings.verdict, verdict, "{on} {odometer}: {bearings}");
        assert_eq!(bearings.basis.authority, Authority::Plate);
        assert_eq!(bearings.when.date, Some(day("2027-02-10")));
    }
}

#[test]
fn what_is_done_every_few_weeks_is_not_coming_all_the_time() {
    let pressure = "  - what: tire-pressure\n    last: { on: 2026-11-01 }";
    for (on, verdict) in [
        ("2026-11-20", Verdict::Ok),
        ("2026-11-24", Verdict::Note),
        ("2026-12-01", Verdict::Note),
        ("2026-12-02", Verdict::Fix),
    ] {
        let due = juniper(pressure, on, None, &[]);
        assert_eq!(one(&due, "tire pressure").verdict, verdict, "{on}");
    }
}

#[test]
fn a_walk_counts_once_it_is_newer_than_the_file() {
    let bearings = |on: &str| {
        let done = [done(ServiceKind::WheelBearings, None, on, Some("47000 mi"))];
        let due = juniper(BEARINGS, "2026-11-25", Some("48210 mi"), &done);
        one(&due, "wheel bearings").clone()
    };
    let newer = bearings("2026-10-05");
    assert_eq!(newer.when.date, Some(day("2027-10-05")));
    assert_eq!(newer.when.odometer, Some(miles("59000 mi")));
    assert!(
        newer
            .why
            .starts_with("Last done 2026-10-05 at 47000 mi by Wren Ashdown, trip 000007-9f3c01ab;"),
        "{newer}"
    );
    assert_eq!(bearings("2026-01-05").when.date, Some(day("2027-02-10")));
}

#[test]
fn a_service_done_wheel_by_wheel_is_as_old_as_at_the_wheel_that_waited_longest() {
    let at = |wheel, on| done(ServiceKind::WheelBearings, Some(wheel), on, None);
    let bearings = |done: &[Done]| {
        let due = juniper(BEARINGS, "2026-11-25", Some("48210 mi"), done);
        one(&due, "wheel bearings").clone()
    };
    let mut done = vec![
        at("left-front", "2026-10-05"),
        at("right-front", "2026-10-05"),
        at("left-rear", "2026-10-05"),
    ];
    let three = bearings(&done);
    assert_eq!(three.of.as_deref(), Some("right rear wheel"));
    assert_eq!(three.when.date, Some(day("2027-02-10")));
    done.push(at("right-rear", "2026-10-06"));
    let four = bearings(&done);
    assert_eq!(four.when.date, Some(day("2027-10-05")));
    let none = juniper(
        "  - what: floor\n    last: { on: 2026-10-05 }",
        "2026-11-25",
        None,
        &[at("left-front", "2026-10-05")],
    );
    let none = one(&none, "wheel bearings");
    assert_eq!(none.verdict, Verdict::Note);
    assert!(none.to_string().contains(": nothing says when. "), "{none}");
}

#[test]
fn what_nobody_knows_is_told_as_a_note_and_never_taken_as_done() {
    let bare = "  - what: floor\n    last: { on: 2026-10-05 }";
    let due = juniper(bare, "2026-11-25", Some("48210 mi"), &[]);
    for (word, what) in ServiceKind::WORDS {
        let tool = ["torque-wrench", "pressure-gauge"].contains(&word);
        if tool || what == ServiceKind::Floor {
            continue;
        }
        let unknown = one(&due, &what.name());
        assert_eq!(unknown.verdict, Verdict::Note, "{word}");
        assert!(
            unknown.why.starts_with("No last time is written down;"),
            "{word}"
        );
        assert_eq!(unknown.basis, usual(what).basis, "{word}");
    }
}

#[test]
fn without_an_odometer_the_furthest_written_down_is_what_is_known() {
    let services = "  - what: brake-adjustment\n    last: { on: 2026-01-10, odometer: 38000 mi }\n  \
                    - what: wheel-bearings\n    last: { on: 2026-02-10, odometer: 41200 mi }";
    let due = juniper(services, "2026-11-25", None, &[]);
    let brakes = one(&due, "brake adjustment");
    assert_eq!(brakes.verdict, Verdict::Fix, "{brakes}");
    assert!(
        brakes
            .why
            .contains("the furthest written down is 41200 mi, of the service of 2026-02-10"),
        "{brakes}"
    );
    let alone = "  - what: brake-adjustment\n    last: { on: 2026-01-10 }";
    let due = juniper(alone, "2026-11-25", Some("48210 mi"), &[]);
    let brakes = one(&due, "brake adjustment");
    assert_eq!(brakes.verdict, Verdict::Note, "{brakes}");
}

#[test]
fn what_is_left_to_drive_says_from_where_it_is_reckoned() {
    let (rig, on) = (rig(JUNIPER), Day::Today(day("2026-11-25")));
    let says = |read: Option<&OdometerRead>, today: Option<&Quantity>| {
        let walked = Walked {
            done: &[],
            odometer: read,
        };
        let due = due_by(TireYears::default(), &rig, on, today, walked);
        reckoned(&due, odometer(&rig, on, today, walked).as_ref()).unwrap()
    };
    let read = |miles_read: &str| OdometerRead {
        shown: miles(miles_read),
        on: day("2026-11-20"),
        by: "Tobias Fenn".to_owned(),
    };
    assert_eq!(
        says(None, None),
        "What is left to drive is reckoned from 45600 mi, of the service of 2026-08-14 in the rig \
         file."
    );
    assert_eq!(
        says(Some(&read("47190 mi")), None),
        "What is left to drive is reckoned from 47190 mi, read on 2026-11-20 by Tobias Fenn."
    );
    // Less than the service shows: that one is further.
    assert_eq!(says(Some(&read("44559 mi")), None), says(None, None));
    assert_eq!(
        says(Some(&read("47190 mi")), Some(&miles("48210 mi"))),
        "What is left to drive is reckoned from 48210 mi, as told today."
    );
    assert_eq!(reckoned(&[], Some(&Odometer::Today(miles("1 mi")))), None);
}

#[test]
fn an_odometer_or_a_day_that_runs_backwards_is_told() {
    let back = juniper(BEARINGS, "2026-11-25", Some("4821 mi"), &[]);
    let back = one(&back, "wheel bearings");
    assert_eq!(back.verdict, Verdict::Note);
    assert!(
        back.why.contains("read as 4821 mi, less than then"),
        "{back}"
    );
    let early = juniper(BEARINGS, "2026-02-09", Some("41200 mi"), &[]);
    let early = one(&early, "wheel bearings");
    assert_eq!(early.verdict, Verdict::Note);
    assert!(early.why.contains("lies after today"), "{early}");
}

#[test]
fn by_a_day_that_is_past_what_was_done_later_counts_for_nothing_and_accuses_no_clock() {
    let (rig, then) = (rig(JUNIPER), Day::Past(day("2026-06-30")));
    let told = lines(&due_by(
        TireYears::default(),
        &rig,
        then,
        None,
        Walked::default(),
    ));
    let of = |what: &str| told.iter().find(|line| line.contains(what)).unwrap();
    // The file has the battery serviced in November and the bearings in February.
    assert!(
        of("Breakaway battery").contains("No time up to 2026-06-30 is written down"),
        "{told:?}"
    );
    assert!(
        of("Wheel bearings").contains("due by 2027-02-10, 225 days after;"),
        "{told:?}"
    );
    assert!(of("Tire age, spare").contains(" years before."), "{told:?}");
    for never in ["today", "clock", "yesterday", "ago", "45600 mi"] {
        assert!(!told.join("\n").contains(never), "{never}: {told:?}");
    }
}

#[test]
fn every_gauge_and_wrench_is_told_by_its_own_name_and_a_tape_is_not() {
    let rig = rig(JUNIPER);
    let told = |done: &[Done]| {
        let due = due(&rig, day("2026-11-25"), None, done);
        let tools = due.into_iter().filter(|one| one.what == "calibration");
        let told = tools.map(|one| (one.of.clone().unwrap(), one.when.date));
        let mut told: Vec<_> = told.collect();
        told.sort();
        told
    };
    let named = |name: &str, date: Option<&str>| (name.to_owned(), date.map(day));
    assert_eq!(
        told(&[]),
        [
            named("click wrench 30 to 150", Some("2027-03-02")),
            named("click wrench to 250", Some("2027-03-02")),
            named("dial gauge to 100 psi", Some("2027-01-12")),
            named("dial gauge to 60 psi from the tack room", None),
        ]
    );
    let served = done(
        ServiceKind::PressureGauge,
        Some("gauge-60"),
        "2026-11-01",
        None,
    );
    let gauge = named(
        "dial gauge to 60 psi from the tack room",
        Some("2027-11-01"),
    );
    assert!(told(&[served]).contains(&gauge));
}

#[test]
fn a_paper_is_a_note_in_its_last_thirty_days_and_a_stop_when_it_has_run_out() {
    let rig = rig(JUNIPER);
    for (on, verdict) in [
        ("2036-12-12", Verdict::Ok),
        ("2036-12-13", Verdict::Note),
        ("2037-01-12", Verdict::Note),
        ("2037-01-13", Verdict::Stop),
    ] {
        let due = due(&rig, day(on), None, &[]);
        let bramble = due.iter().find(|one| one.of.as_deref() == Some("Bramble"));
        assert_eq!(bramble.unwrap().verdict, verdict, "{on}");
    }
}

#[test]
fn no_day_of_the_calendar_and_no_odometer_breaks_it() {
    for text in [JUNIPER, MESQUITE] {
        let rig = rig(text);
        let count = due(&rig, day("2026-11-25"), None, &[]).len();
        for day in [NaiveDate::MIN, NaiveDate::MAX] {
            for odometer in [None, Some(miles("0 mi")), Some(miles("999999999999 km"))] {
                let due = due(&rig, day, odometer.as_ref(), &[]);
                assert_eq!(due.len(), count, "{day} {odometer:?}");
                assert!(lines(&due).iter().all(|line| !line.is_empty()));
            }
        }
    }
}

#[test]
fn no_line_promises_what_nobody_may_promise() {
    for text in [JUNIPER, MESQUITE] {
        for line in lines(&due(&rig(text), day("2030-01-01"), None, &[])) {
            assert!(!line.to_lowercase().contains("safe"), "{line}");
        }
    }
}
