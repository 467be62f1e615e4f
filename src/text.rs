//! Text that comes from files and people, made fit to be shown: it never moves a cursor, never
//! turns the writing, and is never taken for markup.

mod lines;
mod markup;

pub(crate) use lines::{put, row};
pub use markup::escaped;

/// Whether a letter hides, or turns the writing of others. Joiners are among them: a name that
/// needs one is shown with its code, and is told from the name without it.
pub fn hides(letter: char) -> bool {
    matches!(letter,
        '\u{ad}' | '\u{61c}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}'
        | '\u{2060}'..='\u{206f}' | '\u{feff}' | '\u{e0000}'..='\u{e007f}')
}

/// The text as a sentence begins.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(char::to_uppercase);
    first.into_iter().flatten().chain(letters).collect()
}

/// The text with everything that could move a cursor or turn the writing shown as its code instead.
pub fn harmless(text: &str) -> String {
    let mut shown = String::with_capacity(text.len());
    for letter in text.chars() {
        if letter.is_control() || hides(letter) {
            shown.extend(letter.escape_unicode());
        } else {
            shown.push(letter);
        }
    }
    shown
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_moves_a_cursor_or_turns_the_writing_is_shown_as_its_code() {
        assert_eq!(harmless("a\u{1b}[2Jb"), "a\\u{1b}[2Jb");
        assert_eq!(harmless("Fenn\u{202e}nnef"), "Fenn\\u{202e}nnef");
        assert_eq!(harmless("two\nlines"), "two\\u{a}lines");
        assert_eq!(harmless("“Żółw” · 70 °F"), "“Żółw” · 70 °F");
    }
}
