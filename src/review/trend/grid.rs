//! A plot laid into the rows and columns of a terminal: which mark stands in which cell.

use crate::review::trend::{Ahead, Frame, Plot, Segment};
use chrono::{Days, NaiveDate};
use num_traits::ToPrimitive;

/// Steps a line is followed in, for each column.
const STEPS: usize = 2;

/// What stands in a cell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// A reading.
    Reading,
    /// The limit.
    Limit,
    /// A reading beyond the limit.
    Beyond,
    /// The line through the readings.
    Line,
    /// An end of its interval, from the newest reading on.
    Interval,
    /// A reading that lies far above what is drawn.
    Higher,
    /// One far below.
    Lower,
}

impl Mark {
    /// Each, in the order they are explained.
    pub const ALL: [Self; 7] = [
        Self::Reading,
        Self::Limit,
        Self::Beyond,
        Self::Line,
        Self::Interval,
        Self::Higher,
        Self::Lower,
    ];

    /// Its letter.
    pub const fn letter(self) -> char {
        match self {
            Self::Reading => 'o',
            Self::Limit => '=',
            Self::Beyond => 'x',
            Self::Line => '.',
            Self::Interval => ':',
            Self::Higher => '^',
            Self::Lower => 'v',
        }
    }

    /// What it means.
    pub const fn told(self) -> &'static str {
        match self {
            Self::Reading => "a reading",
            Self::Limit => "the limit",
            Self::Beyond => "one beyond it",
            Self::Line => "the line",
            Self::Interval => "its interval",
            Self::Higher => "one far above",
            Self::Lower => "one far below",
        }
    }
}

/// A plot, laid so.
#[derive(Clone, Debug, PartialEq)]
pub struct Grid {
    /// What it reaches over.
    pub frame: Frame,
    first: NaiveDate,
    has_slope: bool,
    cells: Vec<Vec<Option<Mark>>>,
}

impl Grid {
    /// A plot in so many columns and rows; nothing where there is nothing to draw.
    pub fn of(plot: &Plot, columns: usize, rows: usize) -> Option<Self> {
        let mut grid = Self {
            frame: plot.frame()?,
            first: plot.first,
            has_slope: plot.ahead.is_some(),
            cells: vec![vec![None; columns]; rows],
        };
        let steps = columns * STEPS;
        if let Some(limit) = plot.limit_line(&grid.frame) {
            grid.line(&limit, steps, Mark::Limit);
        }
        if let Some(Ahead { low, likely, high }) = &plot.ahead {
            for segment in [low, high] {
                grid.line(segment, steps, Mark::Interval);
            }
            grid.line(likely, steps, Mark::Line);
        }
        for segment in &plot.lines {
            grid.line(segment, steps, Mark::Line);
        }
        for dot in &plot.dots {
            let mark = if dot.value > grid.frame.high {
                Mark::Higher
            } else if dot.value < grid.frame.low {
                Mark::Lower
            } else if dot.beyond {
                Mark::Beyond
            } else {
                Mark::Reading
            };
            grid.put((dot.day, dot.value), mark);
        }
        Some(grid)
    }

    /// Its rows, the highest first.
    pub fn rows(&self) -> impl Iterator<Item = &[Option<Mark>]> {
        self.cells.iter().map(Vec::as_slice)
    }

    /// The marks there are to explain, in their order. Where a slope is told its interval is one of
    /// them, even where it is too narrow to be seen beside the line.
    pub fn marks(&self) -> Vec<Mark> {
        let cells = || self.cells.iter().flatten();
        let is_there = |mark: &Mark| match mark {
            Mark::Line | Mark::Interval => self.has_slope,
            mark => cells().any(|cell| *cell == Some(*mark)),
        };
        Mark::ALL.into_iter().filter(is_there).collect()
    }

    /// The value in the middle of a row.
    pub fn value_at(&self, row: usize) -> Option<f64> {
        let Frame { low, high, .. } = self.frame;
        let share = row.to_f64()? / self.cells.len().checked_sub(1)?.max(1).to_f64()?;
        Some(high - (high - low) * share)
    }

    /// The row a value stands in, or the nearest to it.
    pub fn row_of(&self, value: f64) -> Option<usize> {
        let Frame { low, high, .. } = self.frame;
        scaled((high - value) / (high - low), self.cells.len())
    }

