//! Trips by day and month, each day with the worst there was and how much is open.

use crate::review::{Glance, Weight};
use chrono::{Datelike, NaiveDate};
use std::collections::BTreeMap;

/// A day with trips.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Day {
    /// Which.
    pub date: NaiveDate,
    /// How many trips were walked.
    pub trips: usize,
    /// The gravest of them.
    pub worst: Weight,
    /// How many a manager still has something to do with.
    pub open: usize,
}

/// The days of trips, in order.
pub fn days<'g>(glances: impl IntoIterator<Item = &'g Glance>) -> Vec<Day> {
    let mut days: BTreeMap<NaiveDate, Day> = BTreeMap::new();
    for glance in glances {
        let date = glance.at.date_naive();
        let day = days.entry(date).or_insert(Day {
            date,
            trips: 0,
            worst: Weight::Clear,
            open: 0,
        });
        day.trips += 1;
        day.worst = day.worst.max(glance.weight());
        day.open += usize::from(glance.is_open());
    }
    days.into_values().collect()
}

/// Days by month, in order: each month by its first day.
pub fn months(days: &[Day]) -> Vec<(NaiveDate, Vec<Day>)> {
    let mut months: Vec<(NaiveDate, Vec<Day>)> = Vec::new();
    for day in days {
        let first = day.date.with_day(1).unwrap_or(day.date);
        match months.last_mut() {
            Some((month, days)) if *month == first => days.push(*day),
            _ => months.push((first, vec![*day])),
        }
    }
    months
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::Opinion;
    use crate::review::glance::bench::glance;
    use crate::rules::Verdict;

    #[test]
    fn a_day_shows_its_gravest_trip_and_how_much_is_open() {
        let of = |at| glance("juniper", "Wren Ashdown", at);
        let mut agreed = of("2026-11-03T07:00:00-05:00");
        agreed.said = Some(Opinion::Agreed);
        agreed.worst = Verdict::Stop;
        let trips = [
            of("2026-12-01T06:00:00-05:00"),
            agreed,
            of("2026-11-03T18:00:00-05:00"),
            of("2026-11-20T09:00:00-05:00"),
        ];
        let days = days(&trips);
        let told: Vec<_> = days
            .iter()
            .map(|day| (day.date.to_string(), day.trips, day.worst, day.open))
            .collect();
        assert_eq!(
            told,
            [
                ("2026-11-03".to_owned(), 2, Weight::Stopped, 1),
                ("2026-11-20".to_owned(), 1, Weight::Clear, 1),
                ("2026-12-01".to_owned(), 1, Weight::Clear, 1),
            ]
        );
        let months = months(&days);
        let told: Vec<_> = months
            .iter()
            .map(|(first, days)| (first.to_string(), days.len()))
            .collect();
        assert_eq!(
            told,
            [("2026-11-01".to_owned(), 2), ("2026-12-01".to_owned(), 1)]
        );
    }
}
