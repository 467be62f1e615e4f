//! # Air pressure by altitude

use crate::mechanics::constants::{FOOT_IN, GRAVITY_M_S2, INCH_M, PSI_PA};
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure isa_pressure_psi` tells of it.
pub const PAGE: Page = Page {
    name: "isa_pressure_psi",
    title: "Air pressure by altitude",
    situation: "The higher a place, the less air lies above it, and the less it presses. A gauge \
                shows only what a tire holds above that.",
    formula: "Pa = 101,325 (1 - 0.0065 h / 288.15)^(g / (287.05287 x 0.0065)), in Pa with h in m",
    symbols: &[
        ("h", "altitude above the sea, given in ft"),
        ("Pa", "pressure of the air, given in psi"),
        ("g", "standard gravity, 9.80665 m/s2"),
    ],
    holds: "from 2,000 ft below the sea to 36,000 ft above it",
    assumes: "The standard atmosphere. Weather moves the true pressure by up to some 0.5 psi.",
    never: "As a reading of today's barometer.",
    source: "ISO 2533 and U.S. Standard Atmosphere 1976, troposphere, from memory",
};

/// Standard pressure at the sea, Pa.
const SEA_PA: f64 = 101_325.0;

/// Standard temperature at the sea, K.
const SEA_K: f64 = 288.15;

/// How much colder it is each metre up, K/m.
const LAPSE_K_M: f64 = 0.0065;

/// Gas constant of air, J/(kg K).
const AIR_J_KG_K: f64 = 287.052_87;

/// The altitudes taken, ft.
const LOWEST_FT: f64 = -2_000.0;
const HIGHEST_FT: f64 = 36_000.0;

/// A place.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Altitude {
    /// Above the sea, ft.
    pub altitude_ft: f64,
}

/// The air there.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Ambient {
    /// Its pressure, psi.
    pub ambient_psi: f64,
}

/// Looks at an altitude.
pub(super) fn look_at_altitude(ranges: &mut Ranges, what: &str, feet: f64) {
    ranges.within(what, feet, LOWEST_FT, HIGHEST_FT);
}

/// The pressure of the standard atmosphere at an altitude.
///
/// # Errors
/// [`NoNumber`] outside the lowest layer of the atmosphere.
pub fn isa_pressure_psi(inputs: &Altitude) -> Result<Ambient, NoNumber> {
    let mut ranges = Ranges::new();
    look_at_altitude(&mut ranges, "altitude_ft", inputs.altitude_ft);
    ranges.checked()?;
    let metres = inputs.altitude_ft * FOOT_IN * INCH_M;
    let exponent = GRAVITY_M_S2 / (AIR_J_KG_K * LAPSE_K_M);
    let pascal = SEA_PA * libm::pow(1.0 - LAPSE_K_M * metres / SEA_K, exponent);
    Ok(Ambient {
        ambient_psi: finite("the air pressure", pascal / PSI_PA)?,
    })
}
