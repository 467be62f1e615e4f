//! Where something stands in a file.

use std::fmt;

/// A line and a column, both counted from one, columns in characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Place {
    /// The line.
    pub line: usize,
    /// The column.
    pub column: usize,
}

impl Place {
    /// The first character of a file.
    pub const START: Self = Self { line: 1, column: 1 };

    /// The place behind `text`, when `text` is how a file begins.
    pub(crate) fn after(text: &str) -> Self {
        let unified = text.replace("\r\n", "\n").replace('\r', "\n");
        let last = unified.rsplit('\n').next().unwrap_or_default();
        Self {
            line: unified.matches('\n').count() + 1,
            column: last.chars().count() + 1,
        }
    }
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}", self.line, self.column)
    }
}

/// A value or key of one [`Document`](crate::document::Document), small enough to be kept beside
/// what was built from it.
///
/// It is the count of values and keys before it, so spots sort as the file reads.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Spot(pub(crate) usize);
