//! The rig in thought drawn: the drawing, axle loads as bars, and as many lists as there is room for.

use crate::desk::why_link;
use crate::tui::Look;
use crate::tui::page::{Page, inked};
use crate::tui::rig::{Drawing, View, bars};
use crate::tui::text::{escaped, shorten};
use crate::tui::theme::Ink;
use crate::tui::whatif::lists::Row;
use crate::tui::whatif::{List, Trying};
use crate::tui::why;
use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};

/// From this size on, two drawings and every list have room at once.
const WIDE: (u16, u16) = (100, 28);

/// From this width on, two lists stand side by side.
const TWO: u16 = 76;

/// Columns of the lists at the right of a wide window: so much of a hundred, and fewest and most.
const RIGHT: (u16, u16, u16) = (43, 46, 60);

/// Fewest and most rows for a drawing, and fewest for the lists below it.
const LEAST_DRAWING: u16 = 5;
const MOST_DRAWING: u16 = 9;
const LEAST_LIST: u16 = 5;

/// From this height on, the lists get more than the fewest rows.
const ROOMY: u16 = 18;

/// Draws the middle of the screen.
pub(in crate::tui) fn draw(trying: &Trying, look: Look, frame: &mut Frame, area: Rect) {
    if area.width >= WIDE.0 && area.height >= WIDE.1 {
        wide(trying, look, frame, area);
    } else {
        narrow(trying, look, frame, area);
    }
}

/// Both drawings, bars and the chain at the left; what can be changed and what moves at the right.
fn wide(trying: &Trying, look: Look, frame: &mut Frame, area: Rect) {
    let (of_hundred, least, most) = RIGHT;
    let right = (area.width * of_hundred / 100).clamp(least, most);
    let columns = [
        Constraint::Fill(1),
        Constraint::Length(2),
        Constraint::Length(right),
    ];
    let [left, _, right] = Layout::horizontal(columns).areas(area);
    let (bars, chain) = (bars_height(trying), height(trying, List::Links));
    let rows = [
        Constraint::Fill(1),
        Constraint::Length(1),
        Constraint::Fill(1),
        Constraint::Length(1),
        Constraint::Length(bars),
        Constraint::Length(1),
        Constraint::Length(chain),
    ];
    let [first, _, second, _, loads, _, links] = Layout::vertical(rows).areas(left);
    let [one, other] = match trying.view {
        View::Side => [View::Side, View::Above],
        View::Above => [View::Above, View::Side],
        View::Hitch => [View::Side, View::Hitch],
    };
    drawing(trying, one, look, frame, first);
    drawing(trying, other, look, frame, second);
    draw_bars(trying, look, frame, loads);
    list(trying, List::Links, look, frame, links);
    let values = height(trying, List::Values);
    let rows = [
        Constraint::Max(values.min(area.height / 2)),
        Constraint::Length(1),
        Constraint::Fill(1),
    ];
    let [values, _, moves] = Layout::vertical(rows).areas(right);
    list(trying, List::Values, look, frame, values);
    list(trying, List::Moves, look, frame, moves);
}

/// One drawing, the bars, and below them one list or two side by side.
fn narrow(trying: &Trying, look: Look, frame: &mut Frame, area: Rect) {
    let bars = bars_height(trying);
    let spare = if area.height < ROOMY { 0 } else { 3 };
    let most = area.height.saturating_sub(bars + 1 + LEAST_LIST + spare);
    let sheet = if most >= LEAST_DRAWING {
        most.min(MOST_DRAWING)
    } else {
        0
    };
    let bars = bars.min(area.height.saturating_sub(LEAST_LIST));
    let rows = [
        Constraint::Length(sheet),
        Constraint::Length(bars),
        Constraint::Length(u16::from(area.height > bars + LEAST_LIST)),
        Constraint::Fill(1),
    ];
    let [sheet, loads, _, lists] = Layout::vertical(rows).areas(area);
    drawing(trying, trying.view, look, frame, sheet);
    draw_bars(trying, look, frame, loads);
    if area.width < TWO {
        return list(trying, trying.list, look, frame, lists);
    }
    let columns = [
        Constraint::Fill(1),
        Constraint::Length(2),
        Constraint::Fill(1),
    ];
    let [left, _, right] = Layout::horizontal(columns).areas(lists);
    list(trying, List::Values, look, frame, left);
    let other = match trying.list {
        List::Links => List::Links,
        List::Values | List::Moves => List::Moves,
    };
    list(trying, other, look, frame, right);
}

