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

/// The text with a full stop behind it, where no sentence ends with it already, in quotation marks or
/// not.
pub fn ended(text: &str) -> String {
    let bare = text.trim_end_matches(['”', '"']);
    let stop = if bare.ends_with(['.', '!', '?']) {
        ""
    } else {
        "."
    };
    format!("{text}{stop}")
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
    fn a_sentence_that_has_its_full_stop_gets_no_other() {
        for (text, ends) in [
            ("It is ordered", "It is ordered."),
            ("It is ordered.", "It is ordered."),
            ("“The part is ordered.”", "“The part is ordered.”"),
            ("“Who has it?”", "“Who has it?”"),
            ("“until spring”", "“until spring”."),
        ] {
            assert_eq!(ended(text), ends);
        }
    }

    #[test]
    fn what_moves_a_cursor_or_turns_the_writing_is_shown_as_its_code() {
        assert_eq!(harmless("a\u{1b}[2Jb"), "a\\u{1b}[2Jb");
        assert_eq!(harmless("Fenn\u{202e}nnef"), "Fenn\\u{202e}nnef");
        assert_eq!(harmless("two\nlines"), "two\\u{a}lines");
        assert_eq!(harmless("“Żółw” · 70 °F"), "“Żółw” · 70 °F");
    }
}
