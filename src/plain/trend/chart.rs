//! A chart of letters: `o` a reading, `x` one beyond the limit, `=` the limit, `.` the line, `:` the
//! two ends of its interval from the newest reading on.

use crate::plain::lines::put;
use crate::review::trend::{Ahead, Plot, Segment, Series};
use crate::units::Exact;
use chrono::{Days, NaiveDate};
use num_traits::ToPrimitive;

/// Columns and rows of the field, and columns before it.
const COLUMNS: usize = 62;
const ROWS: usize = 10;
const LABEL: usize = 9;

/// Readings further off than so many times the middle half is wide stand at the edge: a point that
/// was forgotten in typing would else press all others flat. Tukey's outer fence.
const FENCE: f64 = 3.0;

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
    /// The field that holds all but wild readings.
    fn of(plot: &Plot) -> Option<Self> {
        let mut values: Vec<f64> = plot.dots.iter().map(|dot| dot.value).collect();
        values.sort_unstable_by(f64::total_cmp);
        let at = |part: usize| {
            values
                .get(values.len().saturating_sub(1) * part / 4)
                .copied()
        };
        let (lower, upper) = (at(1)?, at(3)?);
        let fence = FENCE * (upper - lower);
        let is_near =
            |value: f64| fence <= 0.0 || (value >= lower - fence && value <= upper + fence);
        let near = values.iter().copied().filter(|value| is_near(*value));
        let ahead = plot.ahead.iter();
        let ends = ahead.flat_map(|ahead| [ahead.low.to, ahead.likely.to, ahead.high.to]);
        let levels = near.chain(plot.limit);
        let (low, high) = levels.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
            (low.min(value), high.max(value))
        });
        let last = plot.dots.last()?.day;
        let days = ends.map(|(day, _)| day).fold(last.max(1.0), f64::max);
        // Not flat, even where all readings are alike.
        let room = ((high - low) * 0.05).max(f64::max(high.abs(), 1.0) * 0.001);
        Some(Self {
            days,
            low: low - room,
            high: high + room,
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
        let (first, last) = (super::words::day(first), super::words::day(last));
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
