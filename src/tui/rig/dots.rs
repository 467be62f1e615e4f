//! The Unicode painter: eight dots a cell, in braille patterns.

use crate::tui::rig::area;
use crate::tui::rig::fit::{Fit, square};
use crate::tui::rig::scene::{Fill, Form, Mark, Pen, Piece, Scene};
use crate::tui::rig::sheet::Sheet;

/// Dots in a cell.
pub(crate) const ACROSS: u16 = 2;
pub(crate) const DOWN: u16 = 4;

/// The first braille pattern, and the bit of each dot by row and column (Unicode chapter 21).
const BLANK_PATTERN: u32 = 0x2800;
const BITS: [[u32; 2]; 4] = [[0x01, 0x08], [0x02, 0x10], [0x04, 0x20], [0x40, 0x80]];

/// Dots and gaps of a chain.
const LINK: i32 = 3;

/// Paints the scene, its window fitted to `columns` by the fit's rows.
pub(crate) fn paint(scene: &Scene, mark: Option<&Mark>, fit: &Fit, columns: u16) -> Sheet {
    let mut dots = Dots::new(columns * ACROSS, fit.rows * DOWN);
    for piece in scene.pieces.iter().filter(|piece| fit.shows(piece)) {
        dots.piece(piece, fit, Ink::Plain);
    }
    // Once more on top, so that nothing in front of the marked part hides it.
    for piece in scene.pieces.iter().filter(|piece| is_marked(piece, mark)) {
        dots.piece(piece, fit, Ink::Marked);
    }
    dots.sheet(columns, fit.rows)
}

pub(crate) fn is_marked(piece: &Piece, mark: Option<&Mark>) -> bool {
    mark.is_some_and(|mark| piece.is_marked(mark))
}

/// What a dot is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Ink {
    None,
    Plain,
    Marked,
}

/// A grid of dots.
struct Dots {
    columns: i32,
    rows: i32,
    ink: Vec<Ink>,
}

impl Dots {
    fn new(columns: u16, rows: u16) -> Self {
        Self {
            columns: i32::from(columns),
            rows: i32::from(rows),
            ink: vec![Ink::None; usize::from(columns) * usize::from(rows)],
        }
    }

    fn piece(&mut self, piece: &Piece, fit: &Fit, ink: Ink) {
        let points: Vec<(f64, f64)> = piece
            .points()
            .into_iter()
            .map(|point| fit.to(point))
            .collect();
        let closed = !matches!(piece.form, Form::Line(_));
        if closed {
            self.fill(&points, piece.fill, ink);
        }
        let next = points
            .iter()
            .skip(1)
            .chain(points.first().filter(|_| closed));
        let mut step = 0;
        for (from, to) in points.iter().zip(next) {
            step = self.line(*from, *to, piece.pen, ink, step);
        }
    }

    fn fill(&mut self, points: &[(f64, f64)], fill: Fill, ink: Ink) {
        if fill == Fill::Open {
            return;
        }
        for (x, y) in area::inside(points, self.columns, self.rows) {
            let ink = match fill {
                Fill::Solid => ink,
                Fill::Shade if (x + y) % 2 == 0 => ink,
                // What is marked lies on top and must not hide what is inside it.
                _ if ink == Ink::Marked => continue,
                _ => Ink::None,
            };
            self.set(x, y, ink);
        }
    }

    /// Draws a straight line and tells how many dots the run is long by now.
    fn line(&mut self, from: (f64, f64), to: (f64, f64), pen: Pen, ink: Ink, step: i32) -> i32 {
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let steps = square(dx.abs().max(dy.abs()).ceil()).unwrap_or(0).max(1);
        for part in 0..=steps {
            let share = f64::from(part) / f64::from(steps);
            let place = (from.0 + dx * share, from.1 + dy * share);
            let (Some(x), Some(y)) = (dot(place.0, self.columns), dot(place.1, self.rows)) else {
                continue;
            };
            let gap = match pen {
                Pen::Plain => false,
                Pen::Fine => (step + part) % 2 == 1,
                Pen::Links => (step + part) % LINK == LINK - 1,
            };
            if !gap {
                self.set(x, y, ink);
            }
        }
        step + steps
    }

    fn set(&mut self, x: i32, y: i32, ink: Ink) {
        if let Some(dot) = self.index(x, y).and_then(|index| self.ink.get_mut(index)) {
            *dot = ink;
        }
    }

    fn get(&self, x: i32, y: i32) -> Ink {
        let index = self.index(x, y);
        index
            .and_then(|index| self.ink.get(index))
            .copied()
            .unwrap_or(Ink::None)
    }

    fn index(&self, x: i32, y: i32) -> Option<usize> {
        let inside = (0..self.columns).contains(&x) && (0..self.rows).contains(&y);
        inside.then(|| usize::try_from(y * self.columns + x).ok())?
    }

    fn sheet(&self, columns: u16, rows: u16) -> Sheet {
        let mut sheet = Sheet::new(columns, rows);
        for row in 0..i32::from(rows) {
            for column in 0..i32::from(columns) {
                let (pattern, marked) = self.cell(column, row);
                if let Some(symbol) = char::from_u32(BLANK_PATTERN + pattern)
                    && pattern != 0
                {
                    sheet.set(column, row, symbol, marked);
                }
            }
        }
        sheet
    }

    /// The pattern of a cell, and whether any of its dots is marked.
    fn cell(&self, column: i32, row: i32) -> (u32, bool) {
        let mut pattern = 0;
        let mut marked = false;
        for (y, bits) in (0_i32..).zip(BITS) {
            for (x, bit) in (0_i32..).zip(bits) {
                let ink = self.get(column * i32::from(ACROSS) + x, row * i32::from(DOWN) + y);
                if ink != Ink::None {
                    pattern |= bit;
                }
                marked |= ink == Ink::Marked;
            }
        }
        (pattern, marked)
    }
}

/// The dot a value lies in; what lies on the far edge belongs to the last.
fn dot(value: f64, count: i32) -> Option<i32> {
    let dot = square(value)?;
    Some(if dot == count { count - 1 } else { dot })
}
