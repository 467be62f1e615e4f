//! # Strength of chain

use crate::mechanics::{NoNumber, Page, Ranges};
use crate::units::{Exact, Quantity, Unit, weight_of};
use serde::{Deserialize, Serialize};
use std::cmp::Ordering;

/// What `hames figure chain_strength` tells of it.
pub const PAGE: Page = Page {
    name: "chain_strength",
    title: "Strength of chain",
    situation: "When the ball lets go, the chains hold the trailer. A chain breaks at some \
                multiple of the working load that its grade and size are good for.",
    formula: "B = 4 L, except B = 3 L for grade 43; a chain assembly is as strong as the weakest \
              of links, hook and joining link",
    symbols: &[
        (
            "L",
            "working load limit by grade and size of the links, lb or kg",
        ),
        ("B", "breaking strength of the links, lb or kN"),
    ],
    holds: "the sizes and grades of the table; any other chain needs a mark or a tag",
    assumes: "Links without a mark count as grade 30. Pounds and kilograms of the table were \
              rounded apart from each other, so neither is converted into the other.",
    never: "Where chain or tag states a strength: that goes before the table. For worn, bent or \
            welded links.",
    source: "49 CFR 393.108(a), (b), (d) and its tables for L; for B the welded chain \
             specification of the National Association of Chain Manufacturers, adopted 2010, as a \
             chain supplier tables it",
};

/// Limits of grades 30, 43, 70, 80 and 100; zero where the publication has no entry.
type Limits = [i64; 5];

/// The grades of the table.
pub const GRADES: [i64; 5] = [30, 43, 70, 80, 100];

/// What links without a mark count as.
const UNMARKED: i64 = 30;

/// 49 CFR 393.108: sixteenths of an inch, and pounds. As printed: in the second row grade 80 lies
/// below grade 70.
const POUNDS: [(i128, Limits); 6] = [
    (4, [1300, 2600, 3150, 3500, 4300]),
    (5, [1900, 3900, 4700, 4500, 5700]),
    (6, [2650, 5400, 6600, 7100, 8800]),
    (7, [3700, 7200, 8750, 0, 0]),
    (8, [4500, 9200, 11_300, 12_000, 15_000]),
    (10, [6900, 13_000, 15_800, 18_100, 22_600]),
];

/// 49 CFR 393.108: millimetres, and kilograms.
const KILOGRAMS: [(i64, Limits); 6] = [
    (7, [580, 1180, 1430, 1570, 1950]),
    (8, [860, 1770, 2130, 2000, 2600]),
    (10, [1200, 2450, 2990, 3200, 4000]),
    (11, [1680, 3270, 3970, 0, 0]),
    (13, [2030, 4170, 5130, 5400, 6800]),
    (16, [3130, 5910, 7170, 8200, 10_300]),
];

/// A chain by its mark and size; one of the two sizes is given.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChainOfGrade {
    /// Grade as marked; nothing when unmarked.
    #[serde(default)]
    pub grade: Option<i64>,
    /// Size of the links' bar, in.
    #[serde(default)]
    pub size_in: Option<f64>,
    /// The same of metric chain, mm.
    #[serde(default)]
    pub size_mm: Option<f64>,
}

/// What links of a grade and size hold.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ChainStrength {
    /// Working load limit of inch sizes, lb.
    pub working_load_limit_lb: Option<f64>,
    /// Breaking strength of inch sizes, lb.
    pub breaking_lb: Option<f64>,
    /// Working load limit of metric sizes, kg.
    pub working_load_limit_kg: Option<f64>,
    /// Breaking strength of metric sizes, kN.
    pub breaking_kn: Option<f64>,
    /// How many times the one is the other.
    pub breaking_factor: i64,
}

