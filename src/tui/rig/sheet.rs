//! A grid of characters with the marked ones known: what both text painters fill.

use crate::tui::rig::fit::square;

/// One cell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Glyph {
    pub(crate) symbol: char,
    pub(crate) marked: bool,
}

/// A grid of cells.
#[derive(Clone, Debug)]
pub(crate) struct Sheet {
    columns: u16,
    rows: u16,
    glyphs: Vec<Glyph>,
}

const EMPTY: Glyph = Glyph {
    symbol: ' ',
    marked: false,
};

impl Sheet {
    /// An empty grid.
    pub(crate) fn new(columns: u16, rows: u16) -> Self {
        let count = usize::from(columns) * usize::from(rows);
        Self {
            columns,
            rows,
            glyphs: vec![EMPTY; count],
        }
    }

    /// Its width and height.
    pub(crate) fn size(&self) -> (u16, u16) {
        (self.columns, self.rows)
    }

    /// The cell at a place; empty outside.
    pub(crate) fn get(&self, column: i32, row: i32) -> Glyph {
        let index = self.index(column, row);
        index
            .and_then(|index| self.glyphs.get(index))
            .copied()
            .unwrap_or(EMPTY)
    }

    /// Writes a cell; nothing happens outside.
    pub(crate) fn set(&mut self, column: i32, row: i32, symbol: char, marked: bool) {
        let index = self.index(column, row);
        if let Some(glyph) = index.and_then(|index| self.glyphs.get_mut(index)) {
            *glyph = Glyph { symbol, marked };
        }
    }

    /// The row a height falls in, on the sheet or off it; the lower edge belongs to the last.
    pub(crate) fn row(&self, height: f64) -> i32 {
        let rows = i32::from(self.rows);
        square(height).map_or(rows, |row| if row == rows { rows - 1 } else { row })
    }

    fn index(&self, column: i32, row: i32) -> Option<usize> {
        let column = u16::try_from(column).ok()?;
        let row = u16::try_from(row).ok()?;
        let inside = column < self.columns && row < self.rows;
        inside.then(|| usize::from(row) * usize::from(self.columns) + usize::from(column))
    }
}
