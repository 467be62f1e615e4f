//! A page laid out, and the part of it a window shows.

use crate::tui::Look;
use crate::tui::page::inked;
use crate::tui::theme::Ink;
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::Line;

/// The lines of a page, and where in them the cursor and the line to keep in sight are.
pub(super) struct Laid {
    pub(super) lines: Vec<Line<'static>>,
    pub(super) cursor: Option<(usize, usize)>,
    pub(super) focus: Option<usize>,
}

/// A page as it fits a height.
pub(in crate::tui) struct Placed {
    pub(super) lines: Vec<Line<'static>>,
    pub(super) cursor: Option<(usize, usize)>,
    /// What of the page lies outside the window, to be told in its last row.
    pub(super) more: Option<&'static str>,
}

impl Laid {
    /// Lines that do not fit, one row being kept to say so.
    pub(super) fn over(&self, height: usize) -> usize {
        let lines = self.lines.len();
        if lines <= height {
            0
        } else {
            lines - height.saturating_sub(1)
        }
    }

    /// The part a window of this height shows.
    pub(super) fn placed(self, height: usize, scroll: usize) -> Placed {
        let over = self.over(height);
        let rows = if over > 0 {
            height.saturating_sub(1)
        } else {
            height
        };
        let kept = self
            .focus
            .map_or(0, |focus| (focus + 1).saturating_sub(rows));
        let from = if scroll == 0 { kept } else { scroll }.min(over);
        let more = match (from > 0, from < over) {
            (true, true) => Some("-- Up, Down: more --"),
            (true, false) => Some("-- Up: more --"),
            (false, true) => Some("-- Down: more --"),
            (false, false) => None,
        };
        let in_sight = |(line, _): &(usize, usize)| (from..from + rows).contains(line);
        Placed {
            cursor: self
                .cursor
                .filter(in_sight)
                .map(|(line, column)| (line - from, column)),
            more,
            lines: self.lines.into_iter().skip(from).take(rows).collect(),
        }
    }
}

impl Placed {
    /// Draws the page, marks where more of it is, and rests the cursor in its field.
    pub(in crate::tui) fn draw(self, look: Look, frame: &mut Frame, area: Rect) {
        let rows = area.rows();
        for (row, line) in rows.zip(&self.lines) {
            frame.render_widget(line, row);
        }
        if let (Some(more), Some(last)) = (self.more, area.rows().next_back()) {
            frame.render_widget(inked(more, look.style(Ink::Key)), last);
        }
        let Some((line, column)) = self.cursor else {
            return;
        };
        if let (Ok(line), Ok(column)) = (u16::try_from(line), u16::try_from(column))
            && line < area.height
            && column < area.width
        {
            frame.set_cursor_position(Position::new(area.x + column, area.y + line));
        }
    }
}