/// What links of a grade and size hold, by the table.
///
/// # Errors
/// [`NoNumber`] for a grade or size that is not in the table, and unless one size is given.
pub fn chain_strength(inputs: &ChainOfGrade) -> Result<ChainStrength, NoNumber> {
    let mut ranges = Ranges::new();
    for (what, size) in [("size_in", inputs.size_in), ("size_mm", inputs.size_mm)] {
        if let Some(size) = size {
            ranges.positive(what, size);
        }
    }
    ranges.checked()?;
    let size = match (inputs.size_in, inputs.size_mm) {
        (Some(inches), None) => exactly(inches, Unit::Inch),
        (None, Some(millimetres)) => exactly(millimetres, Unit::Millimetre),
        _ => {
            return Err(NoNumber::because("give one size, size_in or size_mm"));
        }
    };
    let found = size.and_then(|size| {
        let limit = working_load_limit(inputs.grade, &size)?;
        Some((breaking_by_table(inputs.grade, &size)?, limit))
    });
    let Some((breaking, limit)) = found else {
        return Err(NoNumber::because(
            "49 CFR 393.108 has no entry for this grade and size; look for a strength on chain \
             or tag",
        ));
    };
    let pounds = |quantity: &Quantity, unit: Unit| {
        (quantity.unit == unit).then(|| quantity.value.to_f64())?
    };
    Ok(ChainStrength {
        working_load_limit_lb: pounds(&limit, Unit::Pound),
        breaking_lb: pounds(&breaking, Unit::PoundForce),
        working_load_limit_kg: pounds(&limit, Unit::Kilogram),
        breaking_kn: pounds(&breaking, Unit::Kilonewton),
        breaking_factor: breaking_factor(inputs.grade),
    })
}

/// A size of the tables lies on the sixteenths; any other number is none of them.
fn exactly(size: f64, unit: Unit) -> Option<Quantity> {
    let step = Exact::ratio(1, 16)?;
    let value = Exact::nearest(size, &step)?;
    let same = value.to_f64()?.to_bits() == size.to_bits();
    same.then(|| Quantity::new(value, unit))
}

/// The working load limit of chain: pounds for a size in inches, kilograms for a metric one.
pub fn working_load_limit(grade: Option<i64>, size: &Quantity) -> Option<Quantity> {
    let is_size = |nominal: &Quantity| nominal.compare(size) == Some(Ordering::Equal);
    let (limits, unit) = if matches!(size.unit, Unit::Inch | Unit::Foot) {
        let (_, limits) = POUNDS.iter().find(|(sixteenths, _)| {
            Exact::ratio(*sixteenths, 16)
                .is_some_and(|inches| is_size(&Quantity::new(inches, Unit::Inch)))
        })?;
        (limits, Unit::Pound)
    } else {
        let (_, limits) = KILOGRAMS
            .iter()
            .find(|(millimetres, _)| is_size(&Quantity::whole(*millimetres, Unit::Millimetre)))?;
        (limits, Unit::Kilogram)
    };
    let grade = grade.unwrap_or(UNMARKED);
    let column = GRADES.iter().position(|other| *other == grade)?;
    let limit = limits.get(column).filter(|limit| **limit > 0)?;
    Some(Quantity::whole(*limit, unit))
}

/// How many times its working load limit chain of this grade holds before it breaks.
pub fn breaking_factor(grade: Option<i64>) -> i64 {
    if grade == Some(43) { 3 } else { 4 }
}

/// The breaking strength of chain by grade and size.
pub fn breaking_by_table(grade: Option<i64>, size: &Quantity) -> Option<Quantity> {
    let limit = working_load_limit(grade, size)?;
    weight_of(&limit.times(&Exact::whole(breaking_factor(grade))))
}

/// The lowest of some strengths; nothing of none, or of different dimensions.
pub fn lowest(strengths: &[Quantity]) -> Option<&Quantity> {
    let (first, others) = strengths.split_first()?;
    others.iter().try_fold(first, |low, next| {
        Some(match next.compare(low)? {
            Ordering::Less => next,
            Ordering::Equal | Ordering::Greater => low,
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn chain_without_a_mark_is_never_stronger_than_chain_with_one() {
        for (millimetres, _) in KILOGRAMS {
            let size = Quantity::whole(millimetres, Unit::Millimetre);
            let unmarked = working_load_limit(None, &size).unwrap();
            for grade in GRADES {
                let Some(marked) = working_load_limit(Some(grade), &size) else {
                    continue;
                };
                assert_ne!(
                    unmarked.compare(&marked),
                    Some(Ordering::Greater),
                    "{grade}"
                );
            }
        }
    }
}
