//! # Grade that a breaking strength amounts to

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};
use std::f64::consts::PI;

/// What `hames figure chain_grade` tells of it.
pub const PAGE: Page = Page {
    name: "chain_grade",
    title: "Grade that a breaking strength amounts to",
    situation: "A link breaks through both sides of its bar. The stress at which that happens is \
                what the grade of a chain tells.",
    formula: "grade = 0.000689 B / (0.5 pi d²)",
    symbols: &[
        ("B", "breaking strength of the chain, lb"),
        ("d", "diameter of the links' bar, in"),
        ("grade", "a tenth of the mean stress in N/mm²"),
    ],
    holds: "B and d more than 0",
    assumes: "Bar of the true diameter: a 3/8 in chain of high grade is drawn from 10 mm bar.",
    never: "For judging worn links. A strength and a grade that do not fit together are a reason \
            to look at the mark again, no more.",
    source: "National Association of Chain Manufacturers, welded steel chain specification, \
             adopted 2010, annex A",
};

/// A chain that was broken, or is said to break, at a load.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChainBreaking {
    /// Breaking strength, lb.
    pub breaking_lb: f64,
    /// Diameter of the links' bar, in.
    pub diameter_in: f64,
}

/// What grade that is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ChainGrade {
    /// The grade.
    pub grade: f64,
}

/// As printed: a tenth of a pound per square inch in N/mm².
const TENTH_N_MM2: f64 = 0.000_689;

/// The grade that a breaking strength amounts to.
///
/// # Errors
/// [`NoNumber`] for a number that is not more than nothing.
pub fn chain_grade(inputs: &ChainBreaking) -> Result<ChainGrade, NoNumber> {
    Ranges::new()
        .positive("breaking_lb", inputs.breaking_lb)
        .positive("diameter_in", inputs.diameter_in)
        .checked()?;
    let bars = 0.5 * PI * inputs.diameter_in * inputs.diameter_in;
    Ok(ChainGrade {
        grade: finite("the grade", TENTH_N_MM2 * inputs.breaking_lb / bars)?,
    })
}
