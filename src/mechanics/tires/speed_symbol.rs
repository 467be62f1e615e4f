//! # The speed behind a speed symbol

use crate::mechanics::{NoNumber, Page, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure speed_symbol` tells of it.
pub const PAGE: Page = Page {
    name: "speed_symbol",
    title: "The speed behind a speed symbol",
    situation: "After the load index a sidewall marks the most speed at which the tire may carry \
                that load, by a letter. Special trailer tires without one are made for 65 mph.",
    formula: "a table of letters; H stands between U and V",
    symbols: &[
        ("symbol", "one letter, J to N, P to V, H, W or Y"),
        ("speed", "most speed of the tire, km/h and mph"),
    ],
    holds: "the letters J, K, L, M, N, P, Q, R, S, T, U, H, V, W, Y",
    assumes: "Full load at full cold pressure.",
    never: "As a speed to drive at. It says only what the tire is made for.",
    source: "ETRTO speed symbol table, read in copies; K from memory",
};

/// Kilometres in a mile.
const MILE_KM: f64 = 1.609_344;

/// Every letter with its speed, km/h.
const SPEEDS_KM_H: [(&str, f64); 15] = [
    ("J", 100.0),
    ("K", 110.0),
    ("L", 120.0),
    ("M", 130.0),
    ("N", 140.0),
    ("P", 150.0),
    ("Q", 160.0),
    ("R", 170.0),
    ("S", 180.0),
    ("T", 190.0),
    ("U", 200.0),
    ("H", 210.0),
    ("V", 240.0),
    ("W", 270.0),
    ("Y", 300.0),
];

/// A speed symbol.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SpeedSymbol {
    /// As marked on the sidewall, in capitals.
    pub symbol: String,
}

/// The speed it stands for.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct MarkedSpeed {
    /// Most speed, km/h.
    pub speed_km_h: f64,
    /// Most speed, mph.
    pub speed_mph: f64,
}

/// The most speed of a tire with this symbol.
///
/// # Errors
/// [`NoNumber`] for what is no letter of the table.
pub fn speed_symbol(inputs: &SpeedSymbol) -> Result<MarkedSpeed, NoNumber> {
    let (_, speed_km_h) = SPEEDS_KM_H
        .into_iter()
        .find(|(letter, _)| *letter == inputs.symbol)
        .ok_or_else(|| {
            NoNumber::because(format!(
                "“{}” is no speed symbol of the table; it takes one capital letter: J to N, P to \
                 V, H, W or Y",
                inputs.symbol
            ))
        })?;
    Ok(MarkedSpeed {
        speed_km_h,
        speed_mph: finite("the speed", speed_km_h / MILE_KM)?,
    })
}
