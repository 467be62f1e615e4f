//! The line of a file that a finding stands in, with a mark below its column.

use crate::document::Place;

/// Most characters of a line shown: beside the number it fits a window of 80 columns.
const WIDEST: usize = 68;

/// Characters shown before the column, where a long line is cut there.
const BEFORE: usize = 30;

/// What stands where a line is cut.
const CUT: &str = "...";

/// The line and the mark, both ended by a line end; nothing where there is no such line.
pub(super) fn excerpt(text: &str, place: Place) -> Option<String> {
    let line = text.lines().nth(place.line.checked_sub(1)?)?;
    // The column counts from behind a byte order mark, which is no letter.
    let line = line.trim_start_matches('\u{feff}').trim_end();
    let letters: Vec<char> = line.chars().map(shown).collect();
    let column = place.column.checked_sub(1)?.min(letters.len());
    let long = letters.len() > WIDEST;
    let from = if long {
        column.saturating_sub(BEFORE)
    } else {
        0
    };
    let (before, room) = if from > 0 {
        (CUT, WIDEST - CUT.len())
    } else {
        ("", WIDEST)
    };
    let rest = letters.len() - from;
    let (after, room) = if rest > room {
        (CUT, room - CUT.len())
    } else {
        ("", room)
    };
    let part: String = letters.iter().skip(from).take(room).collect();
    let number = place.line;
    let blank = " ".repeat(number.to_string().len());
    let indent = " ".repeat(before.len() + column - from);
    Some(format!(
        "  {number} | {before}{part}{after}\n  {blank} | {indent}^\n"
    ))
}

/// One column for each letter, and nothing that moves a cursor.
fn shown(letter: char) -> char {
    match letter {
        '\t' => ' ',
        letter if letter.is_control() => '?',
        letter => letter,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(text: &str, line: usize, column: usize) -> String {
        excerpt(text, Place { line, column }).unwrap_or_default()
    }

    #[test]
    fn the_mark_stands_below_its_column() {
        let text = "format: hames-checklist/1\nplace: tyres\n";
        assert_eq!(of(text, 2, 8), "  2 | place: tyres\n    |        ^\n");
        assert_eq!(of("\u{feff}a: 1", 1, 1), "  1 | a: 1\n    | ^\n");
        assert_eq!(of("a:\tb\u{1b}[2J", 1, 3), "  1 | a: b?[2J\n    |   ^\n");
    }

    #[test]
    fn a_long_line_is_cut_on_both_sides_of_its_column() {
        let text = format!("{}HERE{}", "a".repeat(80), "b".repeat(80));
        let told = of(&text, 1, 81);
        let mut lines = told.lines();
        let (line, mark) = (lines.next().unwrap(), lines.next().unwrap());
        assert!(line.chars().count() <= 80, "{line}");
        assert!(
            line.starts_with("  1 | ...aaa") && line.ends_with("bbb..."),
            "{line}"
        );
        assert_eq!(line.find("HERE"), mark.find('^'));
    }

    #[test]
    fn a_place_at_the_end_or_beyond_it_stops_nobody() {
        assert_eq!(of("a: 1\n", 1, 99), "  1 | a: 1\n    |     ^\n");
        assert_eq!(of("a: 1\n", 2, 1), "");
        assert_eq!(of("", 1, 1), "");
    }

    proptest::proptest! {
        #[test]
        fn whatever_the_line_the_mark_is_on_screen(text in "\\PC{0,200}", column in 1..250_usize) {
            let told = of(&text, 1, column);
            for line in told.lines() {
                proptest::prop_assert!(line.chars().count() <= 80, "{}", line);
            }
        }
    }
}
