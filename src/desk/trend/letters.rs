//! A chart of letters, as it stands below what is said of a series where lines of text are all there
//! is.

use crate::desk::trend::day;
use crate::review::trend::{Grid, Mark, Series};
use crate::text::put;

/// Columns of the field, and before it.
const COLUMNS: usize = 62;
const LABEL: usize = 9;

/// Rows from one value beside the field to the next.
const EVERY: usize = 3;

/// A series in so many rows, each a line of at most 80 columns of ASCII; nothing of one without a
/// point.
pub fn letters(series: &Series, rows: usize) -> Option<String> {
    let plot = series.plot()?;
    let grid = Grid::of(&plot, COLUMNS, rows)?;
    let limit = plot
        .limit
        .and_then(|limit| Some((grid.row_of(limit)?, limit)));
    let mut text = String::new();
    let letter = |cell: &Option<Mark>| cell.map_or(' ', Mark::letter);
    for (row, cells) in grid.rows().enumerate() {
        // What stands at the limit is the limit, and not the middle of its row.
        let value = match limit {
            Some((at, limit)) if at == row => Some(limit),
            _ => grid.value_at(row).filter(|_| row % EVERY == 0),
        };
        let label = value.and_then(|value| series.kind.nearest(value));
        let label = label.map_or_else(String::new, |label| label.value.to_string());
        let line: String = cells.iter().map(letter).collect();
        text.push_str(format!("{label:>LABEL$} |{line}").trim_end());
        text.push('\n');
    }
    let (first, last) = grid.days();
    let (first, last) = (day(first), day(last));
    let room = COLUMNS.saturating_sub(first.len() + last.len());
    let below = format!(
        "{:>LABEL$} +{}\n{:>LABEL$}  {first}{}{last}\n",
        "",
        "-".repeat(COLUMNS),
        series.kind.unit().symbol(),
        " ".repeat(room)
    );
    text.push_str(&below);
    let signs = grid.marks().into_iter();
    let signs = signs.map(|mark| format!("{} {}", mark.letter(), mark.told()));
    put(&mut text, 4, &signs.collect::<Vec<_>>().join("   "));
    Some(text)
}
