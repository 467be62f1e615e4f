//! The month and its list laid out: side by side where there is width, one above the other where
//! there is height, else what is being chosen from.

use crate::tui::Look;
use crate::tui::lookout::calendar::{Marked, SIZE};
use crate::tui::lookout::{Looking, calendar, legend, list};
use crate::tui::page::inked;
use crate::tui::text::wrap;
use crate::tui::theme::Ink;
use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};

/// From this many columns on the legend stands below the month, and the list beside both.
const WIDE: u16 = 72;

/// Columns of the month and its legend there.
const LEFT: u16 = 26;

/// From this many columns on each sign has its meaning beside it in one row.
const VERY_WIDE: u16 = 110;

/// Columns of the legend there.
const LEFT_THERE: u16 = 47;

/// From this many rows on the list stands below the month in a narrow window.
const TALL: u16 = 16;

/// Widest list.
const LIST: u16 = 84;

/// Columns between the month and what stands beside it.
const GAP: u16 = 2;

/// Draws the month, the legend and the trips.
pub(in crate::tui) fn draw(looking: &Looking, look: Look, frame: &mut Frame, area: Rect) {
    let Some(lookout) = &looking.lookout else {
        return;
    };
    if lookout.trips.is_empty() {
        let none = "There is no trip here that can be looked at.";
        let lines = wrap(none, usize::from(area.width));
        for (row, line) in area.rows().zip(lines) {
            frame.render_widget(inked(line, look.style(Ink::Body)), row);
        }
        return;
    }
    let laid = laid(looking, area);
    if let Some(room) = laid.month {
        let days = looking.index.of_month(looking.month);
        let days = days.iter().map(|day| Marked {
            date: day.date,
            worst: day.worst,
            open: day.open > 0,
        });
        let days: Vec<Marked> = days.collect();
        let at = (looking.month, looking.day);
        calendar::draw(at, &days, look, (frame.buffer_mut(), room));
    }
    let lines = legend::lines(
        usize::from(laid.legend.width),
        usize::from(laid.legend.height),
    );
    for (row, line) in laid.legend.rows().zip(lines) {
        frame.render_widget(inked(line, look.style(Ink::Dim)), row);
    }
    list::draw(looking, look, frame, laid.list);
}

/// Where everything is.
struct Laid {
    month: Option<Rect>,
    legend: Rect,
    list: Rect,
}

fn laid(looking: &Looking, area: Rect) -> Laid {
    let month = Constraint::Length(SIZE.1);
    let beside = |left: u16, area: Rect| -> [Rect; 2] {
        let columns = [
            Constraint::Length(left),
            Constraint::Length(GAP),
            Constraint::Max(LIST),
        ];
        let [left, _, list] = Layout::horizontal(columns).areas(area);
        [left, list]
    };
    if area.width >= WIDE {
        let very = area.width >= VERY_WIDE;
        let [left, list] = beside(if very { LEFT_THERE } else { LEFT }, area);
        let rows = [month, Constraint::Length(1), Constraint::Fill(1)];
        let [month, _, legend] = Layout::vertical(rows).areas(left);
        return Laid {
            month: Some(month),
            legend,
            list,
        };
    }
    if area.height >= TALL {
        let rows = [month, Constraint::Length(1), Constraint::Fill(1)];
        let [top, _, list] = Layout::vertical(rows).areas(area);
        let [month, legend] = beside(SIZE.0, top);
        return Laid {
            month: Some(month),
            legend,
            list,
        };
    }
    if looking.marked.is_some() {
        return Laid {
            month: None,
            legend: Rect::ZERO,
            list: area,
        };
    }
    let [top, legend] = Layout::vertical([month, Constraint::Fill(1)]).areas(area);
    let [month, list] = beside(SIZE.0, top);
    Laid {
        month: Some(month),
        legend,
        list,
    }
}
