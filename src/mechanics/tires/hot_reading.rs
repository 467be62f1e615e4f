//! # The cold pressure behind a hot reading

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure hot_reading` tells of it.
pub const PAGE: Page = Page {
    name: "hot_reading",
    title: "The cold pressure behind a hot reading",
    situation: "Driving warms a tire and its pressure with it, so a reading at the roadside stands \
                above the cold one. A tire may read over its placard and still be short of air; a \
                hot tire is never bled.",
    formula: "P_cold = P - 5 psi for tires rated up to 4,000 lb, P - 15 psi for tires rated above",
    symbols: &[
        ("P", "pressure measured on the warm tire, by gauge, psi"),
        ("P_cold", "what inspectors take for its cold pressure, psi"),
    ],
    holds: "an average of 41 to 55 mph over the last hour, a reading above what is taken off",
    assumes: "The load that decides is the tire's rated load, not the load it carries.",
    never: "To bleed a warm tire, or in place of a cold reading in the morning.",
    source: "49 CFR 393.75, table 1 to the inflation paragraph; 70 FR 48054, 15 August 2005, read \
             in a quotation",
};

/// The rated load up to which less is taken off, lb.
const LIGHT_LB: f64 = 4_000.0;

/// What is taken off, psi.
const LIGHT_PSI: f64 = 5.0;
const HEAVY_PSI: f64 = 15.0;

/// The average speeds the table is for, mph.
const SPEEDS_MPH: (f64, f64) = (41.0, 55.0);

/// A reading on a warm tire.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HotReading {
    /// Pressure measured, by gauge, psi.
    pub measured_psi: f64,
    /// Average speed over the last hour, mph.
    pub average_speed_mph: f64,
    /// Rated load of the tire, from its sidewall, lb.
    pub tire_max_load_lb: f64,
    /// Cold pressure asked for, psi.
    #[serde(default)]
    pub placard_psi: Option<f64>,
}

/// The cold pressure taken for it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ColdEstimate {
    /// Cold pressure, by gauge, psi.
    pub cold_psi: f64,
    /// What was taken off, psi.
    pub taken_off_psi: f64,
    /// Whether that is below the placard, where one was given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub below_placard: Option<bool>,
}

/// The cold pressure inspectors take for a reading on a warm tire.
///
/// # Errors
/// [`NoNumber`] outside the speeds of the table.
pub fn hot_reading(inputs: &HotReading) -> Result<ColdEstimate, NoNumber> {
    let taken_off_psi = if inputs.tire_max_load_lb <= LIGHT_LB {
        LIGHT_PSI
    } else {
        HEAVY_PSI
    };
    let mut ranges = Ranges::new();
    ranges
        .within(
            "average_speed_mph",
            inputs.average_speed_mph,
            SPEEDS_MPH.0,
            SPEEDS_MPH.1,
        )
        .positive("tire_max_load_lb", inputs.tire_max_load_lb)
        .finite("measured_psi", inputs.measured_psi)
        .holds(
            inputs.measured_psi >= taken_off_psi,
            "measured_psi",
            inputs.measured_psi,
            "at least what the table takes off",
        );
    if let Some(placard) = inputs.placard_psi {
        ranges.positive("placard_psi", placard);
    }
    ranges.checked()?;
    let cold_psi = finite("the cold pressure", inputs.measured_psi - taken_off_psi)?;
    Ok(ColdEstimate {
        cold_psi,
        taken_off_psi,
        below_placard: inputs.placard_psi.map(|placard| cold_psi < placard),
    })
}
