//! How a window in inches is laid on a grid: as large as fits, in the middle, its shape kept.

use crate::tui::rig::scene::{Fill, Piece, Point, Window};
use num_traits::ToPrimitive;

/// A terminal cell is about twice as high as wide.
const CELL_HEIGHT: f64 = 2.0;

/// Where a window's inches fall on a grid of cells, each split into `across` by `down` squares.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Fit {
    low: Point,
    /// Squares an inch.
    per_x: f64,
    per_y: f64,
    /// Square of the upper left corner.
    left: f64,
    /// Squares a cell is split into, across and down.
    across: f64,
    down: u16,
    /// Free rows above the drawing, and the rows it takes.
    pub(crate) top: u16,
    pub(crate) rows: u16,
}

impl Fit {
    /// Lays a window on `columns` by `rows` cells.
    pub(crate) fn new(window: &Window, columns: u16, rows: u16, across: u16, down: u16) -> Self {
        let (width, height) = window.size();
        let scale = (f64::from(columns) / width).min(f64::from(rows) * CELL_HEIGHT / height);
        let used = (scale * height / CELL_HEIGHT - SLIVER).ceil().to_u16();
        let used = used.unwrap_or(rows).clamp(rows.min(1), rows);
        let free = (f64::from(columns) - scale * width) / 2.0;
        Self {
            low: window.low,
            per_x: scale * f64::from(across),
            per_y: scale * f64::from(down) / CELL_HEIGHT,
            left: free.max(0.0).floor() * f64::from(across),
            across: f64::from(across),
            down,
            top: (rows - used) / 2,
            rows: used,
        }
    }

    /// Where a point falls, in squares from the upper left corner of the drawing, downward. The
    /// window's foot lies on the lower edge of the last row.
    pub(crate) fn to(&self, point: Point) -> (f64, f64) {
        let x = self.left + (point.x - self.low.x) * self.per_x;
        let bottom = f64::from(self.rows) * f64::from(self.down);
        (x, bottom - (point.y - self.low.y) * self.per_y)
    }

    /// Squares an inch, across.
    pub(crate) fn per_inch(&self) -> f64 {
        self.per_x
    }

    /// Whether a piece is large enough here to help.
    pub(crate) fn shows(&self, piece: &Piece) -> bool {
        let nameless = piece.place.is_none() && piece.fill == Fill::Blank;
        let width = piece
            .bounds()
            .map_or(0.0, |bounds| bounds.high.x - bounds.low.x);
        !nameless || width * self.per_x >= LEAST_COLUMNS * self.across
    }

    /// The row of cells a point falls in, kept inside the drawing.
    pub(crate) fn row(&self, point: Point) -> i32 {
        let row = square(self.to(point).1 / f64::from(self.down)).unwrap_or(0);
        row.min(i32::from(self.rows) - 1).max(0)
    }
}

/// What carries no part's name is left out when it is narrower than so many columns: a crate of
/// two columns only blurs the horse beside it.
const LEAST_COLUMNS: f64 = 4.0;

/// Rounding that must not cost a row.
const SLIVER: f64 = 1e-6;

/// The square a value lies in; nothing far outside any grid.
pub(crate) fn square(value: f64) -> Option<i32> {
    value.floor().to_i32()
}
