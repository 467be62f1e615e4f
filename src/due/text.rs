//! What is due, in sentences.

use crate::due::history::Last;
use crate::due::interval::Every;
use crate::due::{Day, Due, When};
use crate::rig::Span;
use crate::rules::Verdict;
use crate::text::capital;
use crate::units::Quantity;
use chrono::NaiveDate;
use std::fmt;

impl fmt::Display for Due {
    /// What, of what, when, why, and whose word it is.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{}: {}. {} ({})",
            self.name(),
            self.when,
            self.why,
            self.basis
        )
    }
}

/// What is due, a line each, with its verdict before it.
pub fn lines(due: &[Due]) -> Vec<String> {
    let line = |one: &Due| format!("{}: {one}", one.verdict.word());
    due.iter().map(line).collect()
}

impl Due {
    /// What it is, and of what: `EIA test, Bramble`.
    pub fn name(&self) -> String {
        let what = capital(&self.what);
        match &self.of {
            Some(of) => format!("{what}, {of}"),
            None => what,
        }
    }

    /// What and when; where nothing says when, why that is.
    pub fn sentence(&self) -> String {
        if self.when == When::default() {
            format!("{}: {}", self.name(), self.why)
        } else {
            format!("{}: {}.", self.name(), self.when)
        }
    }

    /// Whether nobody can say when it is due. A tire too old to tell its age is no such thing.
    pub fn is_unknown(&self) -> bool {
        self.verdict == Verdict::Note && self.when == When::default()
    }
}

impl fmt::Display for When {
    /// `due by 2027-02-10, in 77 days, or at 53200 mi, in 4990 mi`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let days = self.days.unwrap_or_default();
        let date = self.date.map(|date| match days {
            _ if self.from_past => by_then(date, days),
            0 => format!("due today, {date}"),
            1 => format!("due by {date}, tomorrow"),
            -1 => format!("was due by {date}, yesterday"),
            days if days < 0 => format!("was due by {date}, {} days ago", days.unsigned_abs()),
            days => format!("due by {date}, in {days} days"),
        });
        let distance = self.odometer.as_ref().map(|at| match &self.left {
            None => format!("due at {at}"),
            Some(left) if left.value.is_negative() => {
                let past = Quantity::new(left.value.magnitude(), left.unit);
                format!("was due at {at}, {} ago", past.shown(0))
            }
            Some(left) => format!("due at {at}, in {}", left.shown(0)),
        });
        match (date, distance) {
            (Some(date), Some(distance)) => write!(f, "{date}; {distance}"),
            (Some(one), None) | (None, Some(one)) => f.write_str(&one),
            (None, None) => f.write_str("nothing says when"),
        }
    }
}

/// When it is due, with the days counted from a day that is past.
fn by_then(date: NaiveDate, days: i64) -> String {
    match days {
        0 => format!("due that day, {date}"),
        1 => format!("due by {date}, the day after"),
        -1 => format!("was due by {date}, the day before"),
        days if days < 0 => format!("was due by {date}, {} days before", days.unsigned_abs()),
        days => format!("due by {date}, {days} days after"),
    }
}

/// When it was last done, as far as that is known on this day.
pub(super) fn last_words(last: Option<&Last>, day: Day) -> String {
    let Some(last) = last else {
        return match day {
            Day::Today(_) => "no last time is written down".to_owned(),
            Day::Past(day) => format!("no time up to {day} is written down"),
        };
    };
    let at = last.odometer.as_ref();
    let at = at.map_or_else(String::new, |odometer| format!(" at {odometer}"));
    match &last.walked {
        Some((who, trip)) => format!("last done {}{at} by {who}, trip {trip}", last.on),
        None => format!("last done {}{at}, by the rig file", last.on),
    }
}

/// How often it is due, as the end of a sentence.
pub(super) fn every_words(every: &Every) -> String {
    let time = every.time.map(|span| match span {
        Span::Days(1) => "day".to_owned(),
        Span::Months(1) => "month".to_owned(),
        Span::Days(days) => format!("{days} days"),
        Span::Months(months) => format!("{months} months"),
    });
    let distance = every.distance.as_ref().map(Quantity::to_string);
    match (time, distance) {
        (Some(time), Some(distance)) => {
            format!("due every {time} or {distance}, whichever comes first.")
        }
        (Some(one), None) | (None, Some(one)) => format!("due every {one}."),
        (None, None) => String::new(),
    }
}
