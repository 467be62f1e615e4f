//! # A horse by girth and length, in inches

use crate::mechanics::constants::POUND_KG;
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure horse_weight` tells of it.
pub const PAGE: Page = Page {
    name: "horse_weight",
    title: "A horse by girth and length, in inches",
    situation: "A horse's trunk is near enough a cylinder: girth gives its round, length its long. \
                It is for barns without a scale; a horse weighed beats it.",
    formula: "W = girth^2 x length / D",
    symbols: &[
        (
            "girth",
            "round the heart girth, behind the elbow, breathed out, in",
        ),
        ("length", "point of shoulder to point of buttock, in"),
        ("D", "330 grown horse, 301 yearling, 280 weanling, 299 pony"),
        ("W", "weight, lb"),
    ],
    holds: "girths of 30 to 100 in, lengths of 25 to 100 in",
    assumes: "The horse stands square. Weight tapes and old formulas are off by 5 to 25 %, people's \
              guesses by 8 to 15 %.",
    never: "For draft horses and foals, which have formulas of their own; for doses of medicine; \
            rounded down.",
    source: "330: university extension sheet on estimating a horse's weight; 301, 280 and 299: \
             trade press",
};

/// What kind of horse.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Grown {
    /// A grown horse.
    #[default]
    Adult,
    /// One year old.
    Yearling,
    /// Weaned, under a year.
    Weanling,
    /// A pony.
    Pony,
}

impl Grown {
    fn divisor(self) -> f64 {
        match self {
            Self::Adult => 330.0,
            Self::Yearling => 301.0,
            Self::Weanling => 280.0,
            Self::Pony => 299.0,
        }
    }
}

/// A horse measured in inches.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TapedInches {
    /// Round the heart girth, in.
    pub girth_in: f64,
    /// Point of shoulder to point of buttock, in.
    pub length_in: f64,
    /// What kind; a grown horse unless given.
    #[serde(default)]
    pub kind: Grown,
}

/// A horse's weight.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct HorseWeight {
    /// In pounds.
    pub weight_lb: f64,
    /// In kilograms.
    pub weight_kg: f64,
}

impl HorseWeight {
    pub(super) fn of_pounds(pounds: f64) -> Result<Self, NoNumber> {
        Ok(Self {
            weight_lb: finite("the weight", pounds)?,
            weight_kg: finite("the weight", pounds * POUND_KG)?,
        })
    }

    pub(super) fn of_kilograms(kilograms: f64) -> Result<Self, NoNumber> {
        Self::of_pounds(kilograms / POUND_KG)
    }
}

/// A horse's weight by girth and length.
///
/// # Errors
/// [`NoNumber`] outside the ranges.
pub fn horse_weight(inputs: &TapedInches) -> Result<HorseWeight, NoNumber> {
    let mut ranges = Ranges::new();
    ranges
        .within("girth_in", inputs.girth_in, 30.0, 100.0)
        .within("length_in", inputs.length_in, 25.0, 100.0)
        .checked()?;
    let cubed = inputs.girth_in * inputs.girth_in * inputs.length_in;
    HorseWeight::of_pounds(cubed / inputs.kind.divisor())
}
