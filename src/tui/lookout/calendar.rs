//! A month drawn, each day with the sign of its gravest trip: the one place that converts a date.

use crate::review::Weight;
use crate::tui::Look;
use crate::tui::theme::Ink;
use chrono::{Datelike, NaiveDate};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Modifier;
use ratatui::widgets::Widget;
use ratatui::widgets::calendar::{CalendarEventStore, Monthly};
use time::{Date, Month};

/// Columns and the most rows of a month with the names of its days.
pub(super) const SIZE: (u16, u16) = (21, 7);

/// Columns of a day: one blank, which takes the sign, and two for its number.
const DAY: u16 = 3;

/// A day of the month that has trips.
pub(super) struct Marked {
    pub(super) date: NaiveDate,
    pub(super) worst: Weight,
    pub(super) open: bool,
}

/// Draws a month into the top left corner of the room, where it is large enough. The sign tells the
/// gravest trip of a day, and a line below its number that something is open.
pub(super) fn draw(
    (month, chosen): (NaiveDate, Option<NaiveDate>),
    days: &[Marked],
    look: Look,
    (buffer, room): (&mut Buffer, Rect),
) {
    let Some(first) = date(month) else {
        return;
    };
    let mut styles = CalendarEventStore::default();
    for day in days {
        if let Some(date) = date(day.date) {
            let style = look.style(Ink::Key).add_modifier(underline(day.open));
            styles.add(date, style);
        }
    }
    if let Some(day) = chosen.and_then(date) {
        let marked = days.iter().find(|day| Some(day.date) == chosen);
        let open = marked.is_some_and(|day| day.open);
        // Reversed at night as well: two cells blind nobody, and a line below means something else.
        let style = look
            .style(Ink::Strong)
            .add_modifier(Modifier::REVERSED | underline(open));
        styles.add(day, style);
    }
    let monthly = Monthly::new(first, styles)
        .default_style(look.style(Ink::Dim))
        .show_weekdays_header(look.style(Ink::Strong));
    if room.width < monthly.width() || room.height < monthly.height() {
        return;
    }
    let corner = Rect::new(room.x, room.y, monthly.width(), monthly.height());
    monthly.render(corner, buffer);
    for day in days {
        let (column, row) = place(month, day.date);
        let cell = buffer.cell_mut((corner.x + column, corner.y + row));
        if let Some(cell) = cell {
            let ink = if day.worst == Weight::Clear {
                Ink::Body
            } else {
                Ink::Key
            };
            cell.set_char(day.worst.sign()).set_style(look.style(ink));
        }
    }
}

/// What tells that something of a day is open.
fn underline(open: bool) -> Modifier {
    if open {
        Modifier::UNDERLINED
    } else {
        Modifier::empty()
    }
}

/// Column and row of the blank before a day.
fn place(month: NaiveDate, day: NaiveDate) -> (u16, u16) {
    let number = |number: u32| u16::try_from(number).unwrap_or(0);
    let before = number(month.weekday().num_days_from_sunday());
    let at = before + number(day.day0());
    (at % 7 * DAY, 1 + at / 7)
}

/// The date as the calendar has it; none in the years at whose ends a calendar has no next day.
fn date(date: NaiveDate) -> Option<Date> {
    let year = Some(date.year()).filter(|year| (1..=9998).contains(year))?;
    let month = Month::try_from(u8::try_from(date.month()).ok()?).ok()?;
    Date::from_calendar_date(year, month, u8::try_from(date.day()).ok()?).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tui::Theme;

    const LOOK: Look = Look {
        theme: Theme::Own,
        colour: true,
        ascii: false,
        big: false,
    };

    fn drawn(month: &str, days: &[(u32, Weight)]) -> Vec<String> {
        let month: NaiveDate = month.parse().unwrap();
        let days: Vec<Marked> = days
            .iter()
            .map(|(day, worst)| Marked {
                date: month.with_day(*day).unwrap(),
                worst: *worst,
                open: false,
            })
            .collect();
        let room = Rect::new(0, 0, SIZE.0, SIZE.1);
        let mut buffer = Buffer::empty(room);
        draw((month, None), &days, LOOK, (&mut buffer, room));
        let rows = room.rows().map(|row| {
            let cells = row.columns().map(|at| buffer[(at.x, at.y)].symbol());
            cells.collect::<String>().trim_end().to_owned()
        });
        rows.collect()
    }

    #[test]
    fn a_sign_stands_right_before_the_number_of_its_day() {
        let days = [
            (1, Weight::Clear),
            (7, Weight::Fixed),
            (30, Weight::Stopped),
        ];
        assert_eq!(
            drawn("2026-11-01", &days),
            [
                " Su Mo Tu We Th Fr Sa",
                ". 1  2  3  4  5  6f 7",
                "  8  9 10 11 12 13 14",
                " 15 16 17 18 19 20 21",
                " 22 23 24 25 26 27 28",
                " 29S30",
                "",
            ]
        );
    }

    #[test]
    fn every_day_of_many_years_has_its_sign_before_its_own_number() {
        let mut day: NaiveDate = "1996-01-01".parse().unwrap();
        while day.year() < 2030 {
            let month = day.with_day(1).unwrap();
            let shown = drawn(&month.to_string(), &[(day.day(), Weight::Stopped)]).join("\n");
            let number = format!("S{:2}", day.day());
            assert!(shown.contains(&number), "{day}\n{shown}");
            day += chrono::TimeDelta::days(13);
        }
    }

    #[test]
    fn a_clock_far_off_draws_nothing_and_stops_nothing() {
        for far in ["9999-12-01", "-0001-05-01", "+262000-01-01"] {
            let days = [(1, Weight::Noted)];
            assert_eq!(drawn(far, &days), [""; 7], "{far}");
        }
        assert_eq!(drawn("0001-01-01", &[])[0], " Su Mo Tu We Th Fr Sa");
        assert_eq!(drawn("9998-12-01", &[])[0], " Su Mo Tu We Th Fr Sa");
    }
}
