//! How a series is put together of what was kept of each trip.

use crate::barn::TireYears;
use crate::due::{Day, tires};
use crate::mechanics::trends::MOST_READINGS;
use crate::review::trend::gather::{Kept, Track, Tracks, Which};
use crate::review::trend::stretch::{self, Breaks};
use crate::review::trend::{
    Ask, Kind, LimitLine, Point, RigTrends, Said, Series, fit, line, normal, question,
};
use chrono::{DateTime, Days, FixedOffset, NaiveDate};
use std::collections::BTreeMap;

/// The most points a slope is told by: so many that the newest alone tell it.
const MOST_POINTS: usize = 500;
const _: () = assert!(MOST_POINTS <= MOST_READINGS);

/// So many of the newest points say which limit is the usual one.
const NEWEST: usize = 9;

/// What is told of one rig.
pub(super) fn told(
    rig: &str,
    tracks: &Tracks,
    since: Option<NaiveDate>,
    years: TireYears,
    day: Day,
) -> RigTrends {
    let newest = tracks.newest.as_ref();
    let breaks = Breaks::of(tracks);
    let mut fitted: BTreeMap<Which, (Series, Option<fit::Fit>)> = BTreeMap::new();
    for (which, track) in &tracks.tracks {
        let mut series = Series::of(which, track, &breaks, since);
        if series.points.is_empty() && series.left_out.is_empty() {
            continue;
        }
        let fit = fit::fit(&series);
        series.said = fit::said(&series, fit.as_ref());
        fitted.insert(which.clone(), (series, fit));
    }
    let asks: Vec<Option<Ask>> = fitted
        .iter()
        .map(|(which, (series, fit))| {
            let others = fitted
                .iter()
                .filter(|(other, _)| other.0 == which.0 && other.1 != which.1);
            let others: Vec<&fit::Fit> = others.filter_map(|(_, (_, fit))| fit.as_ref()).collect();
            question::of(series, fit.as_ref(), &others)
        })
        .collect();
    let series = fitted.into_values().zip(asks);
    let mut series: Vec<Series> = series
        .map(|((series, _), ask)| Series { ask, ..series })
        .collect();
    series.sort_by_key(|one| one.ask.is_none());
    RigTrends {
        rig: rig.to_owned(),
        newest: newest.map(|(at, _)| *at).unwrap_or_default(),
        series,
        day,
        tires: newest.map_or_else(Vec::new, |(_, rig)| tires(rig, day, years)),
    }
}

impl Series {
    fn of((kind, part): &Which, track: &Track, breaks: &Breaks, since: Option<NaiveDate>) -> Self {
        let kept = stretch::in_order(track);
        let newest = kept.last();
        let back = kind.days().and_then(|days| u64::try_from(days).ok());
        let back = newest.zip(back).and_then(|(newest, days)| {
            let day = newest.at.date_naive();
            day.checked_sub_days(Days::new(days))
        });
        let from = since.or(back);
        let is_in = |at: &DateTime<FixedOffset>| from.is_none_or(|day| at.date_naive() >= day);
        let mut points = match kind {
            Kind::TorqueLoss => losses(&kept),
            _ => kept
                .iter()
                .map(|kept| Point::of(kept, breaks.stretch((*kind, part.as_deref()), kept)))
                .collect(),
        };
        points.retain(|point| is_in(&point.at));
        let more = points.len().saturating_sub(MOST_POINTS);
        points.drain(..more);
        let mut left_out = BTreeMap::new();
        for (_, why) in track.left_out.iter().filter(|(at, _)| is_in(at)) {
            *left_out.entry(*why).or_insert(0) += 1;
        }
        Self {
            kind: *kind,
            part: part.clone(),
            limit: match kind {
                // What they were held to as they were read is a torque, and no share of one.
                Kind::TorqueLoss => line::of_losses(),
                _ => usual(&kept, track),
            },
            points,
            left_out,
            said: Said::NoLine,
            ask: None,
        }
    }
}

/// The limit that most of the newest were held to: what is put away for the winter is held to
/// another than what goes on the road.
fn usual(kept: &[&Kept], track: &Track) -> Option<LimitLine> {
    let newest = kept.iter().rev().take(NEWEST).filter_map(|kept| kept.limit);
    let newest: Vec<usize> = newest.collect();
    let often = |limit: &usize| newest.iter().filter(|one| *one == limit).count();
    // Of two as often the newer one.
    let usual = newest.iter().rev().max_by_key(|limit| often(limit))?;
    track.limits.get(*usual).cloned()
}

impl Point {
    fn of(kept: &Kept, stretch: usize) -> Self {
        Self {
            at: kept.at,
            trip: kept.trip.clone(),
            line: kept.line,
            read: kept.read.clone(),
            value: kept.value.clone(),
            stretch,
            after_off: kept.after_off,
        }
    }
}

/// What nuts lost between one reading and the next of another walk. What they were brought to in
/// the same walk is what they hold from then on.
fn losses(kept: &[&Kept]) -> Vec<Point> {
    let pairs = kept.iter().zip(kept.iter().skip(1));
    let found = pairs.filter(|(one, next)| (one.at, &one.trip) != (next.at, &next.trip));
    found
        .filter_map(|(one, next)| {
            let lost = normal::lost(&one.value, &next.value)?;
            let value = normal::number(&lost, Kind::TorqueLoss.unit())?;
            let (step, unit) = (Kind::TorqueLoss.step(), Kind::TorqueLoss.unit());
            Some(Point {
                value: normal::nearest(value, step, unit)?,
                ..Point::of(next, 0)
            })
        })
        .collect()
}
