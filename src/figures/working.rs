//! How a figure came about, so that a person can follow it.

use crate::mechanics::Page;

/// What a computed figure rests on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Working {
    /// The formula's own page.
    pub page: &'static Page,
    /// What went in, in the order a person would look it up.
    pub inputs: Vec<Input>,
}

/// One number that went into a formula.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Input {
    /// What it is: `wheelbase`.
    pub what: String,
    /// Its value with unit, as shown.
    pub value: String,
    /// Where it comes from: `plate, left wall`.
    pub from: String,
}
