//! What is said of a series: a question, what it rests on, its newest values; or one line.

mod letters;

pub use letters::letters;

use crate::record::counted;
use crate::review::trend::{
    Ask, Comes, Crossing, Kind, LimitLine, NoTrend, NotCompared, Point, Said, Series, Trend,
};
use crate::text::capital;
use crate::units::Quantity;
use chrono::NaiveDate;
use std::collections::BTreeSet;

/// How many of the newest points are told.
const NEWEST: usize = 3;

/// A day: `3 Nov 2026`.
pub fn day(day: NaiveDate) -> String {
    day.format("%-d %b %Y").to_string()
}

/// The question, behind what it is about.
pub fn asked(series: &Series) -> String {
    format!("{}: {}", series.name(), question(series.kind))
}

/// The question alone.
pub const fn question(kind: Kind) -> &'static str {
    match kind {
        Kind::TirePressure | Kind::TruckTirePressure | Kind::SparePressure => {
            "does it lose air at its valve, its rim or a nail?"
        }
        Kind::BatteryRest | Kind::BatteryLoad => "is it charged, and does it hold its charge?",
        Kind::TorqueLoss => "do these nuts hold?",
        Kind::HubTemperature => "does its bearing run warm?",
        Kind::BrakePull => "do the brakes hold as they did?",
        Kind::Tread => "when is the next tire due?",
    }
}

/// All that can be told of a series with a chart, or that nothing can.
pub fn told(series: &Series) -> String {
    let first = match &series.said {
        _ if series.points.is_empty() => return format!("{}.", capital(&quiet(series))),
        Said::Trend(_) => None,
        Said::NoTrend(why) => Some(untold(*why)),
        Said::NoLine => Some(most_lost(series)),
    };
    let first = first.map(|said| format!("{}.", capital(&said)));
    let said = first.into_iter().chain([rests_on(series)]);
    let said: Vec<String> = said
        .filter(|one| !one.is_empty())
        .chain(limit(series))
        .collect();
    said.join(" ")
}

/// The limit it is drawn against, or that there is none, where no day is told on which it comes
/// there.
pub fn limit(series: &Series) -> Option<String> {
    let is_named = matches!(&series.said, Said::Trend(trend) if trend.crossing.is_some());
    (!is_named).then(|| format!("Limit: {}.", limit_alone(series)))
}

/// The limit with its authority, or that there is none.
pub fn limit_alone(series: &Series) -> String {
    let none = || "none, its readings were held to none".to_owned();
    series.limit.as_ref().map_or_else(none, held_to)
}

/// `62.5 psi (fix; plate, tire label)`.
fn held_to(limit: &LimitLine) -> String {
    format!("{} ({}; {})", limit.at, limit.verdict.word(), limit.basis)
}

/// Its newest value, or what takes the place of one.
pub fn now(series: &Series) -> String {
    let newest = series.points.last();
    newest.map_or_else(|| quiet(series), |newest| value(series.kind, &newest.value))
}

/// What the question rests on.
pub fn rests_on(series: &Series) -> String {
    let mut said = Vec::new();
    if let Some(Ask::LosesTorque { losses }) = &series.ask {
        said.push(lost(losses));
    }
    if let Said::Trend(trend) = &series.said {
        said.push(moves(series, trend));
        if let Some(Ask::Leaks { others }) = &series.ask {
            said.push(beside(series, others.as_ref()));
        }
        if let Some(crossing) = &trend.crossing {
            said.extend(crosses(series, crossing));
        }
    }
    said.extend(left_out(series));
    said.join(" ")
}

/// `At 70 F it loses 2.97 psi a month, 2.44 to 3.35, by 23 readings.`
fn moves(series: &Series, trend: &Trend) -> String {
    let before = match (series.kind, series.kind.told_at()) {
        (_, Some(air)) => format!("At {air} it"),
        (Kind::HubTemperature, None) => "Against the middle of the other hubs it".to_owned(),
        (_, None) => "It".to_owned(),
    };
    let stretches: BTreeSet<usize> = series.points.iter().map(|point| point.stretch).collect();
    let apart = match stretches.len() {
        0 | 1 => String::new(),
        _ if series.kind.begins_anew() => " since it was changed or charged".to_owned(),
        many => format!(" in {many} stretches between which something was put right"),
    };
    format!(
        "{before} {}, by {}{apart}.",
        rate(series.kind, trend),
        counted(trend.readings, "reading")
    )
}

/// `loses 0.47 psi a month (0.36 to 0.57)`.
fn rate(kind: Kind, trend: &Trend) -> String {
    let falls = trend.slope.value.is_negative();
    let verb = match (kind.is_air(), falls) {
        (true, true) => "loses",
        (true, false) => "gains",
        (false, true) => "falls",
        (false, false) => "rises",
    };
    let size = |quantity: &Quantity| Quantity::new(quantity.value.magnitude(), quantity.unit);
    let (low, high) = if falls {
        (&trend.high, &trend.low)
    } else {
        (&trend.low, &trend.high)
    };
    format!(
        "{verb} {} a {} ({} to {})",
        size(&trend.slope),
        kind.per().word(),
        size(low).value,
        size(high).value
    )
}

