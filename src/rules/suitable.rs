//! Whether an instrument suits the value it is to measure.
//!
//! A dial gauge is most accurate in the middle half of its span (ASME B40.100 grades), so the
//! value aimed at must lie between a quarter and three quarters of it: common practice, no source.
//! A torque wrench is used from 20 % to 100 % of its maximum, or from its lowest marked value
//! where that is stated (ISO 6789-1:2017, 5.1.3; the 20 % from ISO 6789:2003 practice).

use crate::rig::{Instrument, InstrumentKind};
use crate::units::{Dimension, Exact, Quantity};
use std::fmt;

/// Why an instrument is refused for a step.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unsuitable {
    /// It measures something else.
    OtherKind {
        /// The instrument's name.
        name: String,
        /// What it is.
        is: InstrumentKind,
        /// What the step asks for.
        wanted: InstrumentKind,
    },
    /// Its scale is in another dimension: a multimeter set to volts, for a current.
    OtherScale {
        /// The instrument's name.
        name: String,
        /// What its scale measures.
        scale: Dimension,
        /// What the step measures.
        wanted: Dimension,
    },
    /// The value aimed at lies where this instrument is not to be trusted.
    OutsideRange {
        /// The instrument's name.
        name: String,
        /// The value aimed at, where it may be told.
        value: Option<Quantity>,
        /// Lowest value it is good for.
        low: Quantity,
        /// Highest value it is good for.
        high: Quantity,
    },
}

/// Whether this instrument may be used for a step that asks for a `dimension` measured with
/// `wanted` and aims at `target`.
///
/// # Errors
/// [`Unsuitable`] with the range it is good for.
pub fn suits(
    instrument: &Instrument,
    wanted: InstrumentKind,
    dimension: Dimension,
    target: Option<&Quantity>,
) -> Result<(), Unsuitable> {
    if instrument.kind != wanted {
        return Err(Unsuitable::OtherKind {
            name: instrument.name.clone(),
            is: instrument.kind,
            wanted,
        });
    }
    let scale = instrument.step.dimension();
    if scale != dimension {
        return Err(Unsuitable::OtherScale {
            name: instrument.name.clone(),
            scale,
            wanted: dimension,
        });
    }
    let (Some((low, high)), Some(value)) = (usable(instrument), target) else {
        return Ok(());
    };
    if value.within(&low, &high) {
        return Ok(());
    }
    Err(Unsuitable::OutsideRange {
        name: instrument.name.clone(),
        value: Some(value.clone()),
        low,
        high,
    })
}

/// Where readings are taken with an instrument: on its scale, since a gauge cannot show more, and
/// with a wrench only where it is trusted.
pub fn scale(instrument: &Instrument) -> Option<(Quantity, Quantity)> {
    match instrument.kind {
        InstrumentKind::TorqueWrench => usable(instrument),
        _ => instrument.span.clone(),
    }
}

/// The part of its span an instrument is trusted in.
pub fn usable(instrument: &Instrument) -> Option<(Quantity, Quantity)> {
    let (low, high) = instrument.span.as_ref()?;
    let low = low.in_unit(high.unit)?;
    let part = |numerator, denominator| Exact::ratio(numerator, denominator);
    let at = |share: Exact| {
        let span = &high.value - &low.value;
        Quantity::new(&low.value + &(&span * &share), high.unit)
    };
    match instrument.kind {
        InstrumentKind::PressureGauge => Some((at(part(1, 4)?), at(part(3, 4)?))),
        InstrumentKind::TorqueWrench if low.value.is_zero() => {
            Some((at(part(1, 5)?), high.clone()))
        }
        _ => Some((low, high.clone())),
    }
}

impl Unsuitable {
    /// The same without the value aimed at, for a step answered blind.
    #[must_use]
    pub fn blind(mut self) -> Self {
        if let Self::OutsideRange { value, .. } = &mut self {
            *value = None;
        }
        self
    }

    /// Why, in a few words behind the instrument's name.
    pub fn reason(&self) -> String {
        match self {
            Self::OtherKind { is, wanted, .. } => {
                format!("a {}; this step needs a {}", is.word(), wanted.word())
            }
            Self::OtherScale { scale, wanted, .. } => {
                format!(
                    "its scale is a {}; this step measures a {}",
                    scale.word(),
                    wanted.word()
                )
            }
            Self::OutsideRange {
                value, low, high, ..
            } => match value {
                Some(value) => {
                    format!("trusted from {low} to {high}; this step is about {value}")
                }
                None => format!("trusted from {low} to {high}; this step lies outside"),
            },
        }
    }
}

impl fmt::Display for Unsuitable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OtherKind { name, is, wanted } => write!(
                f,
                "{name} is a {}; this step is measured with a {}. Choose another instrument.",
                is.word(),
                wanted.word()
            ),
            Self::OtherScale {
                name,
                scale,
                wanted,
            } => write!(
                f,
                "the scale of {name} is a {}, and this step measures a {}. \
                 Choose another instrument.",
                scale.word(),
                wanted.word()
            ),
            Self::OutsideRange {
                name,
                value,
                low,
                high,
            } => write!(
                f,
                "{name} is trusted from {low} to {high}, and this step {}. \
                 Choose an instrument whose range holds it.",
                match value {
                    Some(value) => format!("is about {value}"),
                    None => "lies outside".to_owned(),
                }
            ),
        }
    }
}
