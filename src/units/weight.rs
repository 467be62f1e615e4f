//! Mass and the force it presses or pulls with: what a chain must hold is told as a force, what a
//! trailer weighs as a mass.
//!
//! `F = m g` with the standard gravity g = 9.80665 m/s² of the third CGPM, 1901. It is exact, and
//! the pound-force is defined by it: one pound weighs one pound-force, to the last digit.

use crate::units::{Exact, Quantity, Unit};

/// Standard gravity in m/s², as a fraction.
const GRAVITY: (i128, i128) = (980_665, 100_000);

/// The weight of a mass at standard gravity: pounds as pound-force, all else as kilonewtons.
/// Nothing when this is no mass.
pub fn weight_of(mass: &Quantity) -> Option<Quantity> {
    let kilograms = mass.in_unit(Unit::Kilogram)?;
    let newtons = Quantity::new(&kilograms.value * &gravity()?, Unit::Newton);
    let unit = match mass.unit {
        Unit::Pound => Unit::PoundForce,
        _ => Unit::Kilonewton,
    };
    newtons.in_unit(unit)
}

/// The mass that weighs this much at standard gravity: pound-force as pounds, all else as
/// kilograms. Nothing when this is no force.
pub fn mass_of(force: &Quantity) -> Option<Quantity> {
    let newtons = force.in_unit(Unit::Newton)?;
    let kilograms = Quantity::new(newtons.value.over(&gravity()?)?, Unit::Kilogram);
    let unit = match force.unit {
        Unit::PoundForce => Unit::Pound,
        _ => Unit::Kilogram,
    };
    kilograms.in_unit(unit)
}

fn gravity() -> Option<Exact> {
    Exact::ratio(GRAVITY.0, GRAVITY.1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Dimension, parse_quantity};

    fn mass(text: &str) -> Quantity {
        parse_quantity(text, Dimension::Mass).unwrap()
    }

    #[test]
    fn a_pound_weighs_one_pound_force_exactly() {
        let weight = weight_of(&mass("7000 lb")).unwrap();
        assert_eq!(weight, Quantity::whole(7000, Unit::PoundForce));
        assert_eq!(mass_of(&weight), Some(mass("7000 lb")));
    }

    #[test]
    fn a_tonne_weighs_nine_and_four_fifths_kilonewtons() {
        assert_eq!(weight_of(&mass("1 t")).unwrap().to_string(), "9.80665 kN");
        let weight = weight_of(&mass("453.59237 kg")).unwrap();
        assert_eq!(mass_of(&weight), Some(mass("453.59237 kg")));
    }

    #[test]
    fn only_a_mass_weighs_and_only_a_force_is_a_weight() {
        let length = parse_quantity("1 in", Dimension::Length).unwrap();
        assert_eq!((weight_of(&length), mass_of(&length)), (None, None));
    }
}
