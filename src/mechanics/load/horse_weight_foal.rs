//! # A foal by its girth

use crate::mechanics::load::HorseWeight;
use crate::mechanics::{NoNumber, Page, Ranges};
use serde::Deserialize;

/// What `hames figure horse_weight_foal` tells of it.
pub const PAGE: Page = Page {
    name: "horse_weight_foal",
    title: "A foal by its girth",
    situation: "A foal of a few weeks grows round faster than long, so its girth alone tells its \
                weight well enough to load a trailer by.",
    formula: "W = (girth - 25.1) / 0.07",
    symbols: &[("girth", "round the heart girth, in"), ("W", "weight, lb")],
    holds: "foals of one to six weeks, girths of 28 to 42 in",
    assumes: "A foal of a horse mare, not of a pony or a draft mare.",
    never: "For doses of medicine, or for older foals.",
    source: "a horse owner's reference page, read; the fit behind it was not",
};

/// A foal.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Foal {
    /// Round the heart girth, in.
    pub girth_in: f64,
}

/// A foal's weight by its girth.
///
/// # Errors
/// [`NoNumber`] outside the range.
pub fn horse_weight_foal(inputs: &Foal) -> Result<HorseWeight, NoNumber> {
    let mut ranges = Ranges::new();
    ranges
        .within("girth_in", inputs.girth_in, 28.0, 42.0)
        .checked()?;
    HorseWeight::of_pounds((inputs.girth_in - 25.1) / 0.07)
}
