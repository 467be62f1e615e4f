//! # The most cold pressure of a load range

use crate::mechanics::{NoNumber, Page};
use serde::{Deserialize, Serialize};

/// What `hames figure load_range_pressure` tells of it.
pub const PAGE: Page = Page {
    name: "load_range_pressure",
    title: "The most cold pressure of a load range",
    situation: "A letter on the sidewall, the load range, tells how strong the tire's body is, and \
                so how much cold pressure it is made for.",
    formula: "a table of letters: B 35, C 50, D 65, E 80 psi",
    symbols: &[
        ("letter", "load range, B to E"),
        ("pressure", "most cold pressure, by gauge, psi"),
    ],
    holds: "special trailer (ST) tires of load ranges B to E",
    assumes: "The usual make. Some tires of a range are marked otherwise.",
    never: "Where the sidewall prints a pressure: the print wins.",
    source: "Tire and Rim Association practice, read in a trailer load table",
};

const PRESSURES_PSI: [(&str, f64); 4] = [("B", 35.0), ("C", 50.0), ("D", 65.0), ("E", 80.0)];

/// A load range.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LoadRange {
    /// As marked on the sidewall, in capitals.
    pub letter: String,
}

/// The pressure it is made for.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct RangePressure {
    /// Most cold pressure, by gauge, psi.
    pub max_psi: f64,
}

/// The most cold pressure of a special trailer tire of a load range.
///
/// # Errors
/// [`NoNumber`] for what is no letter of the table.
pub fn load_range_pressure(inputs: &LoadRange) -> Result<RangePressure, NoNumber> {
    PRESSURES_PSI
        .into_iter()
        .find(|(letter, _)| *letter == inputs.letter)
        .map(|(_, max_psi)| RangePressure { max_psi })
        .ok_or_else(|| {
            NoNumber::because(format!(
                "“{}” is no load range of the table; it takes B, C, D or E. Read the pressure off \
                 the sidewall",
                inputs.letter
            ))
        })
}
