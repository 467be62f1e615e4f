//! The instruments a reading can be taken with, and how wrong each may be.

use crate::units::{Dimension, Exact, Quantity};
use chrono::NaiveDate;
use std::fmt;

/// A measuring tool kept with the rig.
#[derive(Clone, Debug, PartialEq)]
pub struct Instrument {
    /// Id in records, such as `gauge-100`.
    pub id: String,
    /// What people call it.
    pub name: String,
    /// What it is.
    pub kind: InstrumentKind,
    /// Lowest and highest value on its scale.
    pub span: Option<(Quantity, Quantity)>,
    /// How wrong it may be.
    pub error: ErrorRule,
    /// Smallest mark or digit.
    pub step: Quantity,
    /// When it was last calibrated, where it ever was.
    pub calibrated: Option<NaiveDate>,
}

/// What an instrument is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum InstrumentKind {
    /// A caliper.
    Caliper,
    /// The display of the brake controller in the cab.
    ControllerDisplay,
    /// A clock or a watch. A rig file may leave it out: everybody has one.
    Clock,
    /// A clamp meter.
    ClampMeter,
    /// Counting by eye.
    Count,
    /// A dial indicator, for play of thousandths.
    DialIndicator,
    /// A hygrometer, or the humidity of a weather report.
    Hygrometer,
    /// A multimeter.
    Multimeter,
    /// The truck's odometer. A rig file may leave it out: every truck has one.
    Odometer,
    /// A label, plate or stamp that is read. It says what it says, to the digit.
    Plate,
    /// A tire pressure gauge.
    PressureGauge,
    /// A weighbridge with its ticket, or a tongue scale.
    Scale,
    /// A stopwatch.
    Stopwatch,
    /// A tape or rule.
    Tape,
    /// A thermometer.
    Thermometer,
    /// A torque wrench that clicks at what it is set to.
    TorqueWrench,
    /// A gauge for the depth of a tread.
    TreadGauge,
}

impl InstrumentKind {
    /// Every kind with its word.
    pub const WORDS: [(&'static str, Self); 17] = [
        ("caliper", Self::Caliper),
        ("clamp-meter", Self::ClampMeter),
        ("clock", Self::Clock),
        ("controller-display", Self::ControllerDisplay),
        ("count", Self::Count),
        ("dial-indicator", Self::DialIndicator),
        ("hygrometer", Self::Hygrometer),
        ("multimeter", Self::Multimeter),
        ("odometer", Self::Odometer),
        ("plate", Self::Plate),
        ("pressure-gauge", Self::PressureGauge),
        ("scale", Self::Scale),
        ("stopwatch", Self::Stopwatch),
        ("tape", Self::Tape),
        ("thermometer", Self::Thermometer),
        ("torque-wrench", Self::TorqueWrench),
        ("tread-gauge", Self::TreadGauge),
    ];

    /// The word used in rig files, checklists and records.
    pub fn word(self) -> &'static str {
        Self::WORDS
            .iter()
            .find(|(_, kind)| *kind == self)
            .map_or("", |(word, _)| word)
    }

    /// What it can measure, the usual first.
    pub fn measures(self) -> &'static [Dimension] {
        match self {
            Self::Caliper
            | Self::DialIndicator
            | Self::Odometer
            | Self::Tape
            | Self::TreadGauge => &[Dimension::Length],
            Self::ControllerDisplay => &[Dimension::Voltage, Dimension::Current, Dimension::Share],
            Self::ClampMeter => &[Dimension::Current],
            Self::Count => &[Dimension::Count],
            Self::Hygrometer => &[Dimension::Share],
            Self::Multimeter => &[Dimension::Voltage, Dimension::Current],
            Self::PressureGauge => &[Dimension::Pressure],
            Self::Plate | Self::Scale => &[Dimension::Mass],
            Self::Clock | Self::Stopwatch => &[Dimension::Time],
            Self::Thermometer => &[Dimension::Temperature],
            Self::TorqueWrench => &[Dimension::Torque],
        }
    }
}

/// How wrong an instrument may be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ErrorRule {
    /// By the accuracy grade on the dial: a share of the span that depends on where on it.
    Grade(GaugeGrade),
    /// A share of the reading, such as 4 % for a torque wrench (1 is the whole).
    OfReading(Exact),
    /// The same amount everywhere.
    Fixed(Quantity),
}

impl fmt::Display for ErrorRule {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Grade(grade) => {
                let known = GaugeGrade::WORDS.iter().find(|(_, one)| one == grade);
                write!(f, "grade {}", known.map_or("", |(word, _)| word))
            }
            Self::OfReading(share) => {
                write!(f, "{} % of the reading", share * &Exact::whole(100))
            }
            Self::Fixed(error) => error.fmt(f),
        }
    }
}

/// Accuracy grades of dial gauges by ASME B40.100.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GaugeGrade {
    /// 2 % of span at the ends, 1 % in the middle half.
    A,
    /// 3 % of span at the ends, 2 % in the middle half.
    B,
    /// 1 % of span everywhere.
    OneA,
}

impl GaugeGrade {
    /// Every grade with the mark on the dial.
    pub const WORDS: [(&'static str, Self); 3] =
        [("A", Self::A), ("B", Self::B), ("1A", Self::OneA)];
}
