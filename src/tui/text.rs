//! Text made fit for a terminal: wrapped, shortened and escaped.

use crate::text::harmless;
use crate::walk::Moment;
use ratatui::text::Span;

/// Longest line of running text; longer ones are hard to read (Degani 1992 on the typography of
/// checklists gives no number; 66 characters is common practice, no source).
pub(crate) const MEASURE: usize = 66;

/// Breaks a text at blanks into lines of at most `width` columns; a longer word is cut.
pub(crate) fn wrap(text: &str, width: usize) -> Vec<String> {
    let width = width.max(1);
    let mut lines = vec![String::new()];
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        let mut rest = word;
        loop {
            let line = lines.last_mut().map_or(0, |line| columns(line));
            let gap = usize::from(line > 0);
            if line + gap + columns(rest) <= width {
                push(&mut lines, gap, rest);
                break;
            }
            if line > 0 {
                lines.push(String::new());
                continue;
            }
            let (head, tail) = cut(rest, width);
            push(&mut lines, 0, head);
            if tail.is_empty() {
                break;
            }
            lines.push(String::new());
            rest = tail;
        }
    }
    lines
}

/// The beginning of a text, at most `width` columns, with `..` where something is left away.
pub(crate) fn shorten(text: &str, width: usize) -> String {
    if columns(text) <= width {
        return text.to_owned();
    }
    let (head, _) = cut(text, width.saturating_sub(2).max(1));
    let dots = if width > 2 { ".." } else { "" };
    format!("{}{dots}", head.trim_end())
}

/// How many columns of a terminal a text takes.
pub(crate) fn columns(text: &str) -> usize {
    Span::raw(text).width()
}

/// A text from a record, with everything that could move a cursor or turn the writing shown as its
/// code instead.
pub(crate) fn escaped(text: &str) -> String {
    harmless(text)
}

/// The time of day, to the minute.
pub(crate) fn time_of(moment: &Moment) -> String {
    moment.wall.format("%H:%M").to_string()
}

fn push(lines: &mut [String], gap: usize, word: &str) {
    if let Some(line) = lines.last_mut() {
        line.push_str(" ".get(..gap).unwrap_or_default());
        line.push_str(word);
    }
}

/// Splits a text after as many characters as fit `width`, at least one.
fn cut(text: &str, width: usize) -> (&str, &str) {
    let fits = text
        .char_indices()
        .map(|(at, letter)| at + letter.len_utf8())
        .take_while(|end| text.get(..*end).is_some_and(|head| columns(head) <= width))
        .last();
    let first = text.chars().next().map_or(0, char::len_utf8);
    text.split_at(fits.unwrap_or(first))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn text_breaks_at_blanks_and_only_a_longer_word_is_cut() {
        assert_eq!(wrap("latch and pin", 9), ["latch and", "pin"]);
        assert_eq!(wrap("a breakaway b", 5), ["a", "break", "away", "b"]);
        assert_eq!(wrap("", 5), [""]);
    }

    #[test]
    fn what_could_move_a_cursor_or_turn_the_writing_is_shown_as_its_code() {
        assert_eq!(escaped("a\u{1b}[2J\u{202e}b"), "a\\u{1b}[2J\\u{202e}b");
        assert_eq!(escaped("Åsa, 18 1/4\""), "Åsa, 18 1/4\"");
    }

    proptest! {
        #[test]
        fn no_line_is_wider_than_asked_and_no_letter_is_lost(text in "\\PC{0,80}", width in 2usize..40) {
            let lines = wrap(&text, width);
            prop_assert!(lines.iter().all(|line| columns(line) <= width), "{lines:?}");
            let letters = |text: &str| text.chars().filter(|c| *c != ' ').collect::<String>();
            prop_assert_eq!(letters(&lines.concat()), letters(&text));
        }
    }
}
