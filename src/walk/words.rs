//! Free words a person typed: one line, bounded, all of it printable.

use crate::text::hides;
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
    /// A character that cannot be printed, or that hides or turns the writing.
    Unprintable(char),
}

impl Words {
    /// Most characters one line may have.
    pub const LONGEST: usize = 400;

    /// Takes a line of text, blanks at its ends taken off.
    ///
    /// # Errors
    /// [`NotWords`] when it is empty, too long, or holds what [`unprintable`] says.
    pub fn read(text: &str) -> Result<Self, NotWords> {
        let text = text.trim();
        if text.is_empty() {
            return Err(NotWords::Empty);
        }
        if let Some(letter) = text.chars().find(|letter| unprintable(*letter)) {
            return Err(NotWords::Unprintable(letter));
        }
        if text.chars().count() > Self::LONGEST {
            return Err(NotWords::TooLong);
        }
        Ok(Self(text.to_owned()))
    }

    /// The text, taken out.
    pub fn into_string(self) -> String {
        self.0
    }

    /// The text.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// Whether both name the same person: letter case, points, commas, and the order of the names
    /// make no other person of anyone.
    pub fn names_whom(&self, other: &str) -> bool {
        let parts = |name: &str| {
            let mut parts: Vec<String> = name
                .split(|letter: char| !letter.is_alphanumeric())
                .filter(|part| !part.is_empty())
                .map(str::to_lowercase)
                .collect();
            parts.sort();
            parts
        };
        parts(&self.0) == parts(other)
    }
}

/// Controls, blanks other than the plain one, and the marks of Unicode that hide or reorder text.
pub fn unprintable(letter: char) -> bool {
    if matches!(letter, ' '..='~') {
        return false;
    }
    letter.is_control() || letter.is_whitespace() || hides(letter)
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
            Self::Unprintable(letter) => write!(
                f,
                "{} was typed, which cannot be printed or hides or turns the writing",
                letter.escape_unicode()
            ),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_person_is_the_same_in_any_spelling_of_the_name() {
        let tobias = Words::read("Tobias Fenn").unwrap();
        for same in [
            "tobias FENN",
            "Tobias  Fenn",
            "Tobias Fenn.",
            "Fenn, Tobias",
            "tobias.fenn",
            "TOBIAS-FENN",
        ] {
            assert!(tobias.names_whom(same), "{same}");
        }
        for other in ["Tobias", "Tobias Fennel", "Odile Marsh", "?"] {
            assert!(!tobias.names_whom(other), "{other}");
        }
    }

    #[test]
    fn words_that_hide_or_turn_the_writing_are_refused() {
        for text in [
            "a\u{7}b",
            "Tobias\u{200b} Fenn",
            "ok\u{202e}pots",
            "a\u{2028}b",
            "Tobias\u{a0}Fenn",
        ] {
            assert!(
                matches!(Words::read(text), Err(NotWords::Unprintable(_))),
                "{text:?}"
            );
        }
        assert!(Words::read("José, 5 °C – “fine”").is_ok());
    }
}
