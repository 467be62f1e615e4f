//! # The age of a tire

use crate::mechanics::{NoNumber, Page, finite};
use chrono::{Days, NaiveDate};
use serde::{Deserialize, Serialize};

/// What `hames figure dot_age` tells of it.
pub const PAGE: Page = Page {
    name: "dot_age",
    title: "The age of a tire",
    situation: "Rubber ages in the sun and standing still, whatever tread is left. The last four \
                digits of the tire's identification number are the week and year it was made in.",
    formula: "code WWYY: made in week WW of 20YY; week w starts 1 January + 7 (w - 1) days; age = \
              days since / 365.25",
    symbols: &[
        ("WW", "week, 01 to 53"),
        ("YY", "last two digits of the year, from 2000 on"),
        ("age", "since the start of that week, days and years"),
    ],
    holds: "four digits, from 2000 on. Three digits are older, and nothing tells the decade",
    assumes: "The code stands on one side only of many tires; look at the inner side too. Rules \
              differ in which day starts week 1, by up to 6 days, so age is shown to a tenth of a \
              year.",
    never: "As proof that a young tire is sound. No law sets an age for trailer tires.",
    source: "49 CFR 574.5; 64 FR 36807, 8 July 1999, for four digits from 2000 on",
};

/// Days in a year, leap years counted in.
const YEAR_DAYS: f64 = 365.25;

/// A date code and a day.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DateCode {
    /// The last digits of the identification number.
    pub code: String,
    /// The day the age is asked for, `2026-11-25`.
    pub on_date: String,
}

/// What a date code tells.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TireAge {
    /// Whether the code gives an age.
    pub status: CodeStatus,
    /// Week it was made in.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub week: Option<u32>,
    /// Year it was made in.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub year: Option<i32>,
    /// Last digit of that year, where the decade is not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub year_ends_in: Option<i32>,
    /// First day of that week.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub made_week_start: Option<String>,
    /// Days since.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub age_days: Option<i64>,
    /// Years since.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub age_years: Option<f64>,
}

/// Whether a date code gives an age.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum CodeStatus {
    /// It does.
    Ok,
    /// Three digits: made before 2000, the decade is not known.
    #[serde(rename = "before_2000_decade_unknown")]
    Before2000,
    /// There is no such week.
    WeekOutOfRange,
    /// The week lies after the day asked for: misread, or no date code.
    InTheFuture,
    /// Neither three digits nor four.
    NotADateCode,
}

/// The age of a tire by its date code.
///
/// # Errors
/// [`NoNumber`] when the day asked for is none.
pub fn dot_age(inputs: &DateCode) -> Result<TireAge, NoNumber> {
    let on = NaiveDate::parse_from_str(&inputs.on_date, "%Y-%m-%d").map_err(|_| {
        NoNumber::because(format!(
            "on_date is “{}”; it takes a day such as 2026-11-25",
            inputs.on_date
        ))
    })?;
    let Some((week, year)) = digits(&inputs.code) else {
        return Ok(TireAge::of(CodeStatus::NotADateCode));
    };
    if !(1..=53).contains(&week) {
        return Ok(TireAge::of(CodeStatus::WeekOutOfRange));
    }
    match year {
        Year::EndsIn(digit) => Ok(TireAge {
            week: Some(week),
            year_ends_in: Some(digit),
            ..TireAge::of(CodeStatus::Before2000)
        }),
        Year::Full(year) => aged(week, year, on),
    }
}

enum Year {
    Full(i32),
    EndsIn(i32),
}

/// Week and year of a code of three or four digits.
fn digits(code: &str) -> Option<(u32, Year)> {
    let plain = code.bytes().all(|byte| byte.is_ascii_digit());
    let (week, year) = code.split_at_checked(2).filter(|_| plain)?;
    let number: i32 = year.parse().ok()?;
    let year = match year.len() {
        1 => Year::EndsIn(number),
        2 => Year::Full(2000 + number),
        _ => return None,
    };
    Some((week.parse().ok()?, year))
}

fn aged(week: u32, year: i32, on: NaiveDate) -> Result<TireAge, NoNumber> {
    let start = NaiveDate::from_ymd_opt(year, 1, 1)
        .and_then(|first| first.checked_add_days(Days::new(7 * u64::from(week.saturating_sub(1)))))
        .ok_or_else(|| NoNumber::because("the week is outside of the calendar"))?;
    let made = TireAge {
        week: Some(week),
        year: Some(year),
        made_week_start: Some(start.to_string()),
        ..TireAge::of(CodeStatus::InTheFuture)
    };
    let days = on.signed_duration_since(start).num_days();
    if days < 0 {
        return Ok(made);
    }
    let counted = i32::try_from(days).map_or(f64::NAN, f64::from);
    Ok(TireAge {
        status: CodeStatus::Ok,
        age_days: Some(days),
        age_years: Some(finite("the age", counted / YEAR_DAYS)?),
        ..made
    })
}

impl TireAge {
    fn of(status: CodeStatus) -> Self {
        Self {
            status,
            week: None,
            year: None,
            year_ends_in: None,
            made_week_start: None,
            age_days: None,
            age_years: None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(code: &str) -> TireAge {
        dot_age(&DateCode {
            code: code.to_owned(),
            on_date: "2026-11-25".to_owned(),
        })
        .unwrap()
    }

    #[test]
    fn what_is_no_code_of_a_week_and_year_has_no_age() {
        for (code, status) in [
            ("", CodeStatus::NotADateCode),
            ("12", CodeStatus::NotADateCode),
            ("34190", CodeStatus::NotADateCode),
            ("3A19", CodeStatus::NotADateCode),
            ("+719", CodeStatus::NotADateCode),
            ("３４19", CodeStatus::NotADateCode),
            ("0023", CodeStatus::WeekOutOfRange),
            ("5423", CodeStatus::WeekOutOfRange),
            ("549", CodeStatus::WeekOutOfRange),
            ("229", CodeStatus::Before2000),
            ("4926", CodeStatus::InTheFuture),
            ("0199", CodeStatus::InTheFuture),
        ] {
            let found = told(code);
            assert_eq!(found.status, status, "{code}");
            assert_eq!(found.age_days, None, "{code}");
        }
    }

    #[test]
    fn a_tire_is_0_days_old_on_the_first_day_of_its_week() {
        let first = dot_age(&DateCode {
            code: "0124".to_owned(),
            on_date: "2024-01-01".to_owned(),
        });
        assert_eq!(first.unwrap().age_days, Some(0));
    }

    #[test]
    fn a_day_that_is_none_is_refused() {
        for on_date in ["2026-02-30", "yesterday", ""] {
            let asked = DateCode {
                code: "3419".to_owned(),
                on_date: on_date.to_owned(),
            };
            assert!(dot_age(&asked).is_err(), "{on_date}");
        }
    }
}
