//! Tires by the date on their sidewalls.
//!
//! The last figures behind DOT are week and year: 49 CFR 574.5, in four figures since 2000. Weeks
//! are taken as ISO 8601 has them, from a Monday. Rules differ in which day begins the first week,
//! by up to six days.

use crate::barn::TireYears;
use crate::due::{Day, Due, When};
use crate::figures::Each;
use crate::rig::{DateCode, Rig, Span};
use crate::rules::{Authority, Basis, Verdict};
use crate::units::Exact;
use chrono::{Days, NaiveDate, Weekday};

const WAY_OUT: &str = "Fit younger ones, and write their date code into the rig file.";

/// The tires of each axle, as the file tells them, and the spare.
pub(super) fn all(rig: &Rig, day: Day, years: TireYears) -> Vec<Due> {
    let axles = Each::TrailerAxle.items(rig).into_iter();
    let axles = axles.zip(&rig.trailer.axles).map(|(item, axle)| {
        let of = format!("{} axle", item.name());
        one(of, axle.tire.made.as_ref(), day, years)
    });
    let spare = rig.trailer.spare.iter();
    let spare = spare.map(|spare| one("spare".to_owned(), spare.made.as_ref(), day, years));
    axles.chain(spare).collect()
}

fn one(of: String, made: Option<&DateCode>, day: Day, years: TireYears) -> Due {
    let limits = format!(
        "Told from {} years on, off the road from {}.",
        years.note(),
        years.stop()
    );
    let (verdict, when, what) = match made {
        None => (
            Verdict::Note,
            When::default(),
            "Nothing says when they were made: read the last figures behind DOT.".to_owned(),
        ),
        Some(code) => aged(code, day, years),
    };
    Due {
        what: "tire age".to_owned(),
        of: Some(of),
        verdict,
        when,
        why: format!("{what} {limits}"),
        basis: basis(years),
        way_out: Some(WAY_OUT),
    }
}

fn aged(code: &DateCode, day: Day, years: TireYears) -> (Verdict, When, String) {
    let figures = code.figures();
    let Some((week, year)) = week(figures) else {
        return (
            Verdict::Stop,
            When::default(),
            format!("Date code {figures}, of three figures: made before 2000."),
        );
    };
    let after = |years: i64| {
        let months = u32::try_from(years.checked_mul(12)?).ok()?;
        Span::Months(months).after(monday(week, year)?)
    };
    let (Some(monday), Some(told), Some(end)) =
        (monday(week, year), after(years.note()), after(years.stop()))
    else {
        return (
            Verdict::Note,
            When::default(),
            format!("Date code {figures} is no week of the calendar: read it again."),
        );
    };
    let on = day.date();
    if monday > on {
        let lies = if day.is_past() {
            format!("Date code {figures} lies after that day, {on}.")
        } else {
            format!("Date code {figures} lies after today: read it again.")
        };
        return (Verdict::Note, When::default(), lies);
    }
    let verdict = if on >= end {
        Verdict::Stop
    } else if on >= told {
        Verdict::Note
    } else {
        Verdict::Ok
    };
    let age = age(on.signed_duration_since(monday).num_days());
    let before = if day.is_past() { "before" } else { "ago" };
    let what = format!("Made in week {week} of {year}, {age} years {before}.");
    (verdict, When::by(end, day), what)
}

/// Whose word the years are: the barn's where it has set others than the defaults.
fn basis(years: TireYears) -> Basis {
    let (authority, source) = if years == TireYears::default() {
        (Authority::Default, TireYears::BECAUSE)
    } else {
        (Authority::Barn, "the barn's settings; no law sets an age")
    };
    Basis {
        authority,
        source: source.trim_end_matches('.').to_owned(),
    }
}

/// Week and year of a code of four figures.
fn week(figures: &str) -> Option<(u32, i32)> {
    let (week, year) = figures.split_at_checked(2)?;
    let year: i32 = Some(year).filter(|year| year.len() == 2)?.parse().ok()?;
    Some((week.parse().ok()?, 2000 + year))
}

/// The Monday of that week. A week 53 of a year that has none is the week after its last.
fn monday(week: u32, year: i32) -> Option<NaiveDate> {
    let first = NaiveDate::from_isoywd_opt(year, 1, Weekday::Mon)?;
    first.checked_add_days(Days::new(7 * u64::from(week.checked_sub(1)?)))
}

/// Years to a tenth, of 365.25 days each.
fn age(days: i64) -> String {
    Exact::ratio(i128::from(days) * 4, 1461).map_or_else(String::new, |years| years.rounded(1))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    fn told(code: &str, on: &str) -> Due {
        let code = DateCode::read(code);
        one(
            "spare".to_owned(),
            code.as_ref(),
            Day::Today(day(on)),
            TireYears::default(),
        )
    }

    /// 29 December 2008 and 3 January 2010 are days of weeks that belong to other years: ISO 8601.
    #[test]
    fn a_week_begins_on_the_monday_of_iso_8601() {
        for (week, year, monday) in [
            (1, 2009, "2008-12-29"),
            (53, 2009, "2009-12-28"),
            (1, 2010, "2010-01-04"),
            (52, 2020, "2020-12-21"),
            (53, 2020, "2020-12-28"),
            // 2021 has 52 weeks.
            (53, 2021, "2022-01-03"),
            (23, 2019, "2019-06-03"),
        ] {
            assert_eq!(
                super::monday(week, year),
                Some(day(monday)),
                "{week} {year}"
            );
        }
    }

    /// Ages to 25 November 2026 as worked by hand: 7.48, 4.15, 2.82 and 5.93 years, the second 4.147.
    #[test]
    fn a_code_tells_the_age_and_the_age_tells_the_verdict() {
        for (code, years, verdict) in [
            ("2319", "7.5", Verdict::Stop),
            ("4022", "4.1", Verdict::Note),
            ("0524", "2.8", Verdict::Ok),
            ("5220", "5.9", Verdict::Note),
        ] {
            let due = told(code, "2026-11-25");
            assert_eq!(due.verdict, verdict, "{code}");
            assert!(
                due.why.contains(&format!(", {years} years ago")),
                "{}",
                due.why
            );
        }
    }

    #[test]
    fn the_verdict_turns_on_the_day_of_the_fourth_and_the_sixth_year() {
        // Week 41 of 2020 begins on 5 October.
        for (on, verdict) in [
            ("2024-10-04", Verdict::Ok),
            ("2024-10-05", Verdict::Note),
            ("2026-10-04", Verdict::Note),
            ("2026-10-05", Verdict::Stop),
        ] {
            assert_eq!(told("4120", on).verdict, verdict, "{on}");
        }
    }

    #[test]
    fn what_tells_no_age_is_never_taken_as_young() {
        assert_eq!(told("348", "2026-11-25").verdict, Verdict::Stop);
        assert_eq!(told("4830", "2026-11-25").verdict, Verdict::Note);
        assert_eq!(told("", "2026-11-25").verdict, Verdict::Note);
    }

    #[test]
    fn a_barn_may_have_its_own_years() {
        let strict = TireYears::new(2, 3).unwrap();
        let code = DateCode::read("4022");
        let due = one(
            "spare".to_owned(),
            code.as_ref(),
            Day::Today(day("2026-11-25")),
            strict,
        );
        assert_eq!(due.verdict, Verdict::Stop);
        assert_eq!(due.basis.authority, Authority::Barn);
    }
}
