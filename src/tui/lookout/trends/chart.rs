//! The chart of a series above what is said of it: lines in dots of a quarter of a cell where the
//! terminal has such letters, else all in the letters of the text chart.

use crate::desk::trend::day;
use crate::review::trend::{Ahead, Grid, Mark, Plot, Segment, Series};
use crate::tui::Look;
use crate::tui::page::{Page, inked};
use crate::tui::text::columns;
use crate::tui::theme::Ink;
use num_traits::ToPrimitive;
use ratatui::buffer::Buffer;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::symbols::Marker;
use ratatui::widgets::Widget;
use ratatui::widgets::canvas::{Canvas, Points};

/// Fewest columns and rows of a chart with its axes and its legend, and the most.
const LEAST: (u16, u16) = (40, 9);
const MOST: (u16, u16) = (110, 26);

/// Fewest rows of words below it.
const WORDS: u16 = 4;

/// Rows below the field: the axis with its days, and the legend.
const BELOW: u16 = 2;

/// Dots a column of a line through readings, and of the ends of its interval, which is so told
/// from it.
const DENSE: f64 = 6.0;
const SPARSE: f64 = 0.6;

/// The room for what is said, and above it for the chart where there is enough.
pub(in crate::tui) fn room(page: &Page, area: Rect) -> (Rect, Option<Rect>) {
    let (wide, high) = LEAST;
    if area.width < wide || area.height < high + WORDS {
        return (area, None);
    }
    let wishes = page.wishes().into_iter().filter_map(|rows| rows.to_u16());
    let left = wishes
        .map(|rows| area.height.saturating_sub(rows + 1))
        .max();
    let chart = left.unwrap_or(0).clamp(high, MOST.1);
    let gap = Constraint::Length(u16::from(area.height > high + WORDS));
    let rows = [Constraint::Length(chart), gap, Constraint::Fill(1)];
    let [chart, _, words] = Layout::vertical(rows).areas(area);
    (words, Some(chart))
}

/// Draws the chart; nothing of a series without a point.
pub(in crate::tui) fn draw(series: &Series, look: Look, buffer: &mut Buffer, area: Rect) {
    let Some(plot) = series.plot() else {
        return;
    };
    let rows = usize::from(area.height.saturating_sub(BELOW));
    let Some(labels) = Grid::of(&plot, 1, rows).map(|grid| labels(series, &plot, &grid, rows))
    else {
        return;
    };
    let widest = labels.iter().map(|label| columns(label)).max().unwrap_or(0);
    let before = widest.to_u16().unwrap_or(0) + 2;
    let parts = [Constraint::Length(before), Constraint::Max(MOST.0)];
    let [_, right] = Layout::horizontal(parts).areas(area);
    let field = Rect {
        height: area.height.saturating_sub(BELOW),
        ..right
    };
    let Some(grid) = Grid::of(&plot, usize::from(field.width), rows) else {
        return;
    };
    for (row, label) in area.rows().zip(&labels) {
        inked(format!("{label:>widest$} |"), look.style(Ink::Body)).render(row, buffer);
    }
    if !look.ascii {
        lines((&plot, &grid), look, buffer, field);
    }
    let limit = plot.limit.and_then(|limit| grid.row_of(limit));
    marks((&grid, limit), look, buffer, field);
    let below = below(
        series,
        &grid,
        (widest, usize::from(field.width)),
        look.ascii,
    );
    let rows = area.rows().skip(usize::from(field.height));
    for (row, line) in rows.zip(below) {
        inked(line, look.style(Ink::Body)).render(row, buffer);
    }
}

/// What stands left of each row: the highest and the lowest value, and the limit with its word.
fn labels(series: &Series, plot: &Plot, grid: &Grid, rows: usize) -> Vec<String> {
    let told = |value: Option<f64>| value.and_then(|value| series.kind.nearest(value));
    let limit = plot.limit.and_then(|limit| grid.row_of(limit));
    let label = |row: usize| {
        if let Some(line) = series.limit.as_ref().filter(|_| limit == Some(row)) {
            // As it is, and not to the step of a reading.
            return format!("{} {}", line.verdict.word(), line.at);
        }
        let is_end = row == 0 || row + 1 == rows;
        let value = told(grid.value_at(row).filter(|_| is_end));
        value.map_or_else(String::new, |value| value.to_string())
    };
    (0..rows).map(label).collect()
}

