//! # Stopping that the law asks for

use crate::mechanics::braking::stopping::{FOOT_M, GRAVITY_FT_S2};
use crate::mechanics::constants::MPH_M_S;
use crate::mechanics::{NoNumber, Page};
use serde::{Deserialize, Serialize};

/// What `hames figure stopping_required` tells of it.
pub const PAGE: Page = Page {
    name: "stopping_required",
    title: "Stopping that the law asks for",
    situation: "From 20 mph, on a level, dry, hard road, service brakes must hold back with a \
                part of the gross weight, slow at a rate and stop within a distance counted from \
                the first move of the pedal; emergency brakes within a longer one.",
    formula: "a table by class of vehicle; percent = 100 a / g. The distance is not v^2 / 2 a: it \
              holds the time the brakes take to come on",
    symbols: &[
        ("percent", "braking force of the gross weight, %"),
        ("a", "deceleration, ft/s^2"),
        ("distances", "from 20 mph, service and emergency, ft"),
        (
            "class",
            "passenger_up_to_10_seats, property_up_to_10000_lb, single_over_10000_lb, \
             two_axle_with_trailer_up_to_3000_lb, combination",
        ),
    ],
    holds: "the classes of the table; a pickup with a horse trailer over 3,000 lb is a combination",
    assumes: "The rig is under this law at all: it binds commercial vehicles; states have rules of \
              their own.",
    never: "For a rig on a slope, on a wet road, or from another speed.",
    source: "49 CFR 393.52(d), the rows as printed alike in 67 Pa. Code ch. 175, table I",
};

/// Which row of the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StoppingClass {
    /// The class.
    pub class: Class,
}

/// Classes of vehicles.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub enum Class {
    /// Built to seat ten or fewer.
    #[serde(rename = "passenger_up_to_10_seats")]
    Passenger,
    /// A truck rated for 10,000 lb or less, alone.
    #[serde(rename = "property_up_to_10000_lb")]
    LightTruck,
    /// A single vehicle rated for more.
    #[serde(rename = "single_over_10000_lb")]
    HeavyTruck,
    /// Two axles and a trailer of 3,000 lb or less.
    #[serde(rename = "two_axle_with_trailer_up_to_3000_lb")]
    LightTrailer,
    /// All other combinations.
    #[serde(rename = "combination")]
    Combination,
}

/// A row of the table.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct StoppingAsked {
    /// Braking force of the gross weight, %.
    pub force_pct_of_weight: f64,
    /// Deceleration, ft/s².
    pub decel_ft_s2: f64,
    /// The same, of gravity.
    pub decel_g: f64,
    /// Service brakes: distance from 20 mph, ft.
    pub service_stop_ft: f64,
    /// Emergency brakes: distance from 20 mph, ft.
    pub emergency_stop_ft: f64,
    /// What this deceleration alone would take from 20 mph, ft.
    pub even_stop_ft: f64,
}

/// What the law asks of the brakes of a class of vehicle.
///
/// # Errors
/// None: every class has a row.
pub fn stopping_required(inputs: &StoppingClass) -> Result<StoppingAsked, NoNumber> {
    let (percent, decel_ft_s2, service_stop_ft, emergency_stop_ft) = match inputs.class {
        Class::Passenger => (65.2, 21.0, 20.0, 54.0),
        Class::LightTruck => (52.8, 17.0, 25.0, 66.0),
        Class::HeavyTruck | Class::LightTrailer => (43.5, 14.0, 35.0, 85.0),
        Class::Combination => (43.5, 14.0, 40.0, 90.0),
    };
    let speed_ft_s = TESTED_MPH * MPH_M_S / FOOT_M;
    Ok(StoppingAsked {
        force_pct_of_weight: percent,
        decel_ft_s2,
        decel_g: decel_ft_s2 / GRAVITY_FT_S2,
        service_stop_ft,
        emergency_stop_ft,
        even_stop_ft: speed_ft_s * speed_ft_s / (2.0 * decel_ft_s2),
    })
}

/// Speed of the test.
const TESTED_MPH: f64 = 20.0;
