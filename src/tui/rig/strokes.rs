//! The ASCII painter: each cell takes the character nearest to the stroke that crosses it.

use crate::tui::rig::area;
use crate::tui::rig::dots::is_marked;
use crate::tui::rig::fit::{Fit, square};
use crate::tui::rig::scene::{Fill, Form, Mark, Pen, Piece, Point, Scene};
use crate::tui::rig::sheet::Sheet;

/// A point in cells, downward.
type Spot = (f64, f64);

/// Paints the scene, its window fitted to `columns` by the fit's rows.
pub(crate) fn paint(scene: &Scene, mark: Option<&Mark>, fit: &Fit, columns: u16) -> Sheet {
    let mut strokes = Strokes {
        sheet: Sheet::new(columns, fit.rows),
        marked: false,
        drawn: 0,
    };
    for piece in scene.pieces.iter().filter(|piece| fit.shows(piece)) {
        strokes.piece(piece, fit);
    }
    strokes.marked = true;
    strokes.drawn = 0;
    let marked = || scene.pieces.iter().filter(|piece| is_marked(piece, mark));
    for piece in marked() {
        strokes.piece(piece, fit);
    }
    if strokes.drawn == 0 {
        for piece in marked() {
            strokes.speck(piece, fit);
        }
    }
    strokes.sheet
}

struct Strokes {
    sheet: Sheet,
    marked: bool,
    /// Characters written so far.
    drawn: usize,
}

/// The room some points take.
struct Extent {
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
}

impl Extent {
    fn of(points: &[Spot]) -> Self {
        let least =
            |values: &dyn Fn(&Spot) -> f64| points.iter().map(values).fold(f64::MAX, f64::min);
        let most =
            |values: &dyn Fn(&Spot) -> f64| points.iter().map(values).fold(f64::MIN, f64::max);
        Self {
            left: least(&|spot| spot.0),
            right: most(&|spot| spot.0),
            top: least(&|spot| spot.1),
            bottom: most(&|spot| spot.1),
        }
    }

    /// Whether an outline round it would only blur what is beside it.
    fn is_tiny(&self) -> bool {
        self.right - self.left < 6.0 && self.bottom - self.top < 1.0
    }
}

impl Strokes {
    fn piece(&mut self, piece: &Piece, fit: &Fit) {
        if let Form::Circle { centre, radius } = &piece.form {
            self.circle(*centre, *radius, piece.fill, fit);
            return;
        }
        let points: Vec<Spot> = piece
            .points()
            .into_iter()
            .map(|point| fit.to(point))
            .collect();
        let closed = matches!(piece.form, Form::Outline(_));
        if closed && !self.marked && piece.fill == Fill::Blank && Extent::of(&points).is_tiny() {
            return;
        }
        if closed && self.fill(&points, piece.fill) {
            return;
        }
        let next = points
            .iter()
            .skip(1)
            .chain(points.first().filter(|_| closed));
        for (from, to) in points.iter().zip(next) {
            self.line(*from, *to, piece.pen);
        }
    }

    /// Fills an outline and tells whether that says all: a silhouette reads better without an edge
    /// of many short strokes.
    fn fill(&mut self, points: &[Spot], fill: Fill) -> bool {
        let symbol = match fill {
            Fill::Open => return false,
            // What is marked lies on top and must not hide what is inside it.
            Fill::Blank if self.marked => return false,
            Fill::Blank => ' ',
            Fill::Shade => ':',
            Fill::Solid if self.blot(points) => return true,
            Fill::Solid => '#',
        };
        let (columns, rows) = self.sheet.size();
        for (column, row) in area::inside(points, columns.into(), rows.into()) {
            self.put(column, row, symbol);
        }
        fill != Fill::Blank
    }

    /// Draws a solid thing smaller than its strokes would be; tells whether it was.
    fn blot(&mut self, points: &[Spot]) -> bool {
        let Extent {
            left,
            right,
            top,
            bottom,
        } = Extent::of(points);
        let (width, height) = (right - left, bottom - top);
        if width > 2.5 && height > 1.0 {
            return false;
        }
        // A beam is a line; what is less long is a block.
        if height < 0.6 && width > height * 12.0 {
            self.line((left, bottom), (right, bottom), Pen::Plain);
            return true;
        }
        let row = self.sheet.row(f64::midpoint(top, bottom));
        if let (Some(first), Some(last)) = (square(left + 0.5), square(right - 0.5)) {
            for column in first..=last.max(first) {
                self.put(column, row, '#');
            }
        }
        true
    }

    fn line(&mut self, from: Spot, to: Spot, pen: Pen) {
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        // A cell is twice as high as wide.
        let steep = 2.0 * dy.abs() / dx.abs().max(1e-9);
        if steep < 1.2 {
            self.across(from, to, steep, pen);
        } else {
            self.down(from, to, steep);
        }
    }

