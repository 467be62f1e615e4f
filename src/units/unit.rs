//! The units people type, each with its exact size.
//!
//! Sources: the yard and pound agreement of 1959 (1 in = 25.4 mm, 1 lb = 0.45359237 kg, both
//! exact) and the standard gravity of the third CGPM, 1901 (9.80665 m/s², exact), as tabled in
//! NIST SP 811 appendix B. From memory of that publication; the figures are definitions.

use crate::units::{Dimension, Exact};
use std::fmt;

macro_rules! units {
    ($( $name:ident, $dimension:ident, $symbol:literal, [$($alias:literal),*], $num:literal / $den:literal, $doc:literal; )*) => {
        /// A unit a reading can be given in.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum Unit { $( #[doc = $doc] $name, )* }

        impl Unit {
            /// Every unit; within a dimension the usual one of the trade comes first.
            pub const ALL: [Self; [$($symbol),*].len()] = [$( Self::$name ),*];

            /// What the unit measures.
            pub fn dimension(self) -> Dimension {
                match self { $( Self::$name => Dimension::$dimension, )* }
            }

            /// The symbol shown behind a number.
            pub fn symbol(self) -> &'static str {
                match self { $( Self::$name => $symbol, )* }
            }

            /// Other spellings taken when typed, lower case.
            pub(crate) fn aliases(self) -> &'static [&'static str] {
                match self { $( Self::$name => &[$($alias),*], )* }
            }

            /// The size of one unit in the dimension's base, as an exact fraction.
            fn fraction(self) -> (i128, i128) {
                match self { $( Self::$name => ($num, $den), )* }
            }
        }
    };
}

units! {
    Degree, Angle, "deg", ["degree", "degrees", "°"], 1 / 1, "Degree of arc.";
    AmpHour, Charge, "Ah", ["amp-hour", "amp-hours"], 1 / 1, "Ampere hour.";
    Piece, Count, "", ["pcs"], 1 / 1, "One of a number of things.";
    Ampere, Current, "A", ["amp", "amps"], 1 / 1, "Ampere.";
    Milliampere, Current, "mA", [], 1 / 1000, "Thousandth of an ampere.";
    StandardGravity, Deceleration, "g", [], 980_665 / 100_000, "Standard gravity.";
    FootPerSecondSquared, Deceleration, "ft/s2", ["ft/s²"], 3048 / 10_000, "Foot per second squared.";
    MetrePerSecondSquared, Deceleration, "m/s2", ["m/s²"], 1 / 1, "Metre per second squared.";
    PoundForce, Force, "lb", ["lbs", "lbf"], 44_482_216_152_605 / 10_000_000_000_000, "Pound-force.";
    Kilonewton, Force, "kN", [], 1000 / 1, "Thousand newtons.";
    Newton, Force, "N", [], 1 / 1, "Newton.";
    Inch, Length, "in", ["inch", "inches", "\"", "in."], 254 / 10_000, "Inch.";
    Foot, Length, "ft", ["foot", "feet", "'"], 3048 / 10_000, "Foot.";
    Centimetre, Length, "cm", [], 1 / 100, "Centimetre.";
    Millimetre, Length, "mm", [], 1 / 1000, "Millimetre.";
    Metre, Length, "m", [], 1 / 1, "Metre.";
    Mile, Length, "mi", ["mile", "miles"], 1_609_344 / 1000, "Statute mile.";
    Kilometre, Length, "km", [], 1000 / 1, "Kilometre.";
    Pound, Mass, "lb", ["lbs"], 45_359_237 / 100_000_000, "Avoirdupois pound.";
    Kilogram, Mass, "kg", [], 1 / 1, "Kilogram.";
    Tonne, Mass, "t", [], 1000 / 1, "Metric tonne.";
    Psi, Pressure, "psi", ["psig"], 44_482_216_152_605 / 6_451_600_000, "Pound-force per square inch.";
    Bar, Pressure, "bar", [], 100_000 / 1, "Bar.";
    Kilopascal, Pressure, "kPa", [], 1000 / 1, "Kilopascal.";
    Percent, Share, "%", ["percent"], 1 / 100, "One in a hundred.";
    MilePerHour, Speed, "mph", [], 44_704 / 100_000, "Mile per hour.";
    KilometrePerHour, Speed, "km/h", ["kmh", "kph"], 1000 / 3600, "Kilometre per hour.";
    PoundPerInch, SpringRate, "lb/in", ["lbf/in"], 44_482_216_152_605 / 254_000_000_000, "Pound-force per inch.";
    NewtonPerMillimetre, SpringRate, "N/mm", [], 1000 / 1, "Newton per millimetre.";
    Fahrenheit, Temperature, "F", ["°f", "degf"], 5 / 9, "Degree Fahrenheit.";
    Celsius, Temperature, "C", ["°c", "degc"], 1 / 1, "Degree Celsius.";
    Second, Time, "s", ["sec", "second", "seconds"], 1 / 1, "Second.";
    Minute, Time, "min", ["minute", "minutes"], 60 / 1, "Minute.";
    Hour, Time, "h", ["hr", "hour", "hours"], 3600 / 1, "Hour.";
    FootPound, Torque, "ft-lb", ["lb-ft", "ftlb", "lbft", "ft·lb", "lb·ft", "ft lb", "lb ft", "ft-lbs"],
        13_558_179_483_314_004 / 10_000_000_000_000_000, "Pound-force foot.";
    NewtonMetre, Torque, "N·m", ["nm", "n-m", "n m", "n.m", "n*m"], 1 / 1, "Newton metre.";
    Volt, Voltage, "V", ["volt", "volts"], 1 / 1, "Volt.";
    Millivolt, Voltage, "mV", [], 1 / 1000, "Thousandth of a volt.";
}

impl Unit {
    /// Its spellings, each as people write it, the symbol first. Any letter case is taken of most.
    pub fn spellings(self) -> impl Iterator<Item = &'static str> {
        let degrees: &[&str] = match self {
            Self::Fahrenheit => &["degF"],
            Self::Celsius => &["degC"],
            _ => &[],
        };
        let symbol = [self.symbol()].into_iter().filter(|text| !text.is_empty());
        symbol.chain(degrees.iter().chain(self.aliases()).copied())
    }

    /// The size of one unit in the base of its dimension.
    pub fn size(self) -> Exact {
        let (numerator, denominator) = self.fraction();
        Exact::ratio(numerator, denominator).unwrap_or_else(Exact::zero)
    }

    /// What is added to a value before its size is applied: only temperature scales start
    /// elsewhere than at nothing.
    pub(crate) fn offset(self) -> Exact {
        match self {
            Self::Fahrenheit => Exact::ratio(45_967, 100).unwrap_or_else(Exact::zero),
            Self::Celsius => Exact::ratio(27_315, 100).unwrap_or_else(Exact::zero),
            _ => Exact::zero(),
        }
    }

    /// The unit of `dimension` that `text` names, spelled any of the usual ways.
    ///
    /// Case is forgiven only where it cannot change the meaning: `mV` and `MV` differ.
    pub fn named(text: &str, dimension: Dimension) -> Option<Self> {
        let exact = dimension.units().find(|unit| unit.symbol() == text);
        let lower = text.to_lowercase();
        exact.or_else(|| {
            dimension.units().find(|unit| {
                let folds = !matches!(unit, Self::Millivolt | Self::Milliampere);
                (folds && unit.symbol().to_lowercase() == lower)
                    || unit.aliases().contains(&lower.as_str())
            })
        })
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.symbol())
    }
}
