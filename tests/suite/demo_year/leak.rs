//! The tire that leaks: its readings, brought to one temperature, fall as fast as it truly leaks.

use super::YEAR;
use hames::cli::year::invented;
use hames::mechanics::tires::{AirChange, tire_pressure_shift};
use hames::rules::{Outcome, Verdict};
use hames::units::Unit;
use hames::walk::{Event, Given, Round};
use hames::year::{Habit, PEOPLE, SLOW_LEAK, Trip};

/// A cold reading at one temperature, and the day of it.
#[derive(Clone, Copy, Debug)]
struct Read {
    day: f64,
    psi: f64,
}

/// By so much two readings of the gauge differ where its pointer is right: what the gauge is wrong
/// by hangs together, so that half a mark of each and its play are left.
const GAUGE: f64 = 1.4;

/// And by so much again, since the air is read with a thermometer that is wrong by three degrees at
/// the most: about half a pound.
const AIR: f64 = 0.9;

fn value(given: &Given, unit: Unit) -> f64 {
    let Given::Read { typed, .. } = given else {
        panic!("not read: {given:?}")
    };
    typed
        .quantity()
        .in_unit(unit)
        .unwrap()
        .value
        .to_f64()
        .unwrap()
}

/// The readings of one wheel in stretches: between two of them the tire was filled. Left out are
/// people who read to the nearest five, and what was typed up.
fn stretches(rig: &str, wheel: &str, from_day: f64) -> Vec<Vec<Read>> {
    let barn = invented();
    let first = YEAR[0]
        .began
        .wall
        .date_naive()
        .pred_opt()
        .unwrap()
        .pred_opt()
        .unwrap();
    let mut all = vec![Vec::new()];
    for trip in YEAR.iter().filter(|trip| barn.rigs[trip.rig].id == rig) {
        let since = trip.began.wall.date_naive() - first;
        let day = f64::from(i32::try_from(since.num_days()).unwrap());
        let mut air = None;
        for entry in &trip.entries {
            let Event::Answered {
                step, given, round, ..
            } = &entry.event
            else {
                continue;
            };
            let key = step.as_str();
            if key == "air" {
                air = Some(value(given, Unit::Fahrenheit));
            }
            let (name, part) = key.split_once('/').unwrap_or((key, ""));
            if part != wheel || !name.starts_with("tire-") || !matches!(given, Given::Read { .. }) {
                continue;
            }
            if matches!(round, Round::PutRight | Round::MeasuredAgain) {
                all.push(Vec::new());
            }
            if let Some(air) = air
                && day > from_day
                && name == "tire-cold"
                && is_plain(trip)
            {
                let psi = at_one_temperature(value(given, Unit::Psi), air);
                all.last_mut().unwrap().push(Read { day, psi });
            }
        }
    }
    all.retain(|stretch| stretch.len() > 1);
    all
}

fn is_plain(trip: &Trip) -> bool {
    let reader = PEOPLE.iter().find(|one| one.name == trip.reader.as_str());
    !trip.typed_up && reader.unwrap().habit != Habit::RoundsToFives
}

fn at_one_temperature(psi: f64, air_f: f64) -> f64 {
    let change = AirChange {
        gauge_psi: psi,
        temp_f: air_f,
        new_temp_f: 70.0,
        altitude_ft: 0.0,
        new_altitude_ft: None,
    };
    tire_pressure_shift(&change).unwrap().gauge_psi
}

#[test]
fn at_one_temperature_its_readings_fall_by_what_it_truly_loses() {
    let mut lost = 0.0_f64;
    let mut pairs = 0;
    for stretch in stretches(SLOW_LEAK.rig, SLOW_LEAK.wheel, SLOW_LEAK.from_day) {
        for (at, one) in stretch.iter().enumerate() {
            for other in &stretch[at + 1..] {
                let months = (other.day - one.day) / 30.0;
                let fell = one.psi - other.psi;
                let truly = SLOW_LEAK.psi_a_month * months;
                assert!(
                    (fell - truly).abs() <= GAUGE + AIR,
                    "{one:?} {other:?}: {truly}"
                );
                lost = lost.max(truly);
                pairs += 1;
            }
        }
    }
    assert!(pairs > 20, "{pairs} pairs of readings");
    assert!(
        lost > 3.0,
        "{lost} psi lost at the most between two readings"
    );
}

#[test]
fn it_comes_to_its_limit_and_the_tires_beside_it_do_not() {
    let barn = invented();
    let of_rig = YEAR
        .iter()
        .filter(|trip| barn.rigs[trip.rig].id == SLOW_LEAK.rig);
    let low = |wheel: &str| {
        let key = format!("tire-cold/{wheel}");
        let entries = of_rig.clone().flat_map(|trip| &trip.entries);
        let low = entries.filter(|entry| match &entry.event {
            Event::Answered { step, given, .. } => {
                let outcome = given.outcome();
                step.as_str() == key && outcome != Outcome::Judged(Verdict::Ok)
            }
            _ => false,
        });
        low.count()
    };
    assert!(low(SLOW_LEAK.wheel) >= 2, "{}", low(SLOW_LEAK.wheel));
    assert!(low("left-rear") < low(SLOW_LEAK.wheel));
}
