//! # A horse by four measures

use crate::mechanics::load::HorseWeight;
use crate::mechanics::{NoNumber, Page, Ranges};
use serde::{Deserialize, Serialize};

/// What `hames figure horse_weight_four` tells of it.
pub const PAGE: Page = Page {
    name: "horse_weight_four",
    title: "A horse by four measures",
    situation: "Height and neck tell of bone and condition what girth and length leave out. Fitted \
                on grown Arabians, ponies and stock horses, each kind with its own divisor.",
    formula: "W = girth^1.486 x length^0.554 x height^0.599 x neck^0.173 / D",
    symbols: &[
        ("girth", "round the heart girth, in"),
        (
            "length",
            "body length, tape laid along the side and round the buttock, in",
        ),
        ("height", "at the withers, in"),
        ("neck", "round the middle of the neck, in"),
        ("D", "119 Arabian, 119 pony, 114 stock horse"),
        ("W", "weight, lb"),
    ],
    holds: "grown horses; girths of 40 to 90 in, lengths of 40 to 100 in, heights of 36 to 72 in, \
            necks of 20 to 60 in",
    assumes: "The divisors are rounded to three figures, which alone moves the weight by up to \
              0.4 %. Formulas of this kind come within some 4 % of a scale.",
    never: "For draft horses, warmbloods, foals; for doses of medicine.",
    source: "Martinson and others, Journal of Animal Science 2014, as summarized in a trade \
             magazine",
};

/// What kind of horse the divisor was fitted on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum LightBreed {
    /// Arabians.
    Arabian,
    /// Ponies.
    Pony,
    /// Stock horses.
    Stock,
}

impl LightBreed {
    fn divisor(self) -> f64 {
        match self {
            Self::Arabian | Self::Pony => 119.0,
            Self::Stock => 114.0,
        }
    }
}

/// A grown horse with four measures.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FourMeasures {
    /// Round the heart girth, in.
    pub girth_in: f64,
    /// Body length round the buttock, in.
    pub length_in: f64,
    /// At the withers, in.
    pub height_in: f64,
    /// Round the middle of the neck, in.
    pub neck_in: f64,
    /// What kind.
    pub kind: LightBreed,
}

/// A grown horse's weight by girth, length, height and neck.
///
/// # Errors
/// [`NoNumber`] outside the ranges.
pub fn horse_weight_four(inputs: &FourMeasures) -> Result<HorseWeight, NoNumber> {
    let mut ranges = Ranges::new();
    ranges
        .within("girth_in", inputs.girth_in, 40.0, 90.0)
        .within("length_in", inputs.length_in, 40.0, 100.0)
        .within("height_in", inputs.height_in, 36.0, 72.0)
        .within("neck_in", inputs.neck_in, 20.0, 60.0)
        .checked()?;
    let product = libm::pow(inputs.girth_in, 1.486)
        * libm::pow(inputs.length_in, 0.554)
        * libm::pow(inputs.height_in, 0.599)
        * libm::pow(inputs.neck_in, 0.173);
    HorseWeight::of_pounds(product / inputs.kind.divisor())
}