    /// A line more level than not: one character a column, at one of three heights.
    fn across(&mut self, from: Spot, to: Spot, steep: f64, pen: Pen) {
        let (left, right) = if from.0 <= to.0 {
            (from, to)
        } else {
            (to, from)
        };
        let slope = (right.1 - left.1) / (right.0 - left.0).max(1e-9);
        let (Some(first), Some(last)) = (square(left.0 + 0.5), square(right.0 - 0.5)) else {
            return;
        };
        for column in first..=last {
            if pen == Pen::Fine && column % 2 == 1 {
                continue;
            }
            let y = left.1 + slope * (f64::from(column) + 0.5 - left.0);
            let (row, symbol) = if steep < 0.12 { flat(y) } else { sloped(y) };
            let Some(row) = square(row) else { continue };
            let symbol = if pen == Pen::Links && symbol != '_' {
                'o'
            } else {
                symbol
            };
            self.put(column, row, symbol);
        }
    }

    /// A line more upright than not: one character a row.
    fn down(&mut self, from: Spot, to: Spot, steep: f64) {
        let (top, bottom) = if from.1 <= to.1 {
            (from, to)
        } else {
            (to, from)
        };
        let slope = (bottom.0 - top.0) / (bottom.1 - top.1).max(1e-9);
        let (Some(first), Some(last)) = (square(top.1 + 0.5), square(bottom.1 - 0.5)) else {
            return;
        };
        let symbol = match (steep > 4.0, slope > 0.0) {
            (true, _) => '|',
            (false, true) => '\\',
            (false, false) => '/',
        };
        for row in first..=last {
            let x = top.0 + slope * (f64::from(row) + 0.5 - top.1);
            if let Some(column) = square(x) {
                self.put(column, row, symbol);
            }
        }
    }

    /// A wheel, a ball or a ring, by how many columns it is wide.
    fn circle(&mut self, centre: Point, radius: f64, fill: Fill, fit: &Fit) {
        let half = radius * fit.per_inch();
        let (x, y) = fit.to(centre);
        let (left, right) = (square(x - half + 0.5), square(x + half - 0.5));
        let (top, bottom) = (square(y - half / 2.0 + 0.5), square(y + half / 2.0 - 0.5));
        let (Some(left), Some(right), Some(top), Some(bottom)) = (left, right, top, bottom) else {
            return;
        };
        if half < LEAST_RING {
            if self.marked || fill == Fill::Solid && half > LEAST_BALL {
                let symbol = if fill == Fill::Solid { 'O' } else { 'o' };
                self.put(square(x).unwrap_or(left), self.sheet.row(y), symbol);
            }
        } else if bottom <= top {
            self.row(bottom.max(self.sheet.row(y)), left, right, ['(', '_', ')']);
        } else {
            self.row(top, left, right, ['.', '-', '.']);
            for row in top + 1..bottom {
                self.row(row, left, right, ['(', ' ', ')']);
            }
            self.row(bottom, left, right, ['\'', '-', '\'']);
        }
    }

    fn row(&mut self, row: i32, left: i32, right: i32, [first, between, last]: [char; 3]) {
        self.put(left, row, first);
        for column in left + 1..right {
            self.put(column, row, between);
        }
        self.put(right, row, last);
    }

    /// Shows where a marked piece is that is too small here for any stroke.
    fn speck(&mut self, piece: &Piece, fit: &Fit) {
        let middle = piece.middle().map(|point| fit.to(point));
        if let Some((x, y)) = middle
            && let Some(column) = square(x)
        {
            self.put(column, self.sheet.row(y), '*');
        }
    }

    fn put(&mut self, column: i32, row: i32, symbol: char) {
        self.drawn += 1;
        self.sheet.set(column, row, symbol, self.marked);
    }
}

/// A ball or hub of less columns from its middle is nothing but a blot.
const LEAST_BALL: f64 = 0.4;

/// A ring of less columns from its middle is one character.
const LEAST_RING: f64 = 1.4;

/// A level line lies in the middle of a row or on its lower edge.
fn flat(y: f64) -> (f64, char) {
    let half = (y * 2.0).round();
    if half % 2.0 == 0.0 {
        (half / 2.0 - 1.0, '_')
    } else {
        ((half / 2.0).floor(), '-')
    }
}

/// A sloping line has three heights in a row.
fn sloped(y: f64) -> (f64, char) {
    let row = y.floor();
    let symbol = match y - row {
        part if part < 0.33 => '\'',
        part if part < 0.67 => '-',
        _ => '.',
    };
    (row, symbol)
}