/// The line and its interval, finer than a cell.
fn lines((plot, grid): (&Plot, &Grid), look: Look, buffer: &mut Buffer, field: Rect) {
    let frame = grid.frame;
    let dots = |segment: &Segment, dense: f64| -> Vec<(f64, f64)> {
        let share = (segment.to.0 - segment.from.0) / frame.days;
        let steps = (share * f64::from(field.width) * dense).ceil().to_usize();
        let along = segment.along(steps.unwrap_or(1));
        along.filter(|place| frame.holds(*place)).collect()
    };
    let ahead = plot.ahead.as_ref();
    let likely = ahead.map(|ahead| &ahead.likely);
    let mut coords: Vec<(f64, f64)> = Vec::new();
    for segment in plot.lines.iter().chain(likely) {
        coords.extend(dots(segment, DENSE));
    }
    if let Some(Ahead { low, high, .. }) = ahead {
        for segment in [low, high] {
            coords.extend(dots(segment, SPARSE));
        }
    }
    let style = look.style(Ink::Body);
    let ink = style.fg.unwrap_or_default();
    Canvas::default()
        .marker(Marker::Braille)
        .background_color(style.bg.unwrap_or_default())
        .x_bounds([0.0, frame.days])
        .y_bounds([frame.low, frame.high])
        .paint(|canvas| canvas.draw(&Points::new(&coords, ink)))
        .render(field, buffer);
}

/// The limit, which stands in this row, and above all the readings; where only letters may be drawn,
/// the lines too.
fn marks((grid, limit): (&Grid, Option<usize>), look: Look, buffer: &mut Buffer, field: Rect) {
    for (at, (row, cells)) in field.rows().zip(grid.rows()).enumerate() {
        for (place, mark) in row.columns().zip(cells) {
            let (Some(cell), Some(mark)) = (buffer.cell_mut((place.x, place.y)), mark) else {
                continue;
            };
            let mark = match mark {
                // What the finer line leaves blank of the limit's row belongs to the limit.
                Mark::Line | Mark::Interval if !look.ascii && limit == Some(at) => Mark::Limit,
                mark => *mark,
            };
            let is_line = matches!(mark, Mark::Line | Mark::Interval);
            // A line that runs through a cell of the limit is not hidden by it.
            let is_taken = mark == Mark::Limit && cell.symbol() != " ";
            if look.ascii || !is_line && !is_taken {
                let ink = if matches!(mark, Mark::Beyond | Mark::Higher | Mark::Lower) {
                    Ink::Strong
                } else {
                    Ink::Body
                };
                cell.set_char(sign(mark, look.ascii))
                    .set_style(look.style(ink));
            }
        }
    }
}

/// What a mark is drawn as: the letter of the text chart, or a finer sign for what is a line.
const fn sign(mark: Mark, ascii: bool) -> char {
    match mark {
        Mark::Limit if !ascii => '═',
        Mark::Line if !ascii => '⠒',
        Mark::Interval if !ascii => '⠐',
        mark => mark.letter(),
    }
}

/// The axis, its first and its last day, and what each sign means.
fn below(
    series: &Series,
    grid: &Grid,
    (before, across): (usize, usize),
    ascii: bool,
) -> [String; 2] {
    let (first, last) = grid.days();
    let (first, last) = (day(first), day(last));
    let between = "-".repeat(across.saturating_sub(first.len() + last.len() + 3));
    let word = series.limit.as_ref().map(|limit| limit.verdict.word());
    let signs = grid.marks().into_iter().map(|mark| {
        let verdict = word.filter(|_| mark == Mark::Limit);
        let verdict = verdict.map_or_else(String::new, |word| format!(" ({word})"));
        format!("{} {}{verdict}", sign(mark, ascii), mark.told())
    });
    let signs: Vec<String> = signs.collect();
    [
        format!("{:before$} + {first} {between} {last}", ""),
        signs.join("  "),
    ]
}
