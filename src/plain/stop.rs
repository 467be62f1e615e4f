//! Why the line-by-line mode stops in the middle of a question.

use std::io;

/// Why no answer came to a question.
#[derive(Debug)]
pub(crate) enum Stop {
    /// The person asked to leave.
    Left,
    /// The input came to its end.
    InputEnded,
    /// The disk failed.
    DiskFailed,
    /// The output or the input failed.
    Broken(io::Error),
}

impl From<io::Error> for Stop {
    fn from(error: io::Error) -> Self {
        Self::Broken(error)
    }
}
