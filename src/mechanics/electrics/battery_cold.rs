//! # What the cold leaves of a battery

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure battery_cold` tells of it.
pub const PAGE: Page = Page {
    name: "battery_cold",
    title: "What the cold leaves of a battery",
    situation: "A cold battery gives less of the charge in it, and comes back when it warms. At \
                freezing about a fifth is missing, and that much less of the time it holds the \
                brakes.",
    formula: "C_cold = C (1 - 0.0044 (77 - F)), and C at 77 F and above",
    symbols: &[
        ("C", "capacity on the label, at 77 F, Ah"),
        ("F", "temperature of the battery, F"),
        ("C_cold", "capacity at that temperature, Ah"),
    ],
    holds: "batteries from -4 to 120 F",
    assumes: "Lead-acid, sound and charged. The battery is as cold as the air after a night.",
    never: "For lithium batteries, or to credit a warm battery with more than its label.",
    source: "a fifth off at 32 F, on a straight line from 77 F, from memory of battery makers' \
             curves",
};

/// Temperature at which batteries are rated, F.
const RATED_F: f64 = 77.0;

/// Where a fifth is missing, F, and what is missing there.
const FREEZING_F: f64 = 32.0;
const MISSING: f64 = 0.2;

/// A battery at a temperature.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BatteryInCold {
    /// Capacity on the label, Ah.
    pub capacity_ah: f64,
    /// Its temperature, F.
    pub temp_f: f64,
}

/// What is left of it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ColdCapacity {
    /// Capacity at that temperature, Ah.
    pub cold_capacity_ah: f64,
    /// The same as a share of the label's, %.
    pub share_pct: f64,
}

/// The capacity of a lead-acid battery at a temperature, never above its label's.
///
/// # Errors
/// [`NoNumber`] outside the ranges.
pub fn battery_cold(inputs: &BatteryInCold) -> Result<ColdCapacity, NoNumber> {
    let mut ranges = Ranges::new();
    ranges
        .positive("capacity_ah", inputs.capacity_ah)
        .within("temp_f", inputs.temp_f, -4.0, 120.0)
        .checked()?;
    let below = (RATED_F - inputs.temp_f).max(0.0);
    let share = 1.0 - MISSING * below / (RATED_F - FREEZING_F);
    Ok(ColdCapacity {
        cold_capacity_ah: finite("the capacity", inputs.capacity_ah * share)?,
        share_pct: finite("the share", 100.0 * share)?,
    })
}
