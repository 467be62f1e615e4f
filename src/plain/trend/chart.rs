//! A chart of letters: `o` a reading, `x` one beyond the limit, `=` the limit, `.` the line, `:` the
//! two ends of its interval from the newest reading on.

use crate::desk::trend::day;
use crate::review::trend::{Ahead, Frame, Plot, Segment, Series};
use crate::text::put;
use crate::units::Exact;
use chrono::{Days, NaiveDate};
use num_traits::ToPrimitive;

/// Columns and rows of the field, and columns before it.
const COLUMNS: usize = 62;
const ROWS: usize = 10;
const LABEL: usize = 9;

/// Where what is drawn lies in the field.
struct Field {
    days: f64,
    low: f64,
    high: f64,
    cells: Vec<Vec<char>>,
}

/// Draws a series below what was said of it.
pub(super) fn draw(text: &mut String, series: &Series) {
    let Some(plot) = series.plot() else {
        return;
    };
    let Some(mut field) = Field::of(&plot) else {
        return;
    };
    if let Some(limit) = plot.limit {
        field.line(
            &Segment {
                from: (0.0, limit),
                to: (field.days, limit),
            },
            '=',
        );
    }
    if let Some(Ahead { low, likely, high }) = &plot.ahead {
        for (segment, sign) in [(low, ':'), (high, ':'), (likely, '.')] {
            field.line(segment, sign);
        }
    }
    for segment in &plot.lines {
        field.line(segment, '.');
    }
    for dot in &plot.dots {
        let sign = if dot.value > field.high {
            '^'
        } else if dot.value < field.low {
            'v'
        } else if dot.beyond {
            'x'
        } else {
            'o'
        };
        field.put(dot.day, dot.value, sign);
    }
    field.write(text, series, plot.first);
    legend(text, &plot);
}

fn legend(text: &mut String, plot: &Plot) {
    let mut signs = vec!["o a reading"];
    if plot.limit.is_some() {
        signs.push("= the limit");
    }
    if plot.dots.iter().any(|dot| dot.beyond) {
        signs.push("x one beyond it");
    }
    if plot.ahead.is_some() {
        signs.push(". the line");
        signs.push(": its interval");
    }
    put(text, 4, &signs.join("   "));
}

impl Field {
    /// An empty field for what is drawn.
    fn of(plot: &Plot) -> Option<Self> {
        let Frame { days, low, high } = plot.frame()?;
        Some(Self {
            days,
            low,
            high,
            cells: vec![vec![' '; COLUMNS]; ROWS],
        })
    }

    fn put(&mut self, day: f64, value: f64, sign: char) {
        let value = value.clamp(self.low, self.high);
        let column = scaled(day / self.days, COLUMNS);
        let row = scaled((self.high - value) / (self.high - self.low), ROWS);
        let cell = row
            .zip(column)
            .and_then(|(row, column)| self.cells.get_mut(row)?.get_mut(column));
        if let Some(cell) = cell {
            *cell = sign;
        }
    }

    /// A line, one sign a column; what runs out of the field is left out.
    fn line(&mut self, segment: &Segment, sign: char) {
        let ((from, start), (to, end)) = (segment.from, segment.to);
        let steps = COLUMNS * 2;
        for (step, part) in (0..=steps).zip(0_u32..) {
            let share = f64::from(part) / steps.to_f64().unwrap_or(1.0);
            let (day, value) = (from + (to - from) * share, start + (end - start) * share);
            let is_in = value >= self.low && value <= self.high && day <= self.days;
            if is_in && step <= steps {
                self.put(day, value, sign);
            }
        }
    }

    fn write(&self, text: &mut String, series: &Series, first: NaiveDate) {
        let label = |value: f64| {
            let (upper, lower) = series.kind.step();
            let step = Exact::ratio(upper, lower)?;
            Exact::nearest(value, &step).map(|value| value.to_string())
        };
        for (row, cells) in self.cells.iter().enumerate() {
            let share = row.to_f64().zip((ROWS - 1).to_f64());
            let value = share.map(|(row, rows)| self.high - (self.high - self.low) * row / rows);
            let label = value
                .filter(|_| row % 3 == 0)
                .and_then(label)
                .unwrap_or_default();
            let line: String = cells.iter().collect();
            text.push_str(format!("{label:>LABEL$} |{line}").trim_end());
            text.push('\n');
        }
        let bare = format!("{:>LABEL$} +{}", "", "-".repeat(COLUMNS));
        text.push_str(&bare);
        text.push('\n');
        let days = self.days.to_u64().unwrap_or(0);
        let last = first.checked_add_days(Days::new(days)).unwrap_or(first);
        let (first, last) = (day(first), day(last));
        let room = COLUMNS.saturating_sub(first.len() + last.len());
        let line = format!(
            "{:>LABEL$}  {first}{}{last}",
            series.kind.unit().symbol(),
            " ".repeat(room)
        );
        text.push_str(&line);
        text.push('\n');
    }
}

/// The place of a share among so many.
fn scaled(share: f64, places: usize) -> Option<usize> {
    let last = places.checked_sub(1)?.to_f64()?;
    (share.clamp(0.0, 1.0) * last).round().to_usize()
}
