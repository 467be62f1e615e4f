//! Readings that are probably slips of the finger, asked again before they are judged.

use crate::units::{Quantity, Unit};
use std::fmt;

/// Why a reading is asked again before it is judged.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Doubt {
    /// The reading.
    pub reading: Quantity,
    /// Lowest plausible value.
    pub low: Quantity,
    /// Highest plausible value.
    pub high: Quantity,
    /// A unit with which the same number would be plausible.
    pub perhaps: Option<Unit>,
}

/// Whether a reading lies outside what is plausible, and what may have been meant.
pub fn doubt(reading: &Quantity, (low, high): &(Quantity, Quantity)) -> Option<Doubt> {
    if reading.within(low, high) {
        return None;
    }
    let perhaps = reading.dimension().units().find(|unit| {
        *unit != reading.unit && Quantity::new(reading.value.clone(), *unit).within(low, high)
    });
    Some(Doubt {
        reading: reading.clone(),
        low: low.clone(),
        high: high.clone(),
        perhaps,
    })
}

impl fmt::Display for Doubt {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{} is outside what this step usually gives ({} to {}).",
            self.reading, self.low, self.high
        )?;
        if let Some(unit) = self.perhaps {
            write!(
                f,
                " Was it {}?",
                Quantity::new(self.reading.value.clone(), unit)
            )?;
        }
        f.write_str(" Read the instrument again and type what it shows.")
    }
}
