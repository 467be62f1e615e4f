//! # Cold pressure by temperature and altitude

use crate::mechanics::tires::isa_pressure::look_at_altitude;
use crate::mechanics::tires::{Altitude, isa_pressure_psi};
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure tire_pressure_shift` tells of it.
pub const PAGE: Page = Page {
    name: "tire_pressure_shift",
    title: "Cold pressure by temperature and altitude",
    situation: "The air shut in a tire presses less when it cools, and the gauge shows what it \
                presses above the air around. So the same air reads less on a frosty morning and \
                more on a mountain, though none was lost.",
    formula: "P2 = (P1 + Pa1) T2 / T1 - Pa2, with T = F + 459.67",
    symbols: &[
        ("P1, P2", "pressure by gauge then and now, psi"),
        ("Pa1, Pa2", "pressure of the air around, then and now, psi"),
        (
            "T1, T2",
            "temperature of the air in the tire, Rankine; F in Fahrenheit",
        ),
    ],
    holds: "air from -60 to 300 F, altitudes of the lowest layer of the atmosphere, a result of 0 \
            psi or more",
    assumes: "No air lost, the tire's volume unchanged, and the air in the tire as warm as the air \
              around: hours after driving, in the shade.",
    never: "To let air out of a warm tire, or to go below the placard, which is asked for at any \
            cold temperature.",
    source: "gas law in absolute pressure, any textbook of thermodynamics; ISO 2533 for altitude, \
             from memory",
};

/// The air at which pressures read in different air are told, so that they compare, F. Ours, no
/// source.
pub const TOLD_AT_F: f64 = 70.0;

/// 0 F above absolute zero, in steps of a degree Fahrenheit.
const RANKINE_AT_ZERO_F: f64 = 459.67;

/// Air shut in a tire, then and now.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AirChange {
    /// Pressure by gauge when it was set, psi.
    pub gauge_psi: f64,
    /// Temperature then, F.
    pub temp_f: f64,
    /// Temperature now, F.
    pub new_temp_f: f64,
    /// Altitude then, ft; at the sea unless given.
    #[serde(default)]
    pub altitude_ft: f64,
    /// Altitude now, ft; the same place unless given.
    #[serde(default)]
    pub new_altitude_ft: Option<f64>,
}

/// What a gauge shows now.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ShiftedPressure {
    /// Pressure by gauge, psi.
    pub gauge_psi: f64,
    /// Pressure of the air around, psi.
    pub ambient_psi: f64,
}

/// What a gauge shows of the same air at another temperature and altitude.
///
/// # Errors
/// [`NoNumber`] outside the ranges, or when the tire would hold no pressure above the air around.
pub fn tire_pressure_shift(inputs: &AirChange) -> Result<ShiftedPressure, NoNumber> {
    let now_ft = inputs.new_altitude_ft.unwrap_or(inputs.altitude_ft);
    let mut ranges = Ranges::new();
    ranges
        .within("gauge_psi", inputs.gauge_psi, 0.0, 300.0)
        .within("temp_f", inputs.temp_f, -60.0, 300.0)
        .within("new_temp_f", inputs.new_temp_f, -60.0, 300.0);
    look_at_altitude(&mut ranges, "altitude_ft", inputs.altitude_ft);
    look_at_altitude(&mut ranges, "new_altitude_ft", now_ft);
    ranges.checked()?;
    let around = |altitude_ft| isa_pressure_psi(&Altitude { altitude_ft });
    let then_psi = around(inputs.altitude_ft)?.ambient_psi;
    let ambient_psi = around(now_ft)?.ambient_psi;
    let warmer = (inputs.new_temp_f + RANKINE_AT_ZERO_F) / (inputs.temp_f + RANKINE_AT_ZERO_F);
    let gauge_psi = finite(
        "the pressure",
        (inputs.gauge_psi + then_psi) * warmer - ambient_psi,
    )?;
    if gauge_psi < 0.0 {
        return Err(NoNumber::because(
            "the tire would hold less than the air around it and fall together; it was set too \
             low to reckon from",
        ));
    }
    Ok(ShiftedPressure {
        gauge_psi,
        ambient_psi,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tire_with_hardly_any_air_has_no_reading_in_the_cold() {
        let air = |gauge_psi| AirChange {
            gauge_psi,
            temp_f: 100.0,
            new_temp_f: 0.0,
            altitude_ft: 0.0,
            new_altitude_ft: None,
        };
        assert!(tire_pressure_shift(&air(2.0)).is_err());
        assert!(tire_pressure_shift(&air(20.0)).is_ok());
    }

    #[test]
    fn at_one_place_and_one_temperature_nothing_moves() {
        let same = tire_pressure_shift(&AirChange {
            gauge_psi: 65.0,
            temp_f: 50.0,
            new_temp_f: 50.0,
            altitude_ft: 5000.0,
            new_altitude_ft: None,
        });
        assert!((same.unwrap().gauge_psi - 65.0).abs() < 1e-12);
    }
}
