//! The two systems of units, and a quantity shown in the one a person reads.
//!
//! Showing rounds, so what comes out is text: nothing is ever judged by it.

use crate::units::{Dimension, Exact, Quantity, Unit};

/// The system of units limits are shown in. Anything may be typed in either.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Units {
    /// Inches, pounds, psi.
    #[default]
    Us,
    /// Centimetres, kilograms, kilopascals.
    Metric,
}

/// Units of one size in both systems: what one person reads where another reads the other.
const PAIRS: [(Unit, Unit); 10] = [
    (Unit::PoundForce, Unit::Kilonewton),
    (Unit::Inch, Unit::Centimetre),
    (Unit::Foot, Unit::Metre),
    (Unit::Mile, Unit::Kilometre),
    (Unit::Pound, Unit::Kilogram),
    (Unit::Psi, Unit::Kilopascal),
    (Unit::MilePerHour, Unit::KilometrePerHour),
    (Unit::PoundPerInch, Unit::NewtonPerMillimetre),
    (Unit::Fahrenheit, Unit::Celsius),
    (Unit::FootPound, Unit::NewtonMetre),
];

/// Metric units nobody is shown a US quantity in, with what a US reader is shown for them.
const METRIC_ONLY: [(Unit, Unit); 5] = [
    (Unit::Newton, Unit::PoundForce),
    (Unit::Millimetre, Unit::Inch),
    (Unit::Tonne, Unit::Pound),
    (Unit::Bar, Unit::Psi),
    (Unit::MetrePerSecondSquared, Unit::FootPerSecondSquared),
];

/// Digits behind the point of what is in the reader's own system already.
const AS_GIVEN: usize = 3;

/// Most digits behind the point of what is converted.
const MOST_PLACES: usize = 4;

