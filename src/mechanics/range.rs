//! Where a formula holds, and what it says outside of that.
//!
//! Bad input never becomes a plausible number: a formula looks at everything it was given before
//! it reckons, and at everything it gives out.

use std::fmt;

/// Why a formula gives no number.
#[derive(Clone, Debug, PartialEq)]
pub enum NoNumber {
    /// Inputs outside the range of the formula, every one of them.
    Outside(Vec<Outside>),
    /// The inputs are each in range, and together have no answer; the sentence says why and what
    /// to do.
    NoAnswer(String),
}

/// One input outside the range of a formula.
#[derive(Clone, Debug, PartialEq)]
pub struct Outside {
    /// Name of the input, with its unit: `gross_lb`.
    pub what: String,
    /// What was given.
    pub given: f64,
    /// What is taken, in words: `more than 0`, `from 1 to 53`.
    pub takes: String,
}

/// Looks at the inputs of a formula, one after the other, and keeps every fault.
#[derive(Clone, Debug, Default)]
pub struct Ranges {
    faults: Vec<Outside>,
}

impl Ranges {
    /// Nothing looked at yet.
    pub fn new() -> Self {
        Self::default()
    }

    /// Any number that is one.
    pub fn finite(&mut self, what: &str, given: f64) -> &mut Self {
        self.keep(given.is_finite(), what, given, "a number")
    }

    /// More than nothing.
    pub fn positive(&mut self, what: &str, given: f64) -> &mut Self {
        self.keep(given.is_finite() && given > 0.0, what, given, "more than 0")
    }

    /// Nothing or more.
    pub fn not_negative(&mut self, what: &str, given: f64) -> &mut Self {
        self.keep(given.is_finite() && given >= 0.0, what, given, "0 or more")
    }

    /// From `low` to `high`, both taken in.
    pub fn within(&mut self, what: &str, given: f64, low: f64, high: f64) -> &mut Self {
        if given >= low && given <= high {
            return self;
        }
        self.keep(false, what, given, &format!("from {low} to {high}"))
    }

    /// Whatever else must hold; `takes` completes the sentence `it takes ...`.
    pub fn holds(&mut self, holds: bool, what: &str, given: f64, takes: &str) -> &mut Self {
        self.keep(holds, what, given, takes)
    }

    /// Every fault, or none.
    ///
    /// # Errors
    /// [`NoNumber::Outside`] with all of them.
    pub fn checked(&self) -> Result<(), NoNumber> {
        if self.faults.is_empty() {
            Ok(())
        } else {
            Err(NoNumber::Outside(self.faults.clone()))
        }
    }

    fn keep(&mut self, fine: bool, what: &str, given: f64, takes: &str) -> &mut Self {
        if !fine {
            self.faults.push(Outside {
                what: what.to_owned(),
                given,
                takes: takes.to_owned(),
            });
        }
        self
    }
}

impl NoNumber {
    /// The inputs have no answer together.
    pub fn because(sentence: impl Into<String>) -> Self {
        Self::NoAnswer(sentence.into())
    }
}

/// A result, if it is a number.
///
/// # Errors
/// [`NoNumber::NoAnswer`] when the reckoning left the numbers a computer holds.
pub fn finite(what: &str, result: f64) -> Result<f64, NoNumber> {
    if result.is_finite() {
        Ok(result)
    } else {
        Err(NoNumber::NoAnswer(format!(
            "{what} comes to no number with these inputs; they are too large or too small"
        )))
    }
}

impl fmt::Display for NoNumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Outside(faults) => {
                for (at, fault) in faults.iter().enumerate() {
                    let between = if at == 0 { "" } else { "; " };
                    write!(f, "{between}{fault}")?;
                }
                Ok(())
            }
            Self::NoAnswer(sentence) => f.write_str(sentence),
        }
    }
}

impl fmt::Display for Outside {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{} is {}; it takes {}",
            self.what, self.given, self.takes
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_input_out_of_range_is_told_at_once() {
        let mut ranges = Ranges::new();
        ranges
            .positive("gross_lb", -1.0)
            .within("week", 54.0, 1.0, 53.0)
            .finite("x_in", f64::NAN)
            .not_negative("slack_in", 0.0);
        assert_eq!(
            ranges.checked().unwrap_err().to_string(),
            "gross_lb is -1; it takes more than 0; week is 54; it takes from 1 to 53; \
             x_in is NaN; it takes a number"
        );
    }

    #[test]
    fn what_is_no_number_does_not_leave() {
        assert!(finite("pull", f64::INFINITY).is_err());
        assert_eq!(finite("pull", 2.0), Ok(2.0));
    }
}