/// What the tires beside it do.
fn beside(series: &Series, others: Option<&Quantity>) -> String {
    match others {
        None => "There is no tire beside it to hold it against.".to_owned(),
        Some(others) if others.value.is_negative() => format!(
            "The middle of those beside it loses {} a {}.",
            Quantity::new(others.value.magnitude(), others.unit),
            series.kind.per().word()
        ),
        Some(_) => "The middle of those beside it loses none.".to_owned(),
    }
}

/// When it comes to its limit.
fn crosses(series: &Series, crossing: &Crossing) -> Option<String> {
    let limit = held_to(series.limit.as_ref()?);
    let by = match (crossing.likely, crossing.latest) {
        (Some(likely), Some(latest)) => {
            format!(", about {}, and by {}", day(likely), day(latest))
        }
        (Some(likely), None) => format!(", about {}, perhaps never", day(likely)),
        (None, _) => ", perhaps never".to_owned(),
    };
    let sooner = if series.kind.is_air() {
        " In colder air the gauge shows that sooner."
    } else {
        ""
    };
    Some(match crossing.comes {
        Comes::Already => format!("It has come to {limit} already."),
        _ => format!(
            "If it goes on alike it comes to {limit} no sooner than {}{by}.{sooner}",
            day(crossing.soonest?)
        ),
    })
}

fn lost(losses: &[(NaiveDate, Quantity)]) -> String {
    let each: Vec<String> = losses
        .iter()
        .map(|(on, lost)| format!("{lost} on {}", day(*on)))
        .collect();
    format!(
        "They had lost {}, though the wheel had not been off. Nuts that have settled once hold.",
        each.join(", and ")
    )
}

/// Readings that count for nothing, and why.
fn left_out(series: &Series) -> Option<String> {
    let whys: Vec<String> = series
        .left_out
        .iter()
        .map(|(why, count)| {
            let why = match why {
                NotCompared::NoAir => "without the air read on the same walk",
                NotCompared::Warm => "of a warm tire on the way",
                NotCompared::Alone => "of one hub alone",
                NotCompared::NoNumber => "out of the range of the formula",
            };
            format!("{count} {why}")
        })
        .collect();
    (!whys.is_empty()).then(|| format!("Left out: {}.", whys.join(", ")))
}

/// The newest points, the newest first.
pub fn newest(series: &Series) -> String {
    let points = series.points.iter().rev().take(NEWEST);
    let points: Vec<String> = points.map(|point| told_of(series.kind, point)).collect();
    format!("Newest: {}.", points.join("; "))
}

fn told_of(kind: Kind, point: &Point) -> String {
    let on = day(point.at.date_naive());
    let value = value(kind, &point.value);
    if point.value == point.read || kind == Kind::TorqueLoss {
        return format!("{value} on {on}");
    }
    format!("{value} on {on}, read as {}", point.read)
}

fn value(kind: Kind, value: &Quantity) -> String {
    match kind {
        Kind::HubTemperature if value.value.is_negative() => format!(
            "{} under the others",
            Quantity::new(value.value.magnitude(), value.unit)
        ),
        Kind::HubTemperature => format!("{value} over the others"),
        _ => value.to_string(),
    }
}

/// A series with nothing to ask, on one line.
pub fn quiet(series: &Series) -> String {
    let Some(newest) = series.points.last() else {
        let out: usize = series.left_out.values().sum();
        return format!("none of {} can be compared", counted(out, "reading"));
    };
    let now = &newest.value;
    match &series.said {
        Said::Trend(trend) => format!("{now}, {}", rate(series.kind, trend)),
        Said::NoTrend(why) => format!("{now}, {}", untold(*why)),
        Said::NoLine => most_lost(series),
    }
}

fn untold(why: NoTrend) -> String {
    let (NoTrend::TooFew { readings } | NoTrend::EitherWay { readings }) = why;
    format!("no trend can be told from {}", counted(readings, "reading"))
}

/// The most that nuts had lost.
fn most_lost(series: &Series) -> String {
    let most = series.points.iter().reduce(|one, next| {
        if next.value.value > one.value.value {
            next
        } else {
            one
        }
    });
    let looks = counted(series.points.len(), "look");
    match most.filter(|most| !most.value.value.is_negative() && !most.value.value.is_zero()) {
        None => format!("nothing lost at {looks}"),
        Some(most) => format!(
            "at most {} ({}{})",
            most.value,
            day(most.at.date_naive()),
            if most.after_off {
                ", wheel was off"
            } else {
                ""
            }
        ),
    }
}
