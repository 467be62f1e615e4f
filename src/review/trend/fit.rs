//! What can be told of a series: its slope with its interval, and when it comes to its limit.

use crate::mechanics::trends::{
    self, Course, LimitDay, LineRead, ReadOn, Slope, is_enough, limit_day, median, theil_sen,
};
use crate::review::trend::{Comes, Crossing, Kind, NoTrend, Point, Said, Series, Trend, normal};
use crate::units::Quantity;
use chrono::{DateTime, Days, FixedOffset, NaiveDate};
use std::collections::{BTreeMap, BTreeSet};

/// A slope, with the points it rests on.
#[derive(Clone, Copy, Debug)]
pub(super) struct Fit {
    pub(super) slope: Slope,
    pub(super) readings: usize,
}

/// A point as physics reckons with it: its day from the first of the series, and its value.
pub(super) fn place(series: &Series, point: &Point) -> Option<ReadOn> {
    Some(ReadOn {
        day: days(series.points.first()?.at, point.at)?,
        value: normal::number(&point.value, series.kind.unit())?,
    })
}

/// The points a slope is told by: of a battery those since it was changed.
pub(super) fn counted(series: &Series) -> impl Iterator<Item = &Point> {
    let newest = series.points.last().map(|point| point.stretch);
    let anew = series.kind.begins_anew();
    let points = series.points.iter();
    points.filter(move |point| !anew || Some(point.stretch) == newest)
}

/// The slope of a series, where one can be told or nearly so.
pub(super) fn fit(series: &Series) -> Option<Fit> {
    if series.kind == Kind::TorqueLoss {
        return None;
    }
    let stretches = stretches(series);
    let days = stretches.iter().map(|stretch| {
        let days = stretch.iter().map(|read| read.day.to_bits());
        days.collect::<BTreeSet<u64>>().len()
    });
    if !is_enough(days) {
        return None;
    }
    let readings = stretches.iter().map(Vec::len).sum();
    let slope = theil_sen(&LineRead { stretches }).ok()?;
    Some(Fit { slope, readings })
}

/// What can be told by this slope.
pub(super) fn said(series: &Series, fit: Option<&Fit>) -> Said {
    if series.kind == Kind::TorqueLoss {
        return Said::NoLine;
    }
    let readings = counted(series).count();
    let Some(fit) = fit else {
        return Said::NoTrend(NoTrend::TooFew { readings });
    };
    if !fit.slope.moves {
        return Said::NoTrend(NoTrend::EitherWay { readings });
    }
    trend(series, fit).map_or(Said::NoTrend(NoTrend::TooFew { readings }), Said::Trend)
}

/// A slope in the span of time it is told in.
pub(super) fn told(kind: Kind, a_day: f64) -> Option<Quantity> {
    normal::nearest(a_day * kind.per().days(), kind.slope_step(), kind.unit())
}

/// Where the line of a slope stands on a day, through the middle of these points.
pub(super) fn level(points: &[ReadOn], slope: f64, day: f64) -> Option<f64> {
    let levels = points
        .iter()
        .map(|read| read.value - slope * (read.day - day));
    median(levels)
}

/// The points of each stretch.
pub(super) fn stretches(series: &Series) -> Vec<Vec<ReadOn>> {
    let mut stretches: BTreeMap<usize, Vec<ReadOn>> = BTreeMap::new();
    for point in counted(series) {
        if let Some(read) = place(series, point) {
            stretches.entry(point.stretch).or_default().push(read);
        }
    }
    stretches.into_values().collect()
}

fn trend(series: &Series, fit: &Fit) -> Option<Trend> {
    let kind = series.kind;
    let newest = series.points.last()?;
    let day = place(series, newest)?.day;
    let level = level(stretches(series).last()?, fit.slope.slope_a_day, day)?;
    let limit = series.limit.as_ref();
    let limit = limit.and_then(|limit| normal::number(&limit.at, kind.unit()));
    let crossing = limit.and_then(|limit| {
        let comes = limit_day(&Course {
            level,
            limit,
            bad: kind.bad(),
            slope_a_day: fit.slope.slope_a_day,
            low_a_day: fit.slope.low_a_day,
            high_a_day: fit.slope.high_a_day,
        });
        Crossing::of(comes.ok()?, newest.at.date_naive())
    });
    Some(Trend {
        readings: fit.readings,
        slope: told(kind, fit.slope.slope_a_day)?,
        low: told(kind, fit.slope.low_a_day)?,
        high: told(kind, fit.slope.high_a_day)?,
        level: normal::nearest(level, kind.step(), kind.unit())?,
        crossing,
        by: fit.slope,
    })
}

impl Crossing {
    /// As days of the calendar; nothing where it never comes there.
    fn of(days: LimitDay, from: NaiveDate) -> Option<Self> {
        let day = |days: Option<f64>| {
            let whole = format!("{:.0}", days?);
            from.checked_add_days(Days::new(whole.parse().ok()?))
        };
        let comes = match days.comes {
            trends::Comes::Already => Comes::Already,
            trends::Comes::Surely => Comes::Surely,
            trends::Comes::Perhaps => Comes::Perhaps,
            trends::Comes::Never => return None,
        };
        Some(Self {
            comes,
            soonest: day(days.soonest_days),
            likely: day(days.likely_days),
            latest: day(days.latest_days),
        })
    }
}

/// Days of the calendar from one time to another, each by its own clock. Two readings of one day
/// differ by what is wrong with them and by nothing else, and tell no slope.
fn days(from: DateTime<FixedOffset>, to: DateTime<FixedOffset>) -> Option<f64> {
    let days = to.date_naive().signed_duration_since(from.date_naive());
    Some(f64::from(i32::try_from(days.num_days()).ok()?))
}
