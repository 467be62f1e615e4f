//! A series made ready to be drawn, in whatever way: days and values as plain numbers.

use crate::mechanics::trends::{BadSide, ReadOn, Slope};
use crate::review::trend::{Said, Series, fit, normal};
use chrono::NaiveDate;

/// How far beyond the newest point a line is drawn on, as a share of all days, and at the least.
const AHEAD: f64 = 0.25;
const AHEAD_DAYS: f64 = 14.0;

/// Readings further off than so many times the middle half is wide stand at the edge: a point that
/// was forgotten in typing would else press all others flat. Tukey's outer fence.
const FENCE: f64 = 3.0;

/// Everything that is drawn, in days from the first point and in the unit of the kind.
#[derive(Clone, Debug, PartialEq)]
pub struct Plot {
    /// The day of the first point.
    pub first: NaiveDate,
    /// The points.
    pub dots: Vec<Dot>,
    /// The limit, a level line.
    pub limit: Option<f64>,
    /// The line of each stretch, where a slope is told.
    pub lines: Vec<Segment>,
    /// Where it goes if it goes on alike, where a slope is told.
    pub ahead: Option<Ahead>,
}

/// One point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dot {
    /// Days from the first point.
    pub day: f64,
    /// Its value.
    pub value: f64,
    /// Which stretch it is of.
    pub stretch: usize,
    /// Whether it lies beyond the limit.
    pub beyond: bool,
}

/// A piece of a line: two ends of a day and a value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Segment {
    /// The earlier end.
    pub from: (f64, f64),
    /// The later one.
    pub to: (f64, f64),
}

/// From the newest point on: the line, and the two ends of its interval. They begin at one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ahead {
    /// By the lower end of the slope's interval.
    pub low: Segment,
    /// By the slope.
    pub likely: Segment,
    /// By the upper end.
    pub high: Segment,
}

/// The days and values a drawing reaches over, from the first day on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// How many days.
    pub days: f64,
    /// The lowest value.
    pub low: f64,
    /// The highest.
    pub high: f64,
}

impl Plot {
    /// The frame that holds all but wild readings; nothing where there is none.
    pub fn frame(&self) -> Option<Frame> {
        let mut values: Vec<f64> = self.dots.iter().map(|dot| dot.value).collect();
        values.sort_unstable_by(f64::total_cmp);
        let at = |part: usize| {
            values
                .get(values.len().saturating_sub(1) * part / 4)
                .copied()
        };
        let (lower, upper) = (at(1)?, at(3)?);
        let fence = FENCE * (upper - lower);
        let is_near =
            |value: f64| fence <= 0.0 || (value >= lower - fence && value <= upper + fence);
        let near = values.iter().copied().filter(|value| is_near(*value));
        let ahead = self.ahead.iter();
        let ends = ahead.flat_map(|ahead| [ahead.low.to, ahead.likely.to, ahead.high.to]);
        let levels = near.chain(self.limit);
        let (low, high) = levels.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
            (low.min(value), high.max(value))
        });
        let last = self.dots.last()?.day;
        let days = ends.map(|(day, _)| day).fold(last.max(1.0), f64::max);
        // Not flat, even where all readings are alike.
        let room = ((high - low) * 0.05).max(f64::max(high.abs(), 1.0) * 0.001);
        Some(Frame {
            days,
            low: low - room,
            high: high + room,
        })
    }
}

impl Series {
    /// What there is to draw; nothing where there is no point.
    pub fn plot(&self) -> Option<Plot> {
        let limit = self.limit.as_ref();
        let limit = limit.and_then(|limit| normal::number(&limit.at, self.kind.unit()));
        let beyond = |value: f64| {
            limit.is_some_and(|limit| match self.kind.bad() {
                BadSide::Below => value < limit,
                BadSide::Above => value > limit,
            })
        };
        let dots = self.points.iter().filter_map(|point| {
            let ReadOn { day, value } = fit::place(self, point)?;
            Some(Dot {
                day,
                value,
                stretch: point.stretch,
                beyond: beyond(value),
            })
        });
        let slope = match &self.said {
            Said::Trend(trend) => Some(&trend.by),
            Said::NoTrend(_) | Said::NoLine => None,
        };
        Some(Plot {
            first: self.points.first()?.at.date_naive(),
            dots: dots.collect(),
            limit,
            lines: slope.map_or_else(Vec::new, |slope| self.lines(slope.slope_a_day)),
            ahead: slope.and_then(|slope| self.ahead(slope)),
        })
    }

    fn lines(&self, slope: f64) -> Vec<Segment> {
        let stretches = fit::stretches(self).into_iter();
        let lines = stretches.filter_map(|stretch| {
            let (first, last) = (stretch.first()?.day, stretch.last()?.day);
            let at = |day| Some((day, fit::level(&stretch, slope, day)?));
            Some(Segment {
                from: at(first)?,
                to: at(last)?,
            })
        });
        lines.collect()
    }

    fn ahead(&self, slope: &Slope) -> Option<Ahead> {
        let stretches = fit::stretches(self);
        let newest = stretches.last()?;
        let day = newest.last()?.day;
        let from = (day, fit::level(newest, slope.slope_a_day, day)?);
        let more = (day * AHEAD).max(AHEAD_DAYS);
        let to = |slope: f64| Segment {
            from,
            to: (day + more, from.1 + slope * more),
        };
        Some(Ahead {
            low: to(slope.low_a_day),
            likely: to(slope.slope_a_day),
            high: to(slope.high_a_day),
        })
    }
}
