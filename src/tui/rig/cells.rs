//! A scene on a terminal: the painted sheet, the names round it, and what is marked set apart by
//! word, leader, bold and reverse, never by colour.

use crate::tui::rig::fit::{Fit, square};
use crate::tui::rig::labels::{self, Label, Placed, Room};
use crate::tui::rig::scene::{Mark, Scene};
use crate::tui::rig::sheet::{Glyph, Sheet};
use crate::tui::rig::{dots, strokes};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::{Modifier, Style};

/// The characters a marked name and its leader are drawn with.
struct Signs {
    open: &'static str,
    close: &'static str,
    leader: char,
    marked_leader: char,
    down: char,
    up: char,
}

const UNICODE: Signs = Signs {
    open: "┫ ",
    close: " ┣",
    leader: '│',
    marked_leader: '┃',
    down: '▼',
    up: '▲',
};

const ASCII: Signs = Signs {
    open: "[ ",
    close: " ]",
    leader: '|',
    marked_leader: '|',
    down: 'V',
    up: '^',
};

/// Lines that the leader of an unmarked name may cross.
const MOST_CROSSED: usize = 2;

/// Paints the scene into an area.
pub(crate) fn paint(
    scene: &Scene,
    mark: Option<&Mark>,
    ascii: bool,
    area: Rect,
    buffer: &mut Buffer,
) {
    let area = area.intersection(buffer.area);
    if area.is_empty() {
        return;
    }
    let rows = rows_for_names(area, scene, mark);
    let (above, below) = rows;
    let room = area.height - above - below;
    let (across, down) = if ascii {
        (1, 1)
    } else {
        (dots::ACROSS, dots::DOWN)
    };
    let fit = Fit::new(&scene.window, area.width, room, across, down);
    let mut sheet = Sheet::new(area.width, area.height);
    let drawing = if ascii {
        strokes::paint(scene, mark, &fit, area.width)
    } else {
        dots::paint(scene, mark, &fit, area.width)
    };
    let top = i32::from(above + fit.top);
    copy(&drawing, &mut sheet, top);
    names(
        scene,
        mark,
        ascii,
        &mut sheet,
        &Frame {
            fit,
            top,
            rows,
            across,
        },
    );
    show(&sheet, area, buffer);
}

/// Where the drawing lies on the sheet.
struct Frame {
    fit: Fit,
    top: i32,
    rows: (u16, u16),
    across: u16,
}

/// Rows kept for names above and below: none where there is one row only, one on the marked
/// part's side where rows are few, more where they are many.
fn rows_for_names(area: Rect, scene: &Scene, mark: Option<&Mark>) -> (u16, u16) {
    let labels = labels::labels(scene, mark);
    let above = labels
        .iter()
        .find(|label| label.marked)
        .is_none_or(|label| label.above);
    match area.height {
        0 => (0, 0),
        1..14 if mark.is_none() => (0, 0),
        1..14 if above => (1, 0),
        1..14 => (0, 1),
        14..22 => (2, 2),
        _ => (3, 3),
    }
}

fn copy(drawing: &Sheet, sheet: &mut Sheet, top: i32) {
    let (columns, rows) = drawing.size();
    for row in 0..i32::from(rows) {
        for column in 0..i32::from(columns) {
            let Glyph { symbol, marked } = drawing.get(column, row);
            sheet.set(column, row + top, symbol, marked);
        }
    }
}

fn names(scene: &Scene, mark: Option<&Mark>, ascii: bool, sheet: &mut Sheet, frame: &Frame) {
    let signs = if ascii { &ASCII } else { &UNICODE };
    let few = frame.rows.0 + frame.rows.1 < 4;
    let labels = labels::labels(scene, mark)
        .into_iter()
        .filter(|label| label.marked || !few);
    let room = Room {
        width: f64::from(sheet.size().0),
        rows_above: frame.rows.0.into(),
        rows_below: frame.rows.1.into(),
    };
    let across = f64::from(frame.across);
    let placed = labels::place(
        labels.collect(),
        room,
        |at| (frame.fit.to(at).0 / across).floor(),
        |label| text(label, signs).chars().map(|_| 1.0).sum(),
    );
    for placed in &placed {
        name(placed, frame, signs, sheet);
    }
}

/// The words of a name on a terminal.
fn text(label: &Label, signs: &Signs) -> String {
    if label.marked {
        [signs.open, &label.text, signs.close].concat()
    } else {
        label.text.clone()
    }
}

/// Writes a name and the leader from it to its part. A leader that would cross many
/// lines makes the drawing harder to read than the name helps: it is left out, unless marked.
fn name(placed: &Placed, frame: &Frame, signs: &Signs, sheet: &mut Sheet) {
    let label = &placed.label;
    let away = i32::try_from(placed.row).unwrap_or(0);
    let target = frame.top + frame.fit.row(label.at);
    let column = square(placed.leader)
        .unwrap_or(0)
        .min(i32::from(sheet.size().0) - 1);
    let (row, path) = if label.above {
        let row = frame.top - 1 - away;
        (row, (row + 1..target).collect::<Vec<i32>>())
    } else {
        let row = frame.top + i32::from(frame.fit.rows) + away;
        (row, (target + 1..row).rev().collect())
    };
    let crossed = path
        .iter()
        .filter(|row| sheet.get(column, **row).symbol != ' ');
    if !label.marked && crossed.count() > MOST_CROSSED {
        return;
    }
    let leader = if label.marked {
        signs.marked_leader
    } else {
        signs.leader
    };
    for row in &path {
        sheet.set(column, *row, leader, label.marked);
    }
    if let (true, Some(last)) = (label.marked, path.last()) {
        let tip = if label.above { signs.down } else { signs.up };
        sheet.set(column, *last, tip, true);
    }
    let start = square(placed.start).unwrap_or(0);
    for (column, symbol) in (start..).zip(text(label, signs).chars()) {
        sheet.set(column, row, symbol, label.marked);
    }
}

/// Puts the sheet on the screen; blank cells leave what is there.
fn show(sheet: &Sheet, area: Rect, buffer: &mut Buffer) {
    for row in 0..area.height {
        for column in 0..area.width {
            let glyph = sheet.get(column.into(), row.into());
            let Some(cell) = buffer.cell_mut((area.x + column, area.y + row)) else {
                continue;
            };
            if glyph.symbol != ' ' || glyph.marked {
                cell.set_char(glyph.symbol);
            }
            if glyph.marked {
                let style = Style::new().add_modifier(Modifier::BOLD | Modifier::REVERSED);
                cell.set_style(style);
            }
        }
    }
}