fn drawing(trying: &Trying, view: View, look: Look, frame: &mut Frame, area: Rect) {
    let rig = &trying.whatif.now().rig;
    let drawing = match view {
        View::Side => Drawing::side(rig),
        View::Above => Drawing::above(rig),
        View::Hitch => Drawing::hitch(rig),
    };
    let drawing = match trying.marked_place() {
        Some(place) if drawing.shows(place) => drawing.marked(place, None),
        _ => drawing,
    };
    frame.render_widget(&drawing.ascii(look.ascii), area);
}

/// Rows of the bars: one an axle, or one that says why there are none.
fn bars_height(trying: &Trying) -> u16 {
    u16::try_from(trying.now.axles.len()).unwrap_or(0)
}

fn draw_bars(trying: &Trying, look: Look, frame: &mut Frame, area: Rect) {
    let before = trying.before.axles.iter().map(|axle| axle.known().cloned());
    let before: Vec<_> = before.collect();
    let loads = &trying.now.axles;
    let lines = bars::lines_since(loads, &before, area.width.into(), look.ascii);
    for ((row, line), (load, before)) in area.rows().zip(lines).zip(loads.iter().zip(&before)) {
        let moved = load.known() != before.as_ref();
        let ink = match load.is_over() {
            true => Ink::Warning,
            false if moved => Ink::Strong,
            false => Ink::Body,
        };
        let line = shorten(&line, area.width.into());
        frame.render_widget(inked(line, look.style(ink)), row);
    }
}

/// Most rows of the ratings chain beside everything else: its weakest links. The rest scrolls.
const WEAKEST: usize = 4;

/// Rows of a list with its title.
fn height(trying: &Trying, list: List) -> u16 {
    let rows = match list {
        List::Links => trying.count(list).min(WEAKEST),
        List::Values | List::Moves => trying.count(list),
    };
    u16::try_from(rows + 1).unwrap_or(u16::MAX)
}

/// Draws a list: its title, and as many lines as there is room for, the marked one among them.
fn list(trying: &Trying, list: List, look: Look, frame: &mut Frame, area: Rect) {
    let width = usize::from(area.width).saturating_sub(2);
    let lines = match list {
        List::Values => trying.values(width),
        List::Moves => trying.figures(width),
        List::Links => trying.links(width),
    };
    let mut rows = area.rows();
    let Some(title) = rows.next() else { return };
    let here = trying.list == list;
    let mut rows: Vec<Rect> = rows.collect();
    if here && let (Some(field), Some(_)) = (&trying.field, rows.first()) {
        let row = rows.remove(0);
        draw_field(trying, field.text(), look, frame, row);
    }
    let shown = rows.len();
    let marked = trying.mark(list).min(lines.len().saturating_sub(1));
    let from = (marked + 1).saturating_sub(shown.max(1));
    draw_title(list, (from, shown, lines.len()), here, look, frame, title);
    for (row, (at, (ink, line))) in rows.iter().zip(lines.into_iter().enumerate().skip(from)) {
        let mark = if here && at == marked { ">" } else { " " };
        draw_row(&(ink, format!("{mark} {line}")), look, frame, *row);
    }
}

fn draw_row((ink, line): &Row, look: Look, frame: &mut Frame, row: Rect) {
    frame.render_widget(inked(escaped(line), look.style(*ink)), row);
}

fn draw_title(
    list: List,
    (from, shown, all): (usize, usize, usize),
    here: bool,
    look: Look,
    frame: &mut Frame,
    row: Rect,
) {
    let title = match list {
        List::Values => "What can be changed",
        List::Moves => "What moves",
        List::Links => "Ratings chain, weakest first",
    };
    let part = if shown < all {
        format!("  {}-{} of {all}", from + 1, (from + shown).min(all))
    } else {
        String::new()
    };
    let ink = if here { Ink::Title } else { Ink::Strong };
    let line = shorten(&format!("{title}{part}"), row.width.into());
    frame.render_widget(inked(line, look.style(ink)), row);
}

fn draw_field(trying: &Trying, typed: &str, look: Look, frame: &mut Frame, row: Rect) {
    let label = trying
        .dial()
        .map_or_else(String::new, |dial| trying.whatif.now().label(dial));
    let mut page = Page::new(look, row.width);
    page.field(&escaped(&format!("{label}:")), typed, "");
    page.placed(1, 0).draw(look, frame, row);
}

/// Writes the page of the marked figure or link.
pub(in crate::tui) fn body(trying: &Trying, page: &mut Page) {
    if trying.list == List::Links {
        if let Some(link) = trying.now.links.get(trying.mark(List::Links)) {
            why::body(why_link(link), page);
        }
        return;
    }
    why::body(trying.behind(trying.mark(List::Moves)), page);
}
