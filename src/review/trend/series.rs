//! A series: the points of one part, the limit it is held to, and what can be told of it.

use crate::due::{Day, Due};
use crate::mechanics::trends::Slope;
use crate::record::Id;
use crate::review::trend::{Ask, Kind, LimitLine};
use crate::units::Quantity;
use chrono::{DateTime, FixedOffset, NaiveDate};
use std::collections::BTreeMap;

/// What is told of one rig.
#[derive(Clone, Debug, PartialEq)]
pub struct RigTrends {
    /// The rig, by its id.
    pub rig: String,
    /// When its newest trip was walked.
    pub newest: DateTime<FixedOffset>,
    /// Every series, those with something to ask first.
    pub series: Vec<Series>,
    /// The day that the age of its tires is counted to.
    pub day: Day,
    /// How old its tires are on it.
    pub tires: Vec<Due>,
}

/// The readings of one part over time.
#[derive(Clone, Debug, PartialEq)]
pub struct Series {
    /// What is followed.
    pub kind: Kind,
    /// Of which part, by its id, where there are several.
    pub part: Option<String>,
    /// The points, the oldest first.
    pub points: Vec<Point>,
    /// The limit that most of its newest points were held to.
    pub limit: Option<LimitLine>,
    /// How many readings could not be made to compare, by why.
    pub left_out: BTreeMap<NotCompared, usize>,
    /// What can be told.
    pub said: Said,
    /// What somebody should look at.
    pub ask: Option<Ask>,
}

/// One point.
#[derive(Clone, Debug, PartialEq)]
pub struct Point {
    /// When the walk was.
    pub at: DateTime<FixedOffset>,
    /// The trip, to look at.
    pub trip: Id,
    /// The line of its journal.
    pub line: usize,
    /// What was read.
    pub read: Quantity,
    /// What it comes to, to compare.
    pub value: Quantity,
    /// The number of its stretch: where two differ, something was put right between them.
    pub stretch: usize,
    /// Nuts that were to settle, since the wheel had been off.
    pub after_off: bool,
}

/// Why a reading could not be made to compare.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum NotCompared {
    /// The air was not read in the same walk.
    NoAir,
    /// The tire was warm, on the way.
    Warm,
    /// No other hub was read on that walk.
    Alone,
    /// The formula has no number for it.
    NoNumber,
}

/// What can be told of a series.
#[derive(Clone, Debug, PartialEq)]
pub enum Said {
    /// It moves.
    Trend(Trend),
    /// Nothing can be told.
    NoTrend(NoTrend),
    /// It is no line: each loss of torque stands for itself.
    NoLine,
}

/// Why no trend can be told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoTrend {
    /// Too few readings.
    TooFew {
        /// How many.
        readings: usize,
    },
    /// It may rise as well as fall.
    EitherWay {
        /// From how many readings.
        readings: usize,
    },
}

/// How a series moves. It is never told without its interval.
#[derive(Clone, Debug, PartialEq)]
pub struct Trend {
    /// How many readings it rests on.
    pub readings: usize,
    /// The slope, in [`Kind::per`].
    pub slope: Quantity,
    /// Lower end of its interval of 95 %.
    pub low: Quantity,
    /// Upper end.
    pub high: Quantity,
    /// Where its line stands at the newest point.
    pub level: Quantity,
    /// When that line comes to the limit, where it goes that way.
    pub crossing: Option<Crossing>,
    /// The slope as it was reckoned, to draw by.
    pub(super) by: Slope,
}

/// How certain it is that a line comes to its limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Comes {
    /// It is there, or past it.
    Already,
    /// Each line of the slope's interval comes there.
    Surely,
    /// Some of them come there, others never.
    Perhaps,
}

/// When a line comes to its limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Crossing {
    /// How certain that is.
    pub comes: Comes,
    /// No sooner than this day.
    pub soonest: Option<NaiveDate>,
    /// On the line itself.
    pub likely: Option<NaiveDate>,
    /// By this day; nothing where it perhaps never comes there.
    pub latest: Option<NaiveDate>,
}

impl Comes {
    /// The word in JSON.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Already => "already",
            Self::Surely => "surely",
            Self::Perhaps => "perhaps",
        }
    }
}

impl Series {
    /// The name of the part: `left rear`.
    pub fn part_name(&self) -> Option<String> {
        self.part.as_ref().map(|part| part.replace('-', " "))
    }

    /// What it is called: `Trailer tire, left rear`.
    pub fn name(&self) -> String {
        match self.part_name() {
            Some(part) => format!("{}, {part}", self.kind.title()),
            None => self.kind.title().to_owned(),
        }
    }
}
