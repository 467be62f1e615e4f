//! How far one key moves a value.

use crate::units::{Exact, Unit};

/// Which way a value is stepped, or a choice made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Toward {
    /// Less, or the choice before.
    Less,
    /// More, or the choice behind.
    More,
}

/// How fine a step is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Grain {
    /// What is set by hand: a drawbar, a bale.
    Fine,
    /// What is large: a horse, a place along the trailer.
    Coarse,
}

/// One step of a value in this unit: round numbers in every unit, as a hand would choose them.
pub(super) fn step(unit: Unit, grain: Grain) -> Exact {
    let (fine, coarse) = match unit {
        Unit::Inch => ((1, 2), (6, 1)),
        Unit::Foot => ((1, 12), (1, 2)),
        Unit::Centimetre => ((1, 1), (15, 1)),
        Unit::Millimetre => ((10, 1), (150, 1)),
        Unit::Metre => ((1, 100), (15, 100)),
        Unit::Pound => ((10, 1), (50, 1)),
        Unit::Kilogram => ((5, 1), (25, 1)),
        Unit::Tonne => ((1, 100), (1, 20)),
        Unit::Bar => ((1, 5), (1, 2)),
        Unit::Kilopascal => ((20, 1), (50, 1)),
        Unit::Fahrenheit | Unit::Psi => ((5, 1), (10, 1)),
        Unit::Celsius => ((3, 1), (5, 1)),
        _ => ((1, 1), (10, 1)),
    };
    let (upper, lower) = match grain {
        Grain::Fine => fine,
        Grain::Coarse => coarse,
    };
    Exact::ratio(upper, lower).unwrap_or_else(|| Exact::whole(1))
}
