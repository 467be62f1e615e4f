//! The services the rig files name, against the odometers that the walks of the year read.

use super::YEAR;
use chrono::NaiveDate;
use hames::cli::year::invented;
use hames::units::{Dimension, Exact, Unit, parse_quantity};

/// What the walks of a rig read, in order.
fn read(rig: &str) -> Vec<(NaiveDate, Exact)> {
    let trips = YEAR.iter().filter(|trip| trip.plan.rig().id == rig);
    trips
        .filter_map(|trip| {
            let read = parse_quantity(trip.odometer.as_ref()?, Dimension::Length).unwrap();
            let miles = read.in_unit(Unit::Mile).unwrap().value;
            Some((trip.began.wall.date_naive(), miles))
        })
        .collect()
}

#[test]
fn every_service_of_a_rig_file_was_done_at_an_odometer_that_its_truck_showed_on_that_day() {
    let mut services = 0;
    for rig in invented().rigs {
        let read = read(&rig.id);
        for last in rig.services.iter().filter_map(|one| one.last.as_ref()) {
            let Some(at) = &last.odometer else { continue };
            let at = at.in_unit(Unit::Mile).unwrap().value;
            let before = read.iter().rfind(|(day, _)| *day < last.on);
            let after = read.iter().find(|(day, _)| *day > last.on);
            assert!(
                before.is_none_or(|(_, before)| *before <= at),
                "{} {last:?}: {before:?}",
                rig.id
            );
            assert!(
                after.is_none_or(|(_, after)| at <= *after),
                "{} {last:?}: {after:?}",
                rig.id
            );
            services += 1;
        }
    }
    assert_eq!(services, 9);
}
