//! # A draft horse or warmblood by four measures

use crate::mechanics::load::HorseWeight;
use crate::mechanics::{NoNumber, Page, Ranges};
use serde::{Deserialize, Serialize};

/// What `hames figure horse_weight_straight` tells of it.
pub const PAGE: Page = Page {
    name: "horse_weight_straight",
    title: "A draft horse or warmblood by four measures",
    situation: "Heavy horses have formulas of their own. Their length is taken straight, as between \
                two upright sticks, not along the side and round the buttock.",
    formula: "W = girth^1.528 x length^0.574 x height^0.246 x neck^0.261 / D",
    symbols: &[
        ("girth", "round the heart girth, cm"),
        (
            "length",
            "point of shoulder to point of buttock, straight, cm",
        ),
        ("height", "at the withers, cm"),
        ("neck", "round the middle of the neck, cm"),
        ("D", "1,181 draft horse, 1,209 warmblood"),
        ("W", "weight, kg"),
    ],
    holds: "grown horses; girths of 140 to 280 cm, lengths of 120 to 240 cm, heights of 130 to 210 \
            cm, necks of 70 to 180 cm",
    assumes: "96 % of the differences in weight explained, 28 kg (62 lb) of scatter.",
    never: "With a length laid round the buttock; for other breeds; for doses of medicine.",
    source: "Catalano and others, Journal of Equine Veterinary Science 2016, 39:38-43, record and \
             abstract",
};

/// What kind of horse the divisor was fitted on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum HeavyBreed {
    /// Draft horses.
    Draft,
    /// Warmbloods.
    Warmblood,
}

impl HeavyBreed {
    fn divisor(self) -> f64 {
        match self {
            Self::Draft => 1_181.0,
            Self::Warmblood => 1_209.0,
        }
    }
}

/// A grown horse with four measures, its length straight.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StraightMeasures {
    /// Round the heart girth, cm.
    pub girth_cm: f64,
    /// Point of shoulder to point of buttock, straight, cm.
    pub straight_length_cm: f64,
    /// At the withers, cm.
    pub height_cm: f64,
    /// Round the middle of the neck, cm.
    pub neck_cm: f64,
    /// What kind.
    pub kind: HeavyBreed,
}

/// A heavy horse's weight by girth, straight length, height and neck.
///
/// # Errors
/// [`NoNumber`] outside the ranges.
pub fn horse_weight_straight(inputs: &StraightMeasures) -> Result<HorseWeight, NoNumber> {
    let mut ranges = Ranges::new();
    ranges
        .within("girth_cm", inputs.girth_cm, 140.0, 280.0)
        .within(
            "straight_length_cm",
            inputs.straight_length_cm,
            120.0,
            240.0,
        )
        .within("height_cm", inputs.height_cm, 130.0, 210.0)
        .within("neck_cm", inputs.neck_cm, 70.0, 180.0)
        .checked()?;
    let product = libm::pow(inputs.girth_cm, 1.528)
        * libm::pow(inputs.straight_length_cm, 0.574)
        * libm::pow(inputs.height_cm, 0.246)
        * libm::pow(inputs.neck_cm, 0.261);
    HorseWeight::of_kilograms(product / inputs.kind.divisor())
}
