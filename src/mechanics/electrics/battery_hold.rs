//! # How long the battery holds the brakes

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure battery_hold` tells of it.
pub const PAGE: Page = Page {
    name: "battery_hold",
    title: "How long the battery holds the brakes",
    situation: "When the trailer breaks away its own battery holds the brakes on, and the law asks \
                for fifteen minutes. A battery emptied in minutes gives much less than the hours' \
                capacity on its label.",
    formula: "t = H (C / (I H))^p; C for 15 min = I H (0.25 / H)^(1/p)",
    symbols: &[
        ("C", "capacity on the label, Ah"),
        (
            "H",
            "hours it was rated over, 20 unless the label says otherwise",
        ),
        ("I", "current of all magnets, A"),
        (
            "p",
            "Peukert's exponent: 1.15 for a sound battery, 1.25 for an old or cold one",
        ),
        ("t", "how long it holds, h; given in minutes"),
    ],
    holds: "currents at which the battery is empty within its rated hours, p of 1 to 1.6",
    assumes: "Full charge and 77 F. The exponent is assumed, and at several times the capacity an \
              hour the law is on the generous side; the current falls as the volts do, which makes \
              the true time a little longer.",
    never: "In place of measuring the volts under the magnets' load: a bad cell does not show here.",
    source: "W. Peukert, Elektrotechnische Zeitschrift 1897, as any textbook on batteries gives it, from \
             memory; 49 CFR 393.43(d) for the fifteen minutes, from memory",
};

/// Peukert's exponent of a sound lead-acid battery.
pub const PEUKERT: f64 = 1.15;

/// Hours over which small lead-acid batteries are rated.
const RATED_HOURS: f64 = 20.0;

/// How long the law asks a breakaway battery to hold, minutes.
const LAW_MIN: f64 = 15.0;

/// Minutes in an hour.
const HOUR_MIN: f64 = 60.0;

/// A battery under the magnets' load.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BatteryLoaded {
    /// Capacity on the label, Ah.
    pub capacity_ah: f64,
    /// Hours it was rated over.
    #[serde(default = "rated_hours")]
    pub rated_hours: f64,
    /// Current drawn, A.
    pub current_a: f64,
    /// Peukert's exponent.
    #[serde(default = "peukert")]
    pub peukert: f64,
}

/// How long it lasts.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Hold {
    /// Minutes it holds.
    pub hold_min: f64,
    /// Whether that is the fifteen the law asks for.
    pub ok_15_min: bool,
    /// Capacity that would hold fifteen minutes at this current, Ah.
    pub capacity_for_15_min_ah: f64,
}

fn rated_hours() -> f64 {
    RATED_HOURS
}

fn peukert() -> f64 {
    PEUKERT
}

/// How long a battery feeds a current.
///
/// # Errors
/// [`NoNumber`] outside the ranges.
pub fn battery_hold(inputs: &BatteryLoaded) -> Result<Hold, NoNumber> {
    let BatteryLoaded {
        capacity_ah,
        rated_hours,
        current_a,
        peukert,
    } = *inputs;
    let mut ranges = Ranges::new();
    ranges
        .positive("capacity_ah", capacity_ah)
        .within("rated_hours", rated_hours, 1.0, 100.0)
        .positive("current_a", current_a)
        .within("peukert", peukert, 1.0, 1.6)
        .checked()?;
    let rate = capacity_ah / (current_a * rated_hours);
    if rate > 1.0 {
        return Err(NoNumber::because(
            "the current is so small that the battery lasts longer than the hours it was rated \
             over; the law says nothing of that",
        ));
    }
    let hold_min = finite(
        "the time",
        rated_hours * libm::pow(rate, peukert) * HOUR_MIN,
    )?;
    let asked_hours = LAW_MIN / HOUR_MIN;
    let capacity = current_a * rated_hours * libm::pow(asked_hours / rated_hours, 1.0 / peukert);
    Ok(Hold {
        hold_min,
        ok_15_min: hold_min >= LAW_MIN,
        capacity_for_15_min_ah: finite("the capacity", capacity)?,
    })
}
