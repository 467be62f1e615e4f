//! How finely a reckoned figure is known. Nothing is shown finer, and a limit is rounded to its
//! strict side.

use crate::figures::Lacking;
use crate::units::{Exact, Quantity, Unit};

/// The finest step of a figure, in its unit.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Fineness {
    unit: Unit,
    step: (i128, i128),
}

impl Fineness {
    /// Loads: small angles alone leave out up to 24 lb an axle.
    pub(crate) const TEN_POUNDS: Self = Self::new(Unit::Pound, (10, 1));
    /// Heights and lengths.
    pub(crate) const TENTH_INCH: Self = Self::new(Unit::Inch, (1, 10));
    /// Angles.
    pub(crate) const TENTH_DEGREE: Self = Self::new(Unit::Degree, (1, 10));
    /// Shares of a load: ten pounds of two thousand.
    pub(crate) const HALF_PERCENT: Self = Self::new(Unit::Percent, (1, 2));
    /// Shares of what a scale shows.
    pub(crate) const TENTH_PERCENT: Self = Self::new(Unit::Percent, (1, 10));
    /// Loads by height: ten pounds over an inch.
    pub(crate) const TEN_POUNDS_AN_INCH: Self = Self::new(Unit::PoundPerInch, (10, 1));

    pub(crate) const fn new(unit: Unit, step: (i128, i128)) -> Self {
        Self { unit, step }
    }

    /// To the nearest step.
    pub(crate) fn nearest(self, value: f64) -> Result<Quantity, Lacking> {
        self.stepped(value, Exact::nearest)
    }

    /// Down to a step: a limit from above.
    pub(crate) fn down(self, value: f64) -> Result<Quantity, Lacking> {
        self.stepped(value, Exact::floor)
    }

    /// Up to a step: a load that is held against a limit.
    pub(crate) fn up(self, value: f64) -> Result<Quantity, Lacking> {
        self.stepped(value, Exact::ceiling)
    }

    fn stepped(
        self,
        value: f64,
        to_step: fn(f64, &Exact) -> Option<Exact>,
    ) -> Result<Quantity, Lacking> {
        let (upper, lower) = self.step;
        Exact::ratio(upper, lower)
            .and_then(|step| to_step(value, &step))
            .map(|value| Quantity::new(value, self.unit))
            .ok_or_else(|| Lacking::NoNumber("it comes to no number with this rig".to_owned()))
    }
}
