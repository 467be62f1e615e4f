//! # When a line comes to a limit

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure limit_day` tells of it.
pub const PAGE: Page = Page {
    name: "limit_day",
    title: "When a line comes to a limit",
    situation: "What has moved evenly so far comes to its limit after so many days if it goes on \
                alike. The slope is known as an interval, and so is the day: the steepest line \
                comes first, the flattest last or never.",
    formula: "d = (L - y) / b for each of the three slopes, where that is 0 or more",
    symbols: &[
        ("y", "level of the line today, the reading's unit"),
        ("L", "limit"),
        ("b", "slope and the two ends of its interval, a day"),
        ("d", "days from today"),
    ],
    holds: "levels and limits within 1e9 of 0, slopes within 1e9 a day, the ends of the interval \
            on both sides of the slope",
    assumes: "It goes on as it went. Frost, a hard knock or a filled tire end that. Later than a \
              hundred years from today is never.",
    never: "As leave to go until that day. What is read on the walk counts.",
    source: "two straight lines that meet, any textbook of geometry",
};

/// Days of a hundred years: what comes later does not come.
const NEVER_DAYS: f64 = 36_525.0;

/// On which side of the limit it is bad.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum BadSide {
    /// Below it, as for the air in a tire.
    Below,
    /// Above it, as for a hub's heat.
    Above,
}

/// A line with the interval of its slope, and a limit.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Course {
    /// Where the line is today.
    pub level: f64,
    /// The limit.
    pub limit: f64,
    /// On which side of it is bad.
    pub bad: BadSide,
    /// The slope, a day.
    pub slope_a_day: f64,
    /// Lower end of its interval.
    pub low_a_day: f64,
    /// Upper end.
    pub high_a_day: f64,
}

/// When it comes there.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LimitDay {
    /// Whether it comes there.
    pub comes: Comes,
    /// Days on the steepest line; nothing where not even that one comes there.
    pub soonest_days: Option<f64>,
    /// Days on the line itself.
    pub likely_days: Option<f64>,
    /// Days on the flattest line; nothing where that one never comes there.
    pub latest_days: Option<f64>,
}

/// Whether a line comes to a limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Comes {
    /// It is there, or past it.
    Already,
    /// Each line of the interval comes there.
    Surely,
    /// Some lines of the interval come there, others never.
    Perhaps,
    /// None does.
    Never,
}

/// After how many days a line comes to a limit.
///
/// # Errors
/// [`NoNumber`] outside the ranges.
pub fn limit_day(inputs: &Course) -> Result<LimitDay, NoNumber> {
    let mut ranges = Ranges::new();
    for (what, given) in [
        ("level", inputs.level),
        ("limit", inputs.limit),
        ("slope_a_day", inputs.slope_a_day),
        ("low_a_day", inputs.low_a_day),
        ("high_a_day", inputs.high_a_day),
    ] {
        ranges.within(what, given, -1e9, 1e9);
    }
    ranges.holds(
        inputs.low_a_day <= inputs.slope_a_day && inputs.slope_a_day <= inputs.high_a_day,
        "slope_a_day",
        inputs.slope_a_day,
        "a number between low_a_day and high_a_day",
    );
    ranges.checked()?;
    // Turned so that it is bad above.
    let (left, steepest, slope, flattest) = match inputs.bad {
        BadSide::Above => (
            inputs.limit - inputs.level,
            inputs.high_a_day,
            inputs.slope_a_day,
            inputs.low_a_day,
        ),
        BadSide::Below => (
            inputs.level - inputs.limit,
            -inputs.low_a_day,
            -inputs.slope_a_day,
            -inputs.high_a_day,
        ),
    };
    if left <= 0.0 {
        return Ok(LimitDay {
            comes: Comes::Already,
            soonest_days: Some(0.0),
            likely_days: Some(0.0),
            latest_days: Some(0.0),
        });
    }
    let days = |slope: f64| {
        let days = left / slope;
        (slope > 0.0 && days <= NEVER_DAYS).then(|| finite("the days", days))
    };
    let soonest_days = days(steepest).transpose()?;
    let latest_days = days(flattest).transpose()?;
    Ok(LimitDay {
        comes: match (soonest_days, latest_days) {
            (_, Some(_)) => Comes::Surely,
            (Some(_), None) => Comes::Perhaps,
            (None, None) => Comes::Never,
        },
        soonest_days,
        likely_days: days(slope).transpose()?,
        latest_days,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 62 psi, a limit of 59, and a loss of 0.1 psi a day, or 0.05 to 0.15: 30 days, or 20 to 60.
    fn course() -> Course {
        Course {
            level: 62.0,
            limit: 59.0,
            bad: BadSide::Below,
            slope_a_day: -0.1,
            low_a_day: -0.15,
            high_a_day: -0.05,
        }
    }

    #[test]
    fn the_steepest_line_comes_first_and_the_flattest_last() {
        let found = limit_day(&course()).unwrap();
        assert_eq!(found.comes, Comes::Surely);
        let near = |days: Option<f64>, aim: f64| (days.unwrap() - aim).abs() < 1e-9;
        assert!(near(found.soonest_days, 20.0), "{found:?}");
        assert!(near(found.likely_days, 30.0));
        assert!(near(found.latest_days, 60.0));
    }

    #[test]
    fn a_flattest_line_that_turns_away_never_comes_there() {
        let flat = Course {
            high_a_day: 0.01,
            ..course()
        };
        let found = limit_day(&flat).unwrap();
        assert_eq!(found.comes, Comes::Perhaps);
        assert_eq!(found.latest_days, None);
        let up = Course {
            slope_a_day: 0.1,
            low_a_day: 0.05,
            high_a_day: 0.2,
            ..course()
        };
        assert_eq!(limit_day(&up).unwrap().comes, Comes::Never);
        let above = Course {
            bad: BadSide::Above,
            limit: 65.0,
            ..up
        };
        assert_eq!(limit_day(&above).unwrap().comes, Comes::Surely);
    }

    #[test]
    fn what_is_past_its_limit_is_there_today() {
        let past = Course {
            level: 58.0,
            ..course()
        };
        assert_eq!(limit_day(&past).unwrap().comes, Comes::Already);
        let turned = Course {
            low_a_day: 0.2,
            ..course()
        };
        assert!(limit_day(&turned).is_err());
    }
}
