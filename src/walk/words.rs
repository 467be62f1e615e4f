//! Free words a person typed: one line, bounded, without control characters.

use std::fmt;

/// One line of text, never empty.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Words(String);

/// Why a text is refused.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotWords {
    /// Nothing but blanks.
    Empty,
    /// More than [`Words::LONGEST`] characters.
    TooLong,
    /// A control character, which could disturb a terminal later.
    Control,
}

impl Words {
    /// Most characters one line may have.
    pub const LONGEST: usize = 400;

    /// Takes a line of text, blanks at its ends taken off.
    ///
    /// # Errors
    /// [`NotWords`] when it is empty, too long, or holds control characters.
    pub fn read(text: &str) -> Result<Self, NotWords> {
        let text = text.trim();
        if text.is_empty() {
            return Err(NotWords::Empty);
        }
        if text.chars().any(char::is_control) {
            return Err(NotWords::Control);
        }
        if text.chars().count() > Self::LONGEST {
            return Err(NotWords::TooLong);
        }
        Ok(Self(text.to_owned()))
    }

    /// The text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Words {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl fmt::Display for NotWords {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str("nothing was typed"),
            Self::TooLong => write!(f, "more than {} characters were typed", Words::LONGEST),
            Self::Control => f.write_str("a control character was typed"),
        }
    }
}
