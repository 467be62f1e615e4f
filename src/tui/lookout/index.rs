//! The trips that the filters take, by day: made once for each filter, so that moving about counts
//! nothing again.

use crate::desk::SeenTrip;
use crate::record::counted;
use crate::review::{Day, Filter, days};
use chrono::{Datelike, Months, NaiveDate};
use std::ops::Range;

/// Trips by day.
#[derive(Clone, Debug, Default)]
pub(super) struct Index {
    /// The days that have any, in order.
    days: Vec<Day>,
    /// Where in the order the trips of each day begin; one more at the end.
    begins: Vec<usize>,
    /// The places of the trips, in the order of days and times.
    order: Vec<usize>,
}

impl Index {
    pub(super) fn of(trips: &[SeenTrip], filter: &Filter) -> Self {
        let taken = trips.iter().enumerate();
        let mut taken: Vec<_> = taken
            .filter(|(_, trip)| filter.takes(&trip.glance))
            .collect();
        taken.sort_by_key(|(_, trip)| (trip.glance.at.date_naive(), trip.glance.at));
        let days = days(taken.iter().map(|(_, trip)| &trip.glance));
        let mut begins = vec![0];
        let mut so_far = 0;
        for day in &days {
            so_far += day.trips;
            begins.push(so_far);
        }
        Self {
            days,
            begins,
            order: taken.into_iter().map(|(place, _)| place).collect(),
        }
    }

    pub(super) fn len(&self) -> usize {
        self.order.len()
    }

    /// The first and the last day that have trips.
    pub(super) fn span_of_all(&self) -> Option<(NaiveDate, NaiveDate)> {
        Some((self.days.first()?.date, self.days.last()?.date))
    }

    /// The days of a month that have trips.
    pub(super) fn of_month(&self, month: NaiveDate) -> Vec<Day> {
        let days = self.days.get(self.span(month, after(month)));
        days.unwrap_or_default().to_vec()
    }

    /// A day that has trips.
    pub(super) fn of_day(&self, date: NaiveDate) -> Option<Day> {
        let at = self.days.binary_search_by_key(&date, |day| day.date).ok()?;
        self.days.get(at).copied()
    }

    /// The trips of a month, in order.
    pub(super) fn month(&self, month: NaiveDate) -> &[usize] {
        self.trips(self.span(month, after(month)))
    }

    /// The trips of a day, in order.
    pub(super) fn day(&self, date: NaiveDate) -> &[usize] {
        self.trips(self.span(date, date.succ_opt().unwrap_or(date)))
    }

    /// The places of the days from one date on and before another.
    fn span(&self, from: NaiveDate, to: NaiveDate) -> Range<usize> {
        let before = |date| self.days.partition_point(|day| day.date < date);
        before(from)..before(to)
    }

    fn trips(&self, days: Range<usize>) -> &[usize] {
        let at = |place: usize| self.begins.get(place).copied().unwrap_or(0);
        let span = at(days.start)..at(days.end);
        self.order.get(span).unwrap_or_default()
    }
}

/// The first day of the month of a date.
pub(super) fn month_of(date: NaiveDate) -> NaiveDate {
    date.with_day(1).unwrap_or(date)
}

fn after(month: NaiveDate) -> NaiveDate {
    month
        .checked_add_months(Months::new(1))
        .unwrap_or(NaiveDate::MAX)
}

/// `52 trips, 12 open`.
pub(super) fn counts(days: &[Day]) -> String {
    let trips = days.iter().map(|day| day.trips).sum();
    let open: usize = days.iter().map(|day| day.open).sum();
    match (trips, open) {
        (0, _) => "no trip".to_owned(),
        (trips, 0) => format!("{}, none open", counted(trips, "trip")),
        (trips, open) => format!("{}, {open} open", counted(trips, "trip")),
    }
}
