//! # A horse by girth and length, in inches

use crate::mechanics::constants::POUND_KG;
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure horse_weight` tells of it.
pub const PAGE: Page = Page {
    name: "horse_weight",
    title: "A horse by girth and length, in inches",
    situation: "A horse's trunk is near enough a cylinder: girth tells how round it is, \
                length how long. It is for barns without a scale; a horse weighed beats it.",
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::load::{
        Foal, FourMeasures, HeavyBreed, LightBreed, StraightMeasures, Study, TapedCentimetres,
        horse_weight_foal, horse_weight_four, horse_weight_metric, horse_weight_straight,
    };
    use crate::mechanics::wild::{only_numbers, wild};
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn a_rounder_or_longer_horse_is_heavier(
            girth_in in 30.0..95.0_f64, length_in in 25.0..95.0_f64, more in 0.01..5.0_f64,
        ) {
            let weight = |girth_in, length_in| horse_weight(&TapedInches {
                girth_in, length_in, kind: Grown::Adult,
            }).unwrap().weight_lb;
            let before = weight(girth_in, length_in);
            prop_assert!(weight(girth_in + more, length_in) > before);
            prop_assert!(weight(girth_in, length_in + more) > before);
        }

        #[test]
        fn whatever_is_taped_only_numbers_come_out(n in [wild(), wild(), wild(), wild()]) {
            let [a, b, c, d] = n;
            only_numbers(&horse_weight(&TapedInches {
                girth_in: a, length_in: b, kind: Grown::Pony,
            }));
            only_numbers(&horse_weight_metric(&TapedCentimetres {
                girth_cm: a, length_cm: b, divisor: Study::Study,
            }));
            only_numbers(&horse_weight_foal(&Foal { girth_in: a }));
            only_numbers(&horse_weight_four(&FourMeasures {
                girth_in: a, length_in: b, height_in: c, neck_in: d, kind: LightBreed::Stock,
            }));
            only_numbers(&horse_weight_straight(&StraightMeasures {
                girth_cm: a, straight_length_cm: b, height_cm: c, neck_cm: d,
                kind: HeavyBreed::Draft,
            }));
        }
    }
}
