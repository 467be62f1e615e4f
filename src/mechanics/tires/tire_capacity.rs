//! # What a tire carries at a pressure

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure tire_capacity` tells of it.
pub const PAGE: Page = Page {
    name: "tire_capacity",
    title: "What a tire carries at a pressure",
    situation: "Air carries the load, so a tire with less cold pressure may carry less. The \
                sidewall tells one load at one pressure; the tire makers' tables follow a power of \
                the pressure below it.",
    formula: "C = C_max (P / P_max)^n, and C_max at any pressure above P_max",
    symbols: &[
        ("C", "load the tire may carry, lb"),
        ("P", "cold pressure in it, by gauge, psi"),
        (
            "C_max, P_max",
            "load and cold pressure on the sidewall, lb, psi",
        ),
        (
            "n",
            "0.585 for special trailer (ST) tires, 0.70 for light truck (LT) tires",
        ),
    ],
    holds: "15 psi and more, as far down as printed rows were read",
    assumes: "The tire is sound, single, and within its marked speed. Against printed rows the \
              power is up to 1.4 % too generous, so where only the sidewall is known the program \
              takes 2 % off before it judges by it.",
    never: "Where the maker's table for this very tire is at hand, for passenger tires, or to \
            find a load above the sidewall's.",
    source: "fitted to makers' load tables, read in copies; n = 0.585 is also the power of older \
             bias-ply practice and 0.70 that of light truck radials, both from memory",
};

/// The power for special trailer tires.
pub const ST_EXPONENT: f64 = 0.585;

/// The power for light truck tires.
pub const LT_EXPONENT: f64 = 0.70;

/// What the program takes off where it has the sidewall alone, in percent: a little more than the
/// power law was ever found too generous by.
pub const POWER_LAW_OVER_PCT: f64 = 2.0;

/// Lowest pressure a printed row was read for, psi.
pub const LOWEST_PSI: f64 = 15.0;

/// Highest sidewall pressure taken, psi. Tires of horse trailers end at 110.
const HIGHEST_PSI: f64 = 150.0;

/// A tire at a pressure.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AtPressure {
    /// Cold pressure in the tire, by gauge, psi.
    pub pressure_psi: f64,
    /// Cold pressure on the sidewall, psi.
    pub ref_psi: f64,
    /// Load on the sidewall, lb.
    pub ref_load_lb: f64,
    /// Power of the pressure; that of ST tires unless given.
    #[serde(default = "st_exponent", alias = "n")]
    pub exponent: f64,
}

/// What it may carry.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Capacity {
    /// Load, lb.
    pub capacity_lb: f64,
}

pub(super) fn st_exponent() -> f64 {
    ST_EXPONENT
}

/// Looks at what a sidewall says, and at the power.
pub(super) fn look_at_sidewall(ranges: &mut Ranges, psi: f64, load_lb: f64, exponent: f64) {
    ranges
        .within("ref_psi", psi, LOWEST_PSI, HIGHEST_PSI)
        .positive("ref_load_lb", load_lb)
        .within("exponent", exponent, 0.5, 1.0);
}

/// The load a tire may carry at a cold pressure, never more than its sidewall says.
///
/// # Errors
/// [`NoNumber`] below 15 psi, where no printed row was read, or when the sidewall's numbers are
/// none.
pub fn tire_capacity(inputs: &AtPressure) -> Result<Capacity, NoNumber> {
    let AtPressure {
        pressure_psi,
        ref_psi,
        ref_load_lb,
        exponent,
    } = *inputs;
    let mut ranges = Ranges::new();
    look_at_sidewall(&mut ranges, ref_psi, ref_load_lb, exponent);
    ranges
        .finite("pressure_psi", pressure_psi)
        .holds(
            pressure_psi >= LOWEST_PSI,
            "pressure_psi",
            pressure_psi,
            "15 or more; below, no load table was read",
        )
        .checked()?;
    let share = if pressure_psi >= ref_psi {
        1.0
    } else {
        libm::pow(pressure_psi / ref_psi, exponent)
    };
    Ok(Capacity {
        capacity_lb: finite("the load", ref_load_lb * share)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(pressure_psi: f64) -> Result<Capacity, NoNumber> {
        tire_capacity(&AtPressure {
            pressure_psi,
            ref_psi: 65.0,
            ref_load_lb: 2540.0,
            exponent: ST_EXPONENT,
        })
    }

    #[test]
    fn more_pressure_than_the_sidewall_says_earns_no_load() {
        let at_most = at(65.0).unwrap();
        assert!((at_most.capacity_lb - 2540.0).abs() < 1e-9);
        assert_eq!(at(80.0).unwrap(), at_most);
    }

    #[test]
    fn a_nearly_flat_tire_is_refused_and_gets_no_plausible_load() {
        for psi in [14.9, 0.0, -5.0, f64::NAN] {
            assert!(at(psi).is_err(), "{psi}");
        }
    }
}
