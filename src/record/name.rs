//! The printed name of a person or device, as it stands on every page a signature is shown.

use crate::walk::unprintable;
use std::fmt;

/// A name fit to print: one line, not blank, nothing that moves a cursor or turns the writing.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct PrintedName(String);

/// Why a text is not a name fit to print.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotAName {
    /// Nothing there.
    Empty,
    /// More than [`PrintedName::LONGEST`] characters.
    Long(usize),
    /// Blanks at an end, or two together.
    Blanks,
    /// A character that cannot be printed, or that changes the direction of writing.
    Unprintable(char),
}

impl PrintedName {
    /// Most characters a printed name has.
    pub const LONGEST: usize = 100;

    /// Reads a printed name.
    ///
    /// # Errors
    /// [`NotAName`] with the reason.
    pub fn read(text: &str) -> Result<Self, NotAName> {
        let length = text.chars().count();
        if text.is_empty() {
            Err(NotAName::Empty)
        } else if length > Self::LONGEST {
            Err(NotAName::Long(length))
        } else if let Some(letter) = text.chars().find(|letter| unprintable(*letter)) {
            Err(NotAName::Unprintable(letter))
        } else if text.split(' ').any(str::is_empty) {
            Err(NotAName::Blanks)
        } else {
            Ok(Self(text.to_owned()))
        }
    }

    /// The name as text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for PrintedName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl fmt::Display for NotAName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(f, "the printed name is missing"),
            Self::Long(length) => write!(
                f,
                "the printed name has {length} characters; {} is the most",
                PrintedName::LONGEST
            ),
            Self::Blanks => write!(
                f,
                "the printed name has a blank at an end, or two together; take it out"
            ),
            Self::Unprintable(letter) => write!(
                f,
                "the printed name has a character that cannot be printed ({}); take it out",
                letter.escape_unicode()
            ),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_that_could_mislead_a_reader_is_refused() {
        for right in ["Wren Ashdown", "Åsa Lindqvist-Öberg", "D'Arcy", "王小明"] {
            assert_eq!(PrintedName::read(right).unwrap().as_str(), right);
        }
        for (wrong, reason) in [
            ("", NotAName::Empty),
            (" Wren", NotAName::Blanks),
            ("Wren  Ashdown", NotAName::Blanks),
            ("Wren\u{1b}[2J", NotAName::Unprintable('\u{1b}')),
            ("Wren\nAshdown", NotAName::Unprintable('\n')),
            ("nerW\u{202e}", NotAName::Unprintable('\u{202e}')),
            ("Wren\u{a0}A", NotAName::Unprintable('\u{a0}')),
            (&"x".repeat(101), NotAName::Long(101)),
        ] {
            assert_eq!(PrintedName::read(wrong), Err(reason), "{wrong:?}");
        }
    }
}
