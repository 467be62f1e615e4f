//! The tables of `tests/vectors/judged.csv`.

use hames::units::{Dimension, Quantity, parse_quantity};

const FILE: &str = include_str!("../../vectors/judged.csv");

/// A row with its columns' names.
pub(super) struct Row {
    cells: Vec<(&'static str, &'static str)>,
}

impl Row {
    pub(super) fn id(&self) -> &'static str {
        self.get("id")
    }

    /// What stands in a column.
    #[track_caller]
    pub(super) fn get(&self, column: &str) -> &'static str {
        let cell = self.cells.iter().find(|(name, _)| *name == column);
        cell.unwrap_or_else(|| panic!("{:?} has no {column}", self.cells))
            .1
    }

    /// What stands in a column, unless it says `none`.
    pub(super) fn some(&self, column: &str) -> Option<&'static str> {
        Some(self.get(column)).filter(|cell| *cell != "none")
    }

    pub(super) fn dimension(&self) -> Dimension {
        Dimension::from_word(self.get("of")).unwrap()
    }

    /// A quantity of the row's dimension.
    pub(super) fn quantity(&self, column: &str) -> Quantity {
        parse_quantity(self.get(column), self.dimension())
            .unwrap_or_else(|reason| panic!("{}: {reason}", self.id()))
    }

    /// Forces, parted by commas.
    pub(super) fn forces(&self, column: &str) -> Vec<Quantity> {
        let forces = self.get(column).split(", ");
        forces
            .map(|force| parse_quantity(force, Dimension::Force).unwrap())
            .collect()
    }
}

/// The rows of one table.
pub(super) fn rows(name: &str) -> Vec<Row> {
    let head = format!("\n== {name}\n");
    let (_, from) = FILE
        .split_once(&head)
        .unwrap_or_else(|| panic!("no table {name}"));
    let mut lines = from.lines().take_while(|line| !line.is_empty());
    let columns: Vec<&str> = lines.next().unwrap().split("; ").collect();
    lines.map(|line| row(line, &columns)).collect()
}

/// The rows of all tables.
pub(super) fn all() -> Vec<Row> {
    let names = FILE.lines().filter_map(|line| line.strip_prefix("== "));
    names.flat_map(rows).collect()
}

/// The last column is the source, which may have semicolons of its own.
fn row(line: &'static str, columns: &[&'static str]) -> Row {
    let cells: Vec<&str> = line.splitn(columns.len(), "; ").collect();
    assert_eq!(cells.len(), columns.len(), "{line}");
    Row {
        cells: columns.iter().copied().zip(cells).collect(),
    }
}

/// What a word of a closed list means.
pub(super) fn word<T: Copy>(words: &[(&str, T)], word: &str) -> T {
    let found = words.iter().find(|(name, _)| *name == word);
    found.unwrap_or_else(|| panic!("no word {word}")).1
}
