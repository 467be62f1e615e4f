//! # A horse by girth and length, in centimetres

use crate::mechanics::load::HorseWeight;
use crate::mechanics::{NoNumber, Page, Ranges};
use serde::{Deserialize, Serialize};

/// What `hames figure horse_weight_metric` tells of it.
pub const PAGE: Page = Page {
    name: "horse_weight_metric",
    title: "A horse by girth and length, in centimetres",
    situation: "The same trunk as a cylinder, with the divisor of the study that made the formula \
                known: 281 horses and ponies measured and weighed.",
    formula: "W = girth^2 x length / D",
    symbols: &[
        (
            "girth",
            "round the heart girth, behind the elbow, breathed out, cm",
        ),
        ("length", "point of shoulder to point of buttock, cm"),
        (
            "D",
            "11,900 as the study has it; 11,877 as later works have it; 11,400 Icelandic horses",
        ),
        ("W", "weight, kg"),
    ],
    holds: "girths of 76 to 254 cm, lengths of 63 to 254 cm",
    assumes: "The horse stands square. The study explains nine tenths of the differences in weight.",
    never: "For draft horses and foals; for doses of medicine; rounded down.",
    source: "Carroll and Huntington, Equine Veterinary Journal 1988, 20:41-45, abstract; 11,877 \
             from memory; 11,400 from a journal abstract on Icelandic horses",
};

/// Whose divisor.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Study {
    /// Carroll and Huntington 1988.
    #[default]
    Study,
    /// As later works quote it.
    Quoted,
    /// Icelandic horses.
    Icelandic,
}

impl Study {
    fn divisor(self) -> f64 {
        match self {
            Self::Study => 11_900.0,
            Self::Quoted => 11_877.0,
            Self::Icelandic => 11_400.0,
        }
    }
}

/// A horse measured in centimetres.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TapedCentimetres {
    /// Round the heart girth, cm.
    pub girth_cm: f64,
    /// Point of shoulder to point of buttock, cm.
    pub length_cm: f64,
    /// Whose divisor; the study's unless given.
    #[serde(default)]
    pub divisor: Study,
}

/// A horse's weight by girth and length in centimetres.
///
/// # Errors
/// [`NoNumber`] outside the ranges.
pub fn horse_weight_metric(inputs: &TapedCentimetres) -> Result<HorseWeight, NoNumber> {
    let mut ranges = Ranges::new();
    ranges
        .within("girth_cm", inputs.girth_cm, 76.0, 254.0)
        .within("length_cm", inputs.length_cm, 63.0, 254.0)
        .checked()?;
    let cubed = inputs.girth_cm * inputs.girth_cm * inputs.length_cm;
    HorseWeight::of_kilograms(cubed / inputs.divisor.divisor())
}
