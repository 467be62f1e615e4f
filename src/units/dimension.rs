//! What kind of thing a number measures.

use crate::units::Unit;

/// A kind of quantity the program can hold, compare and show.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Dimension {
    /// A plane angle.
    Angle,
    /// Electric charge a battery holds.
    Charge,
    /// A number of things, such as chocks.
    Count,
    /// Electric current.
    Current,
    /// How fast speed is lost or won; one g is what falls.
    Deceleration,
    /// A force, such as the breaking strength of a chain.
    Force,
    /// A length, a height or a distance driven.
    Length,
    /// A mass, told by the trade as a weight.
    Mass,
    /// A pressure above the air around, as a gauge shows it.
    Pressure,
    /// A share of something else, in percent.
    Share,
    /// Road speed.
    Speed,
    /// How much force an axle's springs take for a length of travel.
    SpringRate,
    /// A temperature on a scale, not a difference of two.
    Temperature,
    /// A span of time.
    Time,
    /// Electric tension.
    Voltage,
    /// A turning moment, as a wrench shows it.
    Torque,
}

impl Dimension {
    /// The word used in checklists and sentences.
    pub fn word(self) -> &'static str {
        match self {
            Self::Angle => "angle",
            Self::Charge => "charge",
            Self::Count => "count",
            Self::Current => "current",
            Self::Deceleration => "deceleration",
            Self::Force => "force",
            Self::Length => "length",
            Self::Mass => "weight",
            Self::Pressure => "pressure",
            Self::Share => "share",
            Self::Speed => "speed",
            Self::SpringRate => "spring rate",
            Self::Temperature => "temperature",
            Self::Time => "time",
            Self::Voltage => "voltage",
            Self::Torque => "torque",
        }
    }

    /// An example in the form a person types it.
    pub fn example(self) -> &'static str {
        match self {
            Self::Angle => "0.5 deg",
            Self::Charge => "9 Ah",
            Self::Count => "4",
            Self::Current => "12.8 A",
            Self::Deceleration => "0.1 g",
            Self::Force => "26400 lb or 117 kN",
            Self::Length => "18 1/4 in or 46 cm",
            Self::Mass => "7000 lb or 3175 kg",
            Self::Pressure => "65 psi or 4.5 bar",
            Self::Share => "13 %",
            Self::Speed => "5 mph",
            Self::SpringRate => "1500 lb/in or 263 N/mm",
            Self::Temperature => "98 F or 37 C",
            Self::Time => "2.1 s",
            Self::Voltage => "12.6 V",
            Self::Torque => "100 ft-lb or 136 N·m",
        }
    }

    /// The dimension a checklist names by its word.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL
            .into_iter()
            .find(|dimension| dimension.word() == word)
    }

    /// The units a person may type for this dimension, the usual one first.
    pub fn units(self) -> impl Iterator<Item = Unit> {
        Unit::ALL
            .into_iter()
            .filter(move |unit| unit.dimension() == self)
    }

    /// Every dimension, by word.
    pub const ALL: [Self; 16] = [
        Self::Angle,
        Self::Charge,
        Self::Count,
        Self::Current,
        Self::Deceleration,
        Self::Force,
        Self::Length,
        Self::Mass,
        Self::Pressure,
        Self::Share,
        Self::Speed,
        Self::SpringRate,
        Self::Temperature,
        Self::Time,
        Self::Torque,
        Self::Voltage,
    ];
}
