//! The day that things are held to: today, or one that is past.

use crate::rig::Rig;
use chrono::NaiveDate;
use std::borrow::Cow;

/// The day that things are held to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Day {
    /// Today by the clock, or a day to come: what is dated later was mistyped, or the clock is
    /// wrong.
    Today(NaiveDate),
    /// A day that is past: what is dated later was not done yet.
    Past(NaiveDate),
}

impl Day {
    /// The day itself.
    pub const fn date(self) -> NaiveDate {
        match self {
            Self::Today(day) | Self::Past(day) => day,
        }
    }

    /// Whether it is past.
    pub const fn is_past(self) -> bool {
        matches!(self, Self::Past(_))
    }

    /// The rig file without what was not done yet.
    pub(super) fn by_then(self, rig: &Rig) -> Cow<'_, Rig> {
        let Self::Past(day) = self else {
            return Cow::Borrowed(rig);
        };
        let mut rig = rig.clone();
        for service in &mut rig.services {
            service.last.take_if(|last| last.on > day);
        }
        for tool in &mut rig.instruments {
            tool.calibrated.take_if(|on| *on > day);
        }
        Cow::Owned(rig)
    }
}
