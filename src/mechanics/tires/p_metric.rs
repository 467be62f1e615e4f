//! # A passenger tire on a trailer

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure p_metric_on_trailer` tells of it.
pub const PAGE: Page = Page {
    name: "p_metric_on_trailer",
    title: "A passenger tire on a trailer",
    situation: "A tire made for passenger cars, marked with a P before its size, is held to less \
                load when it stands under a trailer.",
    formula: "C = C_max / 1.10",
    symbols: &[
        ("C_max", "load on the sidewall, lb"),
        ("C", "load it may carry on a trailer, lb"),
    ],
    holds: "any load above 0",
    assumes: "The trailer's maker allows passenger tires at all.",
    never: "For ST and LT tires. It is 9.1 % off, not 9 % and not 10 %.",
    source: "49 CFR 571.110 S4.2.2.2 and 571.120 S5.1.2, from memory",
};

/// What the load is divided by.
const DIVISOR: f64 = 1.10;

/// A passenger tire.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PassengerTire {
    /// Load on the sidewall, lb.
    pub max_load_lb: f64,
}

/// The same on a trailer.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct OnTrailer {
    /// Load it may carry, lb.
    pub trailer_load_lb: f64,
}

/// The load a passenger tire may carry on a trailer.
///
/// # Errors
/// [`NoNumber`] for a load of nothing or less.
pub fn p_metric_on_trailer(inputs: &PassengerTire) -> Result<OnTrailer, NoNumber> {
    let mut ranges = Ranges::new();
    ranges
        .positive("max_load_lb", inputs.max_load_lb)
        .checked()?;
    Ok(OnTrailer {
        trailer_load_lb: finite("the load", inputs.max_load_lb / DIVISOR)?,
    })
}