impl Units {
    /// Each system with its word.
    pub const WORDS: [(&'static str, Self); 2] = [("us", Self::Us), ("metric", Self::Metric)];

    /// The word used in settings.
    pub fn word(self) -> &'static str {
        match self {
            Self::Us => "us",
            Self::Metric => "metric",
        }
    }

    /// The unit a checklist's unit becomes beside a field. Lists are written in US units.
    #[must_use]
    pub fn unit_for(self, unit: Unit) -> Unit {
        match self {
            Self::Us => unit,
            Self::Metric => partner(unit, PAIRS.into_iter()),
        }
    }

    /// A quantity as a person of this system reads it: `448 kPa (65 psi)`.
    ///
    /// It is converted exactly, then rounded to whole units, inches and centimetres to tenths, and
    /// a small value as far as two digits need; as it was given it stands behind in brackets.
    pub fn shown(self, quantity: &Quantity) -> String {
        let given = quantity.shown(AS_GIVEN);
        let own = self.own(quantity.unit);
        if own == quantity.unit {
            return given;
        }
        match quantity.in_unit(own) {
            Some(converted) => format!("{} ({given})", converted.shown(places(&converted))),
            None => given,
        }
    }

    /// The unit of this system that is read where this one stands.
    fn own(self, unit: Unit) -> Unit {
        match self {
            Self::Us => {
                let turned = PAIRS.into_iter().map(|(us, metric)| (metric, us));
                partner(unit, turned.chain(METRIC_ONLY))
            }
            Self::Metric => partner(unit, PAIRS.into_iter()),
        }
    }
}

/// What stands beside a unit in a list of pairs; itself where it stands in none.
fn partner(unit: Unit, mut pairs: impl Iterator<Item = (Unit, Unit)>) -> Unit {
    pairs
        .find(|(from, _)| *from == unit)
        .map_or(unit, |(_, to)| to)
}

/// Digits behind the point that a person reads.
fn places(quantity: &Quantity) -> usize {
    let usual = match quantity.unit {
        Unit::Inch | Unit::Centimetre => 1,
        _ => 0,
    };
    // A temperature has its nought somewhere on the scale: one degree is no small temperature.
    if quantity.dimension() == Dimension::Temperature {
        return usual;
    }
    let ten = Exact::whole(10);
    let shifted = |places| (0..places).fold(quantity.value.magnitude(), |value, _| &value * &ten);
    let enough = |places: &usize| quantity.value.is_zero() || shifted(*places) >= ten;
    (usual..MOST_PLACES).find(enough).unwrap_or(MOST_PLACES)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::parse_quantity;

    #[track_caller]
    fn check(typed: &str, dimension: Dimension, us: &str, metric: &str) {
        let quantity = parse_quantity(typed, dimension).unwrap();
        let shown = (Units::Us.shown(&quantity), Units::Metric.shown(&quantity));
        assert_eq!(shown, (us.to_owned(), metric.to_owned()), "{typed}");
    }

    #[test]
    fn a_quantity_is_shown_as_its_reader_reads_it_with_what_was_given_in_brackets() {
        use Dimension::{
            Count, Deceleration, Force, Length, Mass, Pressure, Share, Speed, SpringRate,
            Temperature, Torque, Voltage,
        };
        for (typed, dimension, us, metric) in [
            ("65 psi", Pressure, "65 psi", "448 kPa (65 psi)"),
            ("61.75 psi", Pressure, "61.75 psi", "426 kPa (61.75 psi)"),
            ("4.5 bar", Pressure, "65 psi (4.5 bar)", "4.5 bar"),
            ("450 kPa", Pressure, "65 psi (450 kPa)", "450 kPa"),
            ("1 psi", Pressure, "1 psi", "6.9 kPa (1 psi)"),
            ("14 in", Length, "14 in", "35.6 cm (14 in)"),
            ("0.1 in", Length, "0.1 in", "0.25 cm (0.1 in)"),
            ("2-5/16 in", Length, "2.313 in", "5.9 cm (2.313 in)"),
            ("0.005 in", Length, "0.005 in", "0.013 cm (0.005 in)"),
            ("46 cm", Length, "18.1 in (46 cm)", "46 cm"),
            ("50 mm", Length, "2 in (50 mm)", "50 mm"),
            ("1.6 mm", Length, "0.063 in (1.6 mm)", "1.6 mm"),
            ("20 ft", Length, "20 ft", "6.1 m (20 ft)"),
            ("25 mi", Length, "25 mi", "40 km (25 mi)"),
            ("48210 mi", Length, "48210 mi", "77586 km (48210 mi)"),
            ("80 km", Length, "50 mi (80 km)", "80 km"),
            ("7000 lb", Mass, "7000 lb", "3175 kg (7000 lb)"),
            ("3175 kg", Mass, "7000 lb (3175 kg)", "3175 kg"),
            ("3.5 t", Mass, "7716 lb (3.5 t)", "3.5 t"),
            ("26400 lb", Force, "26400 lb", "117 kN (26400 lb)"),
            ("100 ft-lb", Torque, "100 ft-lb", "136 N·m (100 ft-lb)"),
            ("150 N·m", Torque, "111 ft-lb (150 N·m)", "150 N·m"),
            ("98 F", Temperature, "98 F", "37 C (98 F)"),
            ("33 F", Temperature, "33 F", "1 C (33 F)"),
            ("-4 C", Temperature, "25 F (-4 C)", "-4 C"),
            ("5 mph", Speed, "5 mph", "8 km/h (5 mph)"),
            (
                "1500 lb/in",
                SpringRate,
                "1500 lb/in",
                "263 N/mm (1500 lb/in)",
            ),
            ("1 m/s2", Deceleration, "3.3 ft/s2 (1 m/s2)", "1 m/s2"),
            ("12.6 V", Voltage, "12.6 V", "12.6 V"),
            ("13 %", Share, "13 %", "13 %"),
            ("4", Count, "4", "4"),
            ("0 lb", Mass, "0 lb", "0 kg (0 lb)"),
        ] {
            check(typed, dimension, us, metric);
        }
    }

    #[test]
    fn beside_a_field_stands_the_unit_of_the_barns_system() {
        for (unit, metric) in [
            (Unit::Psi, Unit::Kilopascal),
            (Unit::Inch, Unit::Centimetre),
            (Unit::Pound, Unit::Kilogram),
            (Unit::FootPound, Unit::NewtonMetre),
            (Unit::Fahrenheit, Unit::Celsius),
            (Unit::Mile, Unit::Kilometre),
            (Unit::MilePerHour, Unit::KilometrePerHour),
            (Unit::Volt, Unit::Volt),
            (Unit::Millimetre, Unit::Millimetre),
        ] {
            assert_eq!(Units::Metric.unit_for(unit), metric);
            assert_eq!(Units::Us.unit_for(unit), unit);
        }
    }

    #[test]
    fn every_pair_measures_one_thing() {
        for (one, other) in PAIRS.into_iter().chain(METRIC_ONLY) {
            assert_eq!(one.dimension(), other.dimension());
        }
    }
}
