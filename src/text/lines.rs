//! Lines of text, none longer than 80 columns.

/// Columns of a line.
const WIDTH: usize = 80;

/// Columns before the value.
const LABEL: usize = 48;

/// A label with its value behind it, or below where the two do not fit one line.
pub(crate) fn row(text: &mut String, indent: usize, label: &str, value: &str) {
    let room = LABEL - indent;
    if letters(label) < room && LABEL + letters(value) <= WIDTH {
        put(text, indent, &format!("{label:<room$}{value}"));
    } else {
        put(text, indent, label);
        put(text, LABEL.min(WIDTH.saturating_sub(letters(value))), value);
    }
}

/// A text, broken at blanks into indented lines.
pub(crate) fn put(text: &mut String, indent: usize, words: &str) {
    for line in wrapped(words, WIDTH - indent) {
        text.push_str(&" ".repeat(indent));
        text.push_str(line.trim_end());
        text.push('\n');
    }
}

/// Lines of at most so many letters, broken at blanks; a longer word stays whole.
fn wrapped(words: &str, width: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words.split(' ') {
        match lines.last_mut() {
            Some(line) if letters(line) + 1 + letters(word) <= width => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines.retain(|line| !line.is_empty());
    lines
}

fn letters(text: &str) -> usize {
    text.chars().count()
}
