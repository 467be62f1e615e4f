//! # When the horses are to rest

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure rest` tells of it.
pub const PAGE: Page = Page {
    name: "rest",
    title: "When the horses are to rest",
    situation: "A horse on the road stands, balances, eats little and drinks less. Practice stops \
                every few hours for water and ends the day early; the law only bounds how long a \
                carrier may keep animals aboard.",
    formula: "counted = hours aboard, loading and unloading left out; law 28 h, 36 h on the \
              owner's request; stop every 4 h, every 2 h when the heat sum is over 150; day 12 h, 8 \
              h better",
    symbols: &[
        ("aboard", "hours since the first horse was loaded, h"),
        ("loading", "hours of loading and unloading in it, h"),
        ("last stop", "hours since the last stop with water, h"),
        ("heat sum", "Fahrenheit and humidity added"),
    ],
    holds: "times of 0 to 100 h",
    assumes: "A stop is 30 minutes or so standing still, with water offered. The law asks for five \
              hours of feed, water and rest after its limit.",
    never: "As leave to drive until the law's limit: under 3 h seldom makes a horse ill, 12 h often \
            does.",
    source: "49 USC 80502 (28-hour law): (a)(1), owner's request (a)(2)(B), loading not counted \
             (a)(3), not applied where they can eat, drink and rest aboard (c). Stops and days: \
             guidelines as given in veterinary columns. Halving in heat: common practice, no source",
};

/// Hours a carrier may keep animals aboard, and with the owner's written request.
const LAW_H: f64 = 28.0;
const LAW_ON_REQUEST_H: f64 = 36.0;

/// Hours between stops, and in heat.
const STOP_H: f64 = 4.0;
const HOT_STOP_H: f64 = 2.0;

/// Heat sum above which stops come twice as often.
const HOT_SUM: f64 = 150.0;

/// Hours of one day on the road: most, and better.
const DAY_H: f64 = 12.0;
const BETTER_DAY_H: f64 = 8.0;

/// Horses aboard.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Aboard {
    /// Hours since the first horse was loaded.
    pub aboard_h: f64,
    /// Hours of loading and unloading in that.
    #[serde(default)]
    pub loading_h: f64,
    /// Hours since the last stop with water; since loading unless given.
    #[serde(default)]
    pub since_stop_h: Option<f64>,
    /// Whether the owner asked in writing for 36 hours.
    #[serde(default)]
    pub owner_request: bool,
    /// Whether they can eat, drink, lie and rest aboard.
    #[serde(default)]
    pub rest_aboard: bool,
    /// Heat sum where they stand.
    #[serde(default)]
    pub heat_sum: Option<f64>,
}

/// When they are to rest.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Rest {
    /// Hours that count.
    pub counted_h: f64,
    /// Hours left by the law; nothing where it does not apply. Below 0 when passed.
    pub law_left_h: Option<f64>,
    /// Hours between stops today.
    pub stop_every_h: f64,
    /// Hours until the next stop; below 0 when passed.
    pub stop_left_h: f64,
    /// Hours until twelve, the most for one day; below 0 when passed.
    pub day_left_h: f64,
    /// What is due first.
    pub status: RestStatus,
}

/// What is due, the gravest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum RestStatus {
    /// The law's hours are over: off the trailer, feed, water, five hours of rest.
    LawOver,
    /// Twelve hours are over: off the trailer for the night.
    DayOver,
    /// A stop with water is due.
    StopDue,
    /// Over eight hours: look for the night's stable.
    LongDay,
    /// Nothing.
    NotYet,
}

/// When horses aboard are to stop, and to come off.
///
/// # Errors
/// [`NoNumber`] for times below nothing or that do not fit together.
pub fn rest(inputs: &Aboard) -> Result<Rest, NoNumber> {
    let counted_h = inputs.aboard_h - inputs.loading_h;
    let since_stop = inputs.since_stop_h.unwrap_or(counted_h);
    look(inputs, since_stop)?;
    let law = if inputs.owner_request {
        LAW_ON_REQUEST_H
    } else {
        LAW_H
    };
    let law_left_h = (!inputs.rest_aboard).then_some(law - counted_h);
    let hot = inputs.heat_sum.is_some_and(|sum| sum > HOT_SUM);
    let stop_every_h = if hot { HOT_STOP_H } else { STOP_H };
    let stop_left_h = finite("the time", stop_every_h - since_stop)?;
    let day_left_h = finite("the time", DAY_H - counted_h)?;
    let status = if law_left_h.is_some_and(|left| left <= 0.0) {
        RestStatus::LawOver
    } else if day_left_h <= 0.0 {
        RestStatus::DayOver
    } else if stop_left_h <= 0.0 {
        RestStatus::StopDue
    } else if counted_h > BETTER_DAY_H {
        RestStatus::LongDay
    } else {
        RestStatus::NotYet
    };
    Ok(Rest {
        counted_h,
        law_left_h,
        stop_every_h,
        stop_left_h,
        day_left_h,
        status,
    })
}

fn look(inputs: &Aboard, since_stop: f64) -> Result<(), NoNumber> {
    let mut ranges = Ranges::new();
    ranges
        .within("aboard_h", inputs.aboard_h, 0.0, 100.0)
        .within("loading_h", inputs.loading_h, 0.0, 100.0)
        .holds(
            inputs.loading_h <= inputs.aboard_h,
            "loading_h",
            inputs.loading_h,
            "aboard_h or less",
        )
        .holds(
            since_stop >= 0.0 && since_stop <= inputs.aboard_h,
            "since_stop_h",
            since_stop,
            "from 0 to aboard_h",
        );
    if let Some(sum) = inputs.heat_sum {
        ranges.within("heat_sum", sum, 0.0, 230.0);
    }
    ranges.checked()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn aboard(aboard_h: f64) -> Aboard {
        Aboard {
            aboard_h,
            loading_h: 0.0,
            since_stop_h: Some(0.0),
            owner_request: false,
            rest_aboard: false,
            heat_sum: None,
        }
    }

    #[test]
    fn the_gravest_limit_passed_is_told() {
        for (hours, status) in [
            (2.0, RestStatus::NotYet),
            (8.5, RestStatus::LongDay),
            (12.0, RestStatus::DayOver),
            (28.0, RestStatus::LawOver),
        ] {
            assert_eq!(rest(&aboard(hours)).unwrap().status, status, "{hours}");
        }
    }

    #[test]
    fn heat_halves_the_time_between_stops() {
        let stop = |heat_sum| {
            rest(&Aboard {
                since_stop_h: Some(2.0),
                heat_sum,
                ..aboard(3.0)
            })
            .unwrap()
            .status
        };
        assert_eq!(stop(None), RestStatus::NotYet);
        assert_eq!(stop(Some(150.0)), RestStatus::NotYet);
        assert_eq!(stop(Some(150.1)), RestStatus::StopDue);
    }
}
