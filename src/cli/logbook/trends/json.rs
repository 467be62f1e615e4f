//! Trends as JSON: one object a series, and one a set of tires.

use crate::cli::amount::Amount;
use crate::due::Due;
use crate::review::trend::{
    Ask, Crossing, NoTrend, NotCompared, Point, RigTrends, Said, Series, Trend,
};
use serde::Serialize;
use std::io::{self, Write};

const SCHEMA: &str = "hames-trend/1";

#[derive(Serialize)]
pub(in crate::cli::logbook) struct SeriesTold<'a> {
    schema: &'static str,
    rig: &'a str,
    kind: &'static str,
    part: Option<&'a str>,
    ask: Option<&'static str>,
    others: Option<Amount>,
    said: &'static str,
    readings: Option<usize>,
    trend: Option<TrendTold>,
    limit: Option<LimitTold<'a>>,
    left_out: LeftOutTold,
    points: Vec<PointTold<'a>>,
}

#[derive(Serialize)]
struct TrendTold {
    slope: Amount,
    low: Amount,
    high: Amount,
    per: &'static str,
    level: Amount,
    comes: Option<&'static str>,
    soonest: Option<String>,
    likely: Option<String>,
    latest: Option<String>,
}

#[derive(Serialize)]
struct LimitTold<'a> {
    at: Amount,
    verdict: &'static str,
    authority: &'static str,
    source: &'a str,
}

#[derive(Serialize)]
struct LeftOutTold {
    no_air: usize,
    warm: usize,
    alone: usize,
    no_number: usize,
}

#[derive(Serialize)]
struct PointTold<'a> {
    at: String,
    trip: &'a str,
    line: usize,
    read: Amount,
    value: Amount,
    stretch: usize,
}

#[derive(Serialize)]
pub(in crate::cli::logbook) struct AgeTold<'a> {
    schema: &'static str,
    rig: &'a str,
    kind: &'static str,
    part: Option<&'a str>,
    verdict: &'static str,
    by: Option<String>,
    why: &'a str,
    authority: &'static str,
    source: &'a str,
}

/// Tells of one rig.
pub(super) fn tell(rig: &RigTrends, out: &mut dyn Write) -> io::Result<()> {
    for series in &rig.series {
        let told = of_series(&rig.rig, series)?;
        serde_json::to_writer(&mut *out, &told)?;
        writeln!(out)?;
    }
    for due in &rig.tires {
        serde_json::to_writer(&mut *out, &of_tires(&rig.rig, due))?;
        writeln!(out)?;
    }
    Ok(())
}

/// A series.
pub(in crate::cli::logbook) fn of_series<'a>(
    rig: &'a str,
    series: &'a Series,
) -> Result<SeriesTold<'a>, serde_json::Error> {
    let (said, readings, trend) = match &series.said {
        Said::Trend(trend) => (
            "trend",
            Some(trend.readings),
            Some(of_trend(series, trend)?),
        ),
        Said::NoTrend(NoTrend::TooFew { readings }) => ("too-few", Some(*readings), None),
        Said::NoTrend(NoTrend::EitherWay { readings }) => ("either-way", Some(*readings), None),
        Said::NoLine => ("no-line", None, None),
    };
    let (ask, others) = match &series.ask {
        None => (None, None),
        Some(Ask::Leaks { others }) => (Some("leaks"), others.as_ref()),
        Some(Ask::Comes(_)) => (Some("comes"), None),
        Some(Ask::LosesTorque { .. }) => (Some("loses-torque"), None),
    };
    let out = |why| series.left_out.get(&why).copied().unwrap_or(0);
    let limit = series.limit.as_ref().map(|limit| {
        Ok::<_, serde_json::Error>(LimitTold {
            at: Amount::of(&limit.at)?,
            verdict: limit.verdict.word(),
            authority: limit.basis.authority.word(),
            source: &limit.basis.source,
        })
    });
    let points: Result<_, _> = series.points.iter().map(of_point).collect();
    Ok(SeriesTold {
        schema: SCHEMA,
        rig,
        kind: series.kind.key(),
        part: series.part.as_deref(),
        ask,
        others: others.map(Amount::of).transpose()?,
        said,
        readings,
        trend,
        limit: limit.transpose()?,
        left_out: LeftOutTold {
            no_air: out(NotCompared::NoAir),
            warm: out(NotCompared::Warm),
            alone: out(NotCompared::Alone),
            no_number: out(NotCompared::NoNumber),
        },
        points: points?,
    })
}

fn of_trend(series: &Series, trend: &Trend) -> Result<TrendTold, serde_json::Error> {
    let crossing = trend.crossing.as_ref();
    let day = |of: fn(&Crossing) -> Option<chrono::NaiveDate>| {
        crossing.and_then(of).map(|day| day.to_string())
    };
    Ok(TrendTold {
        slope: Amount::of(&trend.slope)?,
        low: Amount::of(&trend.low)?,
        high: Amount::of(&trend.high)?,
        per: series.kind.per().word(),
        level: Amount::of(&trend.level)?,
        comes: crossing.map(|crossing| crossing.comes.word()),
        soonest: day(|crossing| crossing.soonest),
        likely: day(|crossing| crossing.likely),
        latest: day(|crossing| crossing.latest),
    })
}

fn of_point(point: &Point) -> Result<PointTold<'_>, serde_json::Error> {
    Ok(PointTold {
        at: point.at.to_rfc3339(),
        trip: point.trip.as_str(),
        line: point.line,
        read: Amount::of(&point.read)?,
        value: Amount::of(&point.value)?,
        stretch: point.stretch,
    })
}

/// The age of a set of tires.
pub(in crate::cli::logbook) fn of_tires<'a>(rig: &'a str, due: &'a Due) -> AgeTold<'a> {
    AgeTold {
        schema: SCHEMA,
        rig,
        kind: "tire-age",
        part: due.of.as_deref(),
        verdict: due.verdict.word(),
        by: due.when.date.map(|day| day.to_string()),
        why: &due.why,
        authority: due.basis.authority.word(),
        source: &due.basis.source,
    }
}
