//! # The load behind a load index

use crate::mechanics::constants::POUND_KG;
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure load_index` tells of it.
pub const PAGE: Page = Page {
    name: "load_index",
    title: "The load behind a load index",
    situation: "Sidewalls mark the load of a tire by a number, the load index, before the speed \
                letter. A table turns it into kilograms.",
    formula: "a table of steps; each is about 2.9 % more than the one before",
    symbols: &[
        ("li", "load index, a whole number from 70 to 130"),
        (
            "load",
            "most load of one tire at its marked pressure and speed, kg and lb",
        ),
    ],
    holds: "70 to 130",
    assumes: "The first of two indices, that of a single tire; the second is for twin tires.",
    never: "Where the sidewall prints the load itself: the print wins. Copies of the table in \
            circulation have errors.",
    source: "ETRTO and ISO 4223 load index table, read in copies; 124 to 130 from memory",
};

/// Loads in kg, from index 70 up.
const LOADS_KG: [f64; 61] = [
    335.0, 345.0, 355.0, 365.0, 375.0, 387.0, 400.0, 412.0, 425.0, 437.0, //
    450.0, 462.0, 475.0, 487.0, 500.0, 515.0, 530.0, 545.0, 560.0, 580.0, //
    600.0, 615.0, 630.0, 650.0, 670.0, 690.0, 710.0, 730.0, 750.0, 775.0, //
    800.0, 825.0, 850.0, 875.0, 900.0, 925.0, 950.0, 975.0, 1000.0, 1030.0, //
    1060.0, 1090.0, 1120.0, 1150.0, 1180.0, 1215.0, 1250.0, 1285.0, 1320.0, 1360.0, //
    1400.0, 1450.0, 1500.0, 1550.0, 1600.0, 1650.0, 1700.0, 1750.0, 1800.0, 1850.0, //
    1900.0,
];

/// The indices of the table.
const INDICES: std::ops::RangeInclusive<u8> = 70..=130;

/// A load index.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LoadIndex {
    /// As marked on the sidewall.
    pub li: f64,
}

/// The load it stands for.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct MarkedLoad {
    /// Most load, kg.
    pub load_kg: f64,
    /// Most load, lb.
    pub load_lb: f64,
}

/// The load of a load index.
///
/// # Errors
/// [`NoNumber`] for anything but a whole number of the table.
pub fn load_index(inputs: &LoadIndex) -> Result<MarkedLoad, NoNumber> {
    let found = INDICES
        .zip(LOADS_KG)
        .find(|(index, _)| (f64::from(*index) - inputs.li).abs() < f64::EPSILON);
    let mut ranges = Ranges::new();
    ranges.holds(
        found.is_some(),
        "li",
        inputs.li,
        "a whole number from 70 to 130",
    );
    ranges.checked()?;
    let load_kg = found.map_or(f64::NAN, |(_, kg)| kg);
    Ok(MarkedLoad {
        load_kg: finite("the load", load_kg)?,
        load_lb: finite("the load", load_kg / POUND_KG)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The preferred numbers behind the table: 45 kg times ten to the eightieth part of the index.
    #[test]
    fn no_entry_strays_two_percent_from_the_series_behind_the_table() {
        for index in INDICES {
            let li = f64::from(index);
            let series = 45.0 * libm::pow(10.0, li / 80.0);
            let found = load_index(&LoadIndex { li }).unwrap().load_kg;
            assert!((found / series - 1.0).abs() < 0.02, "{index}: {found}");
        }
    }

    #[test]
    fn between_two_indices_and_outside_there_is_no_load() {
        for li in [69.0, 131.0, 110.5, -1.0, f64::NAN] {
            assert!(load_index(&LoadIndex { li }).is_err(), "{li}");
        }
    }
}
