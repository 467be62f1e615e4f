//! A number with its unit.

use crate::units::{Dimension, Exact, Unit};
use std::cmp::Ordering;
use std::fmt;

/// An exact value in a unit. Two quantities are equal when value and unit are; use
/// [`compare`](Self::compare) to ask which of two, in whatever units, is larger.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Quantity {
    /// The number.
    pub value: Exact,
    /// Its unit.
    pub unit: Unit,
}

impl Quantity {
    /// A value in a unit.
    pub fn new(value: Exact, unit: Unit) -> Self {
        Self { value, unit }
    }

    /// A whole number of a unit.
    pub fn whole(value: i64, unit: Unit) -> Self {
        Self::new(Exact::whole(value), unit)
    }

    /// What this measures.
    pub fn dimension(&self) -> Dimension {
        self.unit.dimension()
    }

    /// Which is larger, exactly; nothing when the two measure different things.
    pub fn compare(&self, other: &Self) -> Option<Ordering> {
        if self.unit == other.unit {
            return Some(self.value.cmp(&other.value));
        }
        (self.dimension() == other.dimension()).then(|| self.base().cmp(&other.base()))
    }

    /// Whether this lies from `low` to `high`, both taken in; never across dimensions.
    pub fn within(&self, low: &Self, high: &Self) -> bool {
        self.compare(low).is_some_and(Ordering::is_ge)
            && self.compare(high).is_some_and(Ordering::is_le)
    }

    /// The same quantity in another unit of its dimension, exactly.
    pub fn in_unit(&self, unit: Unit) -> Option<Self> {
        if unit == self.unit {
            return Some(self.clone());
        }
        if unit.dimension() != self.dimension() {
            return None;
        }
        let value = &self.base().over(&unit.size())? - &unit.offset();
        Some(Self::new(value, unit))
    }

    /// This much more or less of the same: `factor` times the value, in the same unit.
    ///
    /// Meant for amounts. A temperature on a scale has no meaningful multiple.
    #[must_use]
    pub fn times(&self, factor: &Exact) -> Self {
        Self::new(&self.value * factor, self.unit)
    }

    /// The same amount of difference in another unit: 9 F of error are 5 C of error, though 9 F on
    /// the scale are -12.8 C. Apart from temperatures it is what [`in_unit`](Self::in_unit) gives.
    pub fn difference_in(&self, unit: Unit) -> Option<Self> {
        if unit == self.unit {
            return Some(self.clone());
        }
        if unit.dimension() != self.dimension() {
            return None;
        }
        let value = (&self.value * &self.unit.size()).over(&unit.size())?;
        Some(Self::new(value, unit))
    }

    /// The sum in this quantity's unit; nothing across dimensions. What is added to a temperature
    /// is a difference.
    pub fn plus(&self, more: &Self) -> Option<Self> {
        Some(Self::new(
            &self.value + &more.difference_in(self.unit)?.value,
            self.unit,
        ))
    }

    /// The difference in this quantity's unit; nothing across dimensions.
    pub fn minus(&self, other: &Self) -> Option<Self> {
        Some(Self::new(
            &self.value - &other.in_unit(self.unit)?.value,
            self.unit,
        ))
    }

    /// The median, in the unit of the first; of an even number the mean of the two in the middle.
    /// Nothing of nothing, and what measures another thing is left out.
    pub fn middle<'q>(read: impl IntoIterator<Item = &'q Self>) -> Option<Self> {
        let read: Vec<&Self> = read.into_iter().collect();
        let unit = read.first()?.unit;
        let values = read.into_iter();
        let mut values: Vec<Exact> = values
            .filter_map(|read| Some(read.in_unit(unit)?.value))
            .collect();
        values.sort();
        let upper = values.get(values.len() / 2)?;
        let lower = values.get(values.len().saturating_sub(1) / 2)?;
        let sum = lower + upper;
        Some(Self::new(sum.over(&Exact::whole(2))?, unit))
    }

    /// The value with at most `places` digits behind the point, and the unit.
    pub fn shown(&self, places: usize) -> String {
        self.with_symbol(&self.value.rounded(places))
    }

    /// The value in the base of its dimension.
    fn base(&self) -> Exact {
        &(&self.value + &self.unit.offset()) * &self.unit.size()
    }

    fn with_symbol(&self, digits: &str) -> String {
        match self.unit.symbol() {
            "" => digits.to_owned(),
            symbol => format!("{digits} {symbol}"),
        }
    }
}

impl fmt::Display for Quantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.value.fmt(f)?;
        match self.unit.symbol() {
            "" => Ok(()),
            symbol => write!(f, " {symbol}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::units::{Dimension, Unit, parse_quantity};
    use std::cmp::Ordering;

    fn ordering(left: &str, right: &str, dimension: Dimension) -> Ordering {
        let left = parse_quantity(left, dimension).unwrap();
        left.compare(&parse_quantity(right, dimension).unwrap())
            .unwrap()
    }

    /// NIST SP 811 appendix B: the exact definitions of the inch, the pound and standard gravity.
    #[test]
    fn the_same_amount_in_two_units_is_exactly_equal() {
        assert_eq!(
            ordering("1 in", "25.4 mm", Dimension::Length),
            Ordering::Equal
        );
        assert_eq!(
            ordering("100 lb", "45.359237 kg", Dimension::Mass),
            Ordering::Equal
        );
        assert_eq!(
            ordering("32 F", "0 C", Dimension::Temperature),
            Ordering::Equal
        );
        assert_eq!(
            ordering("212 F", "100 C", Dimension::Temperature),
            Ordering::Equal
        );
        assert_eq!(
            ordering("1 bar", "100 kPa", Dimension::Pressure),
            Ordering::Equal
        );
        assert_eq!(
            ordering("1 mi", "5280 ft", Dimension::Length),
            Ordering::Equal
        );
    }

    /// NIST SP 811 appendix B.8: 1 lbf·ft = 1.355818 N·m. From memory.
    #[test]
    fn foot_pounds_become_newton_metres_as_tabled() {
        for (feet, metres) in [
            ("120 ft-lb", "162.7"),
            ("90 ft-lb", "122"),
            ("50 ft-lb", "67.8"),
        ] {
            let torque = parse_quantity(feet, Dimension::Torque).unwrap();
            assert_eq!(
                torque.in_unit(Unit::NewtonMetre).unwrap().value.rounded(1),
                metres
            );
        }
    }

    #[test]
    fn what_is_added_to_a_temperature_is_a_difference() {
        let read = |text| parse_quantity(text, Dimension::Temperature).unwrap();
        assert_eq!(read("9 F").difference_in(Unit::Celsius), Some(read("5 C")));
        assert_eq!(read("20 C").plus(&read("9 F")), Some(read("25 C")));
        assert_eq!(read("68 F").plus(&read("-5 C")), Some(read("59 F")));
    }

    #[test]
    fn different_dimensions_do_not_compare() {
        let length = parse_quantity("1 in", Dimension::Length).unwrap();
        let mass = parse_quantity("1 lb", Dimension::Mass).unwrap();
        assert_eq!(length.compare(&mass), None);
        assert_eq!(length.plus(&mass), None);
    }
}