    /// Its first and its last day.
    pub fn days(&self) -> (NaiveDate, NaiveDate) {
        let days = Days::new(self.frame.days.to_u64().unwrap_or(0));
        let last = self.first.checked_add_days(days);
        (self.first, last.unwrap_or(self.first))
    }

    fn line(&mut self, segment: &Segment, steps: usize, mark: Mark) {
        let frame = self.frame;
        for place in segment.along(steps).filter(|place| frame.holds(*place)) {
            self.put(place, mark);
        }
    }

    fn put(&mut self, (day, value): (f64, f64), mark: Mark) {
        let row = self.row_of(value);
        let columns = self.cells.first().map_or(0, Vec::len);
        let column = scaled(day / self.frame.days, columns);
        let cell = row
            .zip(column)
            .and_then(|(row, column)| self.cells.get_mut(row)?.get_mut(column));
        if let Some(cell) = cell {
            *cell = Some(mark);
        }
    }
}

impl Plot {
    /// The limit as a line across the frame.
    pub fn limit_line(&self, frame: &Frame) -> Option<Segment> {
        self.limit.map(|limit| Segment {
            from: (0.0, limit),
            to: (frame.days, limit),
        })
    }
}

impl Segment {
    /// So many places along it and its later end, in days and values.
    pub fn along(&self, steps: usize) -> impl Iterator<Item = (f64, f64)> + use<> {
        let Self { from, to } = *self;
        let all = steps.max(1);
        (0..=all).filter_map(move |step| {
            let share = step.to_f64()? / all.to_f64()?;
            let between = |one: f64, other: f64| one + (other - one) * share;
            Some((between(from.0, to.0), between(from.1, to.1)))
        })
    }
}

impl Frame {
    /// Whether a day and a value lie in it; what runs out of it is not drawn.
    pub fn holds(&self, (day, value): (f64, f64)) -> bool {
        value >= self.low && value <= self.high && day <= self.days
    }
}

/// The place of a share among so many.
fn scaled(share: f64, places: usize) -> Option<usize> {
    let last = places.checked_sub(1)?.to_f64()?;
    (share.clamp(0.0, 1.0) * last).round().to_usize()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::review::trend::Dot;

    /// A plot of values a day apart, with its limit and the line a reading may be read off.
    fn plot(values: &[f64], limit: f64, line: Option<Segment>) -> Plot {
        let dots = values.iter().zip(0..).map(|(value, day)| Dot {
            day: f64::from(day),
            value: *value,
            stretch: 0,
            beyond: *value < limit,
        });
        Plot {
            first: "2026-11-01".parse().unwrap(),
            dots: dots.collect(),
            limit: Some(limit),
            lines: line.into_iter().collect(),
            ahead: None,
        }
    }

    fn drawn(plot: &Plot) -> Vec<String> {
        let grid = Grid::of(plot, 9, 5).unwrap();
        let letter = |cell: &Option<Mark>| cell.map_or(' ', Mark::letter);
        let rows = grid.rows().map(|row| row.iter().map(letter).collect());
        rows.collect()
    }

    #[test]
    fn a_reading_beyond_the_limit_and_a_wild_one_have_their_own_marks() {
        let values = [64.0, 63.0, 62.0, 61.0, 600.0, 59.0, 58.0, 57.0, 6.0];
        assert_eq!(
            drawn(&plot(&values, 58.5, None)),
            [
                "o   ^    ",
                " oo      ",
                "   o     ",
                "=====ox==",
                "       xv",
            ]
        );
    }

    #[test]
    fn a_line_that_runs_out_of_the_frame_is_left_out_there() {
        let line = Segment {
            from: (0.0, 64.0),
            to: (8.0, 0.0),
        };
        let drawn = drawn(&plot(
            &[64.0, 60.0, 60.0, 60.0, 60.0, 60.0],
            60.0,
            Some(line),
        ));
        assert!(
            drawn[0].starts_with('o') && drawn[4].ends_with('o'),
            "{drawn:?}"
        );
        let dots: usize = drawn.iter().map(|row| row.matches('.').count()).sum();
        assert!(dots > 0 && dots < 5, "{drawn:?}");
    }

    #[test]
    fn no_room_and_one_cell_are_no_trouble() {
        for (columns, rows) in [(0, 0), (0, 3), (3, 0), (1, 1), (1, 9)] {
            let grid = Grid::of(&plot(&[1.0, 2.0], 3.0, None), columns, rows).unwrap();
            assert_eq!(grid.rows().count(), rows);
            grid.value_at(0);
        }
    }
}
