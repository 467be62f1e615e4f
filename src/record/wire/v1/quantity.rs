//! Quantities in bodies: the exact number, a blank, and the unit's word.

use crate::record::Unreadable;
use crate::record::strict::field;
use crate::units::{Exact, Quantity, Typed, Unit};
use serde::{Deserialize, Serialize};

/// The word of each unit. Other than the symbols on screens these are all different.
macro_rules! words {
    ($($unit:ident $word:literal,)*) => {
        pub(super) const fn unit_word(unit: Unit) -> &'static str {
            match unit {
                $(Unit::$unit => $word,)*
            }
        }

        fn named(word: &str) -> Option<Unit> {
            match word {
                $($word => Some(Unit::$unit),)*
                _ => None,
            }
        }
    };
}

words! {
    Degree "deg",
    AmpHour "Ah",
    Piece "pcs",
    Ampere "A",
    Milliampere "mA",
    StandardGravity "g",
    FootPerSecondSquared "ft/s2",
    MetrePerSecondSquared "m/s2",
    PoundPerInch "lbf/in",
    NewtonPerMillimetre "N/mm",
    PoundForce "lbf",
    Kilonewton "kN",
    Newton "N",
    Inch "in",
    Foot "ft",
    Centimetre "cm",
    Millimetre "mm",
    Metre "m",
    Mile "mi",
    Kilometre "km",
    Pound "lb",
    Kilogram "kg",
    Tonne "t",
    Psi "psi",
    Bar "bar",
    Kilopascal "kPa",
    Percent "%",
    MilePerHour "mph",
    KilometrePerHour "km/h",
    Fahrenheit "degF",
    Celsius "degC",
    Second "s",
    Minute "min",
    Hour "h",
    FootPound "ft-lb",
    NewtonMetre "N-m",
    Volt "V",
    Millivolt "mV",
}

pub(super) fn unit(name: &'static str, text: &str) -> Result<Unit, Unreadable> {
    field(name, text, named)
}

pub(in crate::record::wire) fn write(quantity: &Quantity) -> String {
    format!("{} {}", quantity.value.written(), unit_word(quantity.unit))
}

pub(in crate::record::wire) fn read(
    name: &'static str,
    text: &str,
) -> Result<Quantity, Unreadable> {
    let (value, word) = field(name, text, |text| {
        let (number, unit) = text.split_once(' ')?;
        Some((Exact::read_written(number).ok()?, unit))
    })?;
    Ok(Quantity::new(value, unit(name, word)?))
}

/// A value as it was typed, and what it means.
#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub(in crate::record) struct StoredTyped {
    typed: String,
    means: String,
}

impl StoredTyped {
    pub(in crate::record) fn of(read: &Typed) -> Self {
        Self {
            typed: read.text().to_owned(),
            means: write(read.quantity()),
        }
    }

    pub(in crate::record) fn meant(&self) -> Result<Typed, Unreadable> {
        typed(&self.typed, &self.means)
    }
}

/// What was typed, which has to mean the quantity beside it.
pub(super) fn typed(typed: &str, means: &str) -> Result<Typed, Unreadable> {
    let quantity = read("means", means)?;
    let typed = field("typed", typed, |text| {
        let read = Typed::read(text, quantity.dimension()).ok();
        read.filter(|read| read.text() == text)
    })?;
    if *typed.quantity() == quantity {
        Ok(typed)
    } else {
        Err(Unreadable::Contradiction(
            "what was typed does not mean the value beside it",
        ))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn every_unit_has_a_word_of_its_own_and_reads_back() {
        let words: HashSet<_> = Unit::ALL.map(unit_word).into();
        assert_eq!(words.len(), Unit::ALL.len());
        for unit in Unit::ALL {
            let quantity = Quantity::new(Exact::ratio(7, 3).unwrap(), unit);
            assert_eq!(read("bound", &write(&quantity)), Ok(quantity));
        }
    }

    #[test]
    fn a_typed_value_that_means_another_is_refused() {
        assert!(typed("65.0 psi", "65 psi").is_ok());
        assert!(matches!(
            typed("66 psi", "65 psi"),
            Err(Unreadable::Contradiction(_))
        ));
        assert!(typed("65", "65 psi").is_err());
        assert!(typed("65 psi ", "65 psi").is_err());
        assert!(typed("65 psi", "65.0 psi").is_err());
    }
}
