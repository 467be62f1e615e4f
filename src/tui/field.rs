//! A line of text being typed. The cursor is always at its end.

use crate::walk::Words;
use zeroize::Zeroizing;

/// A line of text being typed.
#[derive(Clone, Default, PartialEq, Eq)]
pub(crate) struct Field {
    /// Wiped from memory when dropped: it may be a passphrase.
    text: Zeroizing<String>,
}

impl Field {
    /// Adds a character, as long as the line stays within what a record takes.
    pub(crate) fn add(&mut self, letter: char) {
        // Full from the start, so that no half of a passphrase is left behind by growing.
        if self.text.capacity() == 0 {
            self.text.reserve(4 * Words::LONGEST);
        }
        if !letter.is_control() && self.text.chars().count() < Words::LONGEST {
            self.text.push(letter);
        }
    }

    /// Adds what was pasted; line ends and other controls fall away.
    pub(crate) fn paste(&mut self, text: &str) {
        text.chars().for_each(|letter| self.add(letter));
    }

    /// Takes the last character away.
    pub(crate) fn erase(&mut self) {
        self.text.pop();
    }

    /// What was typed.
    pub(crate) fn text(&self) -> &str {
        &self.text
    }

    /// Whether nothing is typed.
    pub(crate) fn is_empty(&self) -> bool {
        self.text.is_empty()
    }

    /// What was typed, taken out.
    pub(crate) fn take(&mut self) -> Zeroizing<String> {
        std::mem::take(&mut self.text)
    }
}

/// Shows how much was typed and nothing of it.
impl std::fmt::Debug for Field {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Field({} characters)", self.text.chars().count())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_paste_loses_its_line_ends_and_stops_at_what_a_record_takes() {
        let mut field = Field::default();
        field.paste("one\r\ntwo\u{1b}[2J");
        assert_eq!(field.text(), "onetwo[2J");
        field.paste(&"x".repeat(1000));
        assert_eq!(field.text().chars().count(), Words::LONGEST);
    }

    #[test]
    fn a_field_shows_nothing_of_a_passphrase_in_a_panic_message() {
        let mut field = Field::default();
        field.paste("hay and oats");
        assert_eq!(format!("{field:?}"), "Field(12 characters)");
    }
}
