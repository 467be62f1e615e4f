//! What is serviced by date or distance, and the papers that run out.

use crate::rig::Source;
use crate::units::Quantity;
use chrono::{Days, Months, NaiveDate};

/// One service of this rig: when it was last done, how often it is due, or both.
#[derive(Clone, Debug, PartialEq)]
pub struct Service {
    /// What is serviced.
    pub what: ServiceKind,
    /// When it was last done, as far as the file knows.
    pub last: Option<Served>,
    /// How often this rig's maker asks for it, where the file says so.
    pub every: Option<Interval>,
}

/// A service that was done.
#[derive(Clone, Debug, PartialEq)]
pub struct Served {
    /// The day.
    pub on: NaiveDate,
    /// The odometer of the truck that pulled the trailer then.
    pub odometer: Option<Quantity>,
}

/// How often a service is due: by time, by distance, or by whichever comes first. The reader sees
/// to it that at least one of the two is there.
#[derive(Clone, Debug, PartialEq)]
pub struct Interval {
    /// By time.
    pub time: Option<Span>,
    /// By distance.
    pub distance: Option<Quantity>,
    /// Who says so.
    pub source: Source,
}

/// A span of the calendar.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Span {
    /// So many days.
    Days(u32),
    /// So many months; from the 31st it ends on the last day of a shorter month.
    Months(u32),
}

impl Span {
    /// The day this long after another; nothing beyond the calendar.
    pub fn after(self, day: NaiveDate) -> Option<NaiveDate> {
        match self {
            Self::Days(days) => day.checked_add_days(Days::new(days.into())),
            Self::Months(months) => day.checked_add_months(Months::new(months)),
        }
    }
}

/// What is serviced.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum ServiceKind {
    /// Bearings cleaned, looked at and packed.
    WheelBearings,
    /// Brake shoes adjusted.
    BrakeAdjustment,
    /// Linings, drums and magnets looked at.
    BrakeInspection,
    /// Floor looked at from both sides, mats out.
    Floor,
    /// Frame, cross-members and welds looked at.
    Frame,
    /// Tires looked at by date, tread and wall.
    Tires,
    /// Breakaway battery charged and tried under load.
    BreakawayBattery,
    /// Lamps, ground and connector tried.
    Wiring,
    /// Coupler, latch and jack looked at.
    Coupler,
    /// Doors, ramp, bars and partitions tried.
    Doors,
    /// Chains and hooks measured.
    Chains,
    /// Kit and extinguisher looked through.
    EmergencyKit,
    /// Torque wrench calibrated.
    TorqueWrench,
    /// Pressure gauge calibrated.
    PressureGauge,
    /// Cold pressures read.
    TirePressure,
    /// Rig weighed as loaded.
    Weighing,
}

impl ServiceKind {
    /// Every kind with its word.
    pub const WORDS: [(&'static str, Self); 16] = [
        ("wheel-bearings", Self::WheelBearings),
        ("brake-adjustment", Self::BrakeAdjustment),
        ("brake-inspection", Self::BrakeInspection),
        ("floor", Self::Floor),
        ("frame", Self::Frame),
        ("tires", Self::Tires),
        ("breakaway-battery", Self::BreakawayBattery),
        ("wiring", Self::Wiring),
        ("coupler", Self::Coupler),
        ("doors", Self::Doors),
        ("chains", Self::Chains),
        ("emergency-kit", Self::EmergencyKit),
        ("torque-wrench", Self::TorqueWrench),
        ("pressure-gauge", Self::PressureGauge),
        ("tire-pressure", Self::TirePressure),
        ("weighing", Self::Weighing),
    ];

    /// The word used in rig files, checklists and records.
    pub fn word(self) -> &'static str {
        Self::WORDS
            .iter()
            .find(|(_, kind)| *kind == self)
            .map_or("", |(word, _)| word)
    }

    /// The name on screens: `wheel bearings`.
    pub fn name(self) -> String {
        self.word().replace('-', " ")
    }
}

/// A paper that runs out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Paper {
    /// What it is: `registration`.
    pub what: String,
    /// Whose it is: `trailer`, or a horse by its name.
    pub of: String,
    /// The last day it holds.
    pub until: NaiveDate,
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    #[test]
    fn a_month_after_the_31st_is_the_last_day_of_a_shorter_month() {
        for (from, span, to) in [
            ("2026-01-31", Span::Months(1), "2026-02-28"),
            ("2028-01-31", Span::Months(1), "2028-02-29"),
            ("2026-02-28", Span::Months(1), "2026-03-28"),
            ("2026-11-30", Span::Months(3), "2027-02-28"),
            ("2028-02-29", Span::Months(12), "2029-02-28"),
            ("2026-12-01", Span::Days(30), "2026-12-31"),
            ("2028-02-01", Span::Days(30), "2028-03-02"),
        ] {
            assert_eq!(span.after(day(from)), Some(day(to)), "{from} {span:?}");
        }
        assert_eq!(Span::Days(1).after(NaiveDate::MAX), None);
    }
}
