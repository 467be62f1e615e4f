//! The one unit all quantities of a kind are told in beside their own, so that they can be
//! compared: the metric one of the trade.

use crate::units::{Dimension, Unit};

pub(super) const fn unit(dimension: Dimension) -> Unit {
    match dimension {
        Dimension::Angle => Unit::Degree,
        Dimension::Charge => Unit::AmpHour,
        Dimension::Count => Unit::Piece,
        Dimension::Current => Unit::Ampere,
        Dimension::Deceleration => Unit::MetrePerSecondSquared,
        Dimension::Force => Unit::Newton,
        Dimension::Length => Unit::Metre,
        Dimension::Mass => Unit::Kilogram,
        Dimension::Pressure => Unit::Kilopascal,
        Dimension::Share => Unit::Percent,
        Dimension::Speed => Unit::KilometrePerHour,
        Dimension::SpringRate => Unit::NewtonPerMillimetre,
        Dimension::Temperature => Unit::Celsius,
        Dimension::Time => Unit::Second,
        Dimension::Torque => Unit::NewtonMetre,
        Dimension::Voltage => Unit::Volt,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_of_quantity_is_told_in_a_unit_of_its_own_kind() {
        for dimension in Dimension::ALL {
            assert_eq!(unit(dimension).dimension(), dimension);
        }
    }
}
