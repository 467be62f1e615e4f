//! A value as it was typed, with the number and unit it means.

use crate::units::{Dimension, NotAQuantity, Quantity, parse_quantity};
use std::fmt;

/// The characters a person typed, kept for ever, and the exact quantity they mean.
///
/// `32.0 psi` and `32 psi` are the same quantity and different typed values.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Typed {
    text: String,
    quantity: Quantity,
}

impl Typed {
    /// Reads what was typed as a quantity of `dimension`.
    ///
    /// # Errors
    /// [`NotAQuantity`] with the reason and an example when it is not one.
    pub fn read(text: &str, dimension: Dimension) -> Result<Self, NotAQuantity> {
        let quantity = parse_quantity(text, dimension)?;
        Ok(Self {
            text: text.trim().to_owned(),
            quantity,
        })
    }

    /// The characters as typed, blanks at the ends taken off.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// What they mean.
    pub fn quantity(&self) -> &Quantity {
        &self.quantity
    }
}

impl fmt::Display for Typed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}
