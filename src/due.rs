//! What is due for a rig by date, distance or event, and why: services, wheel nuts after a wheel
//! was off, tires by their age, instruments by their calibration, papers by their last day.
//!
//! Nothing here looks at a clock: the day and the odometer come in as values, and so does what
//! walks have served. What nobody knows is told as not known, never taken as done.

mod day;
mod history;
mod interval;
mod nuts;
mod odometer;
mod paper;
mod service;
mod soon;
mod text;
mod tire;
mod tool;

pub use day::Day;
pub use interval::{Every, usual};
pub use odometer::{Odometer, OdometerRead, Whence, reckoned};
pub use text::lines;

use crate::barn::TireYears;
use crate::rig::{Rig, ServiceKind};
use crate::rules::{Basis, Verdict};
use crate::units::Quantity;
use chrono::NaiveDate;
use std::cmp::Reverse;

/// One thing that is due, or will be.
#[derive(Clone, Debug, PartialEq)]
pub struct Due {
    /// What it is: `wheel bearings`.
    pub what: String,
    /// Which one of them, where there are several: `spare`, or a horse's name.
    pub of: Option<String>,
    /// What it means for going on: ok while there is time, note when it is near or not known.
    pub verdict: Verdict,
    /// When it is due.
    pub when: When,
    /// What that follows from, in a sentence or several.
    pub why: String,
    /// Whose interval or limit it is.
    pub basis: Basis,
    /// What lifts a stop, as a sentence or several.
    pub way_out: Option<&'static str>,
}

/// What the walks of a rig tell of it.
#[derive(Clone, Copy, Debug, Default)]
pub struct Walked<'a> {
    /// The services they have done.
    pub done: &'a [Done],
    /// The newest odometer they have read.
    pub odometer: Option<&'a OdometerRead>,
}

/// When something is due; what is not known is empty.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct When {
    /// The last day it is in time.
    pub date: Option<NaiveDate>,
    /// How many days are left to it; below 0 when it is past.
    pub days: Option<i64>,
    /// Whether they are counted from a day that is past.
    pub from_past: bool,
    /// The odometer up to which it is in time.
    pub odometer: Option<Quantity>,
    /// How far it is to that; below 0 when it is past.
    pub left: Option<Quantity>,
}

/// A service that a walk has done.
#[derive(Clone, Debug, PartialEq)]
pub struct Done {
    /// What was serviced.
    pub what: ServiceKind,
    /// Which part, by the id a repeated step gives it, or an instrument by its own.
    pub item: Option<String>,
    /// The day.
    pub on: NaiveDate,
    /// The truck's odometer, where that walk read it.
    pub odometer: Option<Quantity>,
    /// Who answered the step.
    pub by: String,
    /// The trip it stands in.
    pub trip: String,
}

/// Everything that is or will be due, the worst and soonest first.
pub fn due(rig: &Rig, day: NaiveDate, odometer: Option<&Quantity>, done: &[Done]) -> Vec<Due> {
    let walked = Walked {
        done,
        odometer: None,
    };
    due_by(TireYears::default(), rig, Day::Today(day), odometer, walked)
}

/// The same on any day, with tires held to the barn's own years.
pub fn due_by(
    years: TireYears,
    rig: &Rig,
    day: Day,
    odometer: Option<&Quantity>,
    walked: Walked<'_>,
) -> Vec<Due> {
    let rig = &*day.by_then(rig);
    let now = Now::of(rig, day, odometer, walked);
    let mut due = service::all(rig, &now, walked.done);
    due.extend(tool::all(rig, &now, walked.done));
    due.extend(nuts::all(
        rig,
        odometer.or(walked.odometer.map(|read| &read.shown)),
    ));
    due.extend(tire::all(rig, day, years));
    due.extend(paper::all(rig, day));
    due.sort_by_key(|one| {
        let days = one.when.days.unwrap_or(i64::MAX);
        (Reverse(one.verdict), days, one.when.left.is_none())
    });
    due
}

/// From which odometer the distance that is left is reckoned, where any is known.
pub fn odometer(
    rig: &Rig,
    day: Day,
    today: Option<&Quantity>,
    walked: Walked<'_>,
) -> Option<Odometer> {
    Odometer::of(&day.by_then(rig), today, walked)
}

/// The tires alone, by the dates on their sidewalls, as the rig file tells them.
pub fn tires(rig: &Rig, day: Day, years: TireYears) -> Vec<Due> {
    tire::all(rig, day, years)
}

/// The day and the odometer that things are held to.
#[derive(Clone, Debug)]
struct Now {
    day: Day,
    odometer: Option<Odometer>,
}

impl Now {
    fn of(rig: &Rig, day: Day, odometer: Option<&Quantity>, walked: Walked<'_>) -> Self {
        Self {
            day,
            odometer: Odometer::of(rig, odometer, walked),
        }
    }
}

impl When {
    /// By this date, as it is on this day.
    fn by(date: NaiveDate, day: Day) -> Self {
        Self {
            date: Some(date),
            days: Some(date.signed_duration_since(day.date()).num_days()),
            from_past: day.is_past(),
            ..Self::default()
        }
    }
}
