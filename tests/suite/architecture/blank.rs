//! Blanks what is not code, so that a word in a comment or a string names nothing.

/// `source` with comments, strings and characters replaced by spaces. Line breaks stay, so a
/// line has the number it had.
pub(crate) fn blanked(source: &str) -> String {
    let chars: Vec<char> = source.chars().collect();
    let mut out = String::with_capacity(source.len());
    let mut at = 0;
    while at < chars.len() {
        let end = not_code_until(&chars, at);
        if end == at {
            out.push(chars[at]);
            at += 1;
        } else {
            out.extend(
                chars[at..end]
                    .iter()
                    .map(|c| if *c == '\n' { '\n' } else { ' ' }),
            );
            at = end;
        }
    }
    out
}

/// Where the comment, string or character that begins at `at` ends; `at` itself if none does.
fn not_code_until(chars: &[char], at: usize) -> usize {
    let next = chars.get(at + 1).copied();
    match chars[at] {
        '/' if next == Some('/') => line_end(chars, at),
        '/' if next == Some('*') => comment_end(chars, at),
        '"' => string_end(chars, at + 1),
        '\'' => char_end(chars, at),
        'r' | 'b' | 'c' if !continues_a_word(chars, at) => prefixed_end(chars, at),
        _ => at,
    }
}

fn continues_a_word(chars: &[char], at: usize) -> bool {
    at > 0 && (chars[at - 1].is_alphanumeric() || chars[at - 1] == '_')
}

fn line_end(chars: &[char], at: usize) -> usize {
    (at..chars.len())
        .find(|i| chars[*i] == '\n')
        .unwrap_or(chars.len())
}

fn comment_end(chars: &[char], at: usize) -> usize {
    let mut depth = 1;
    let mut i = at + 2;
    while i < chars.len() && depth > 0 {
        match (chars[i], chars.get(i + 1)) {
            ('/', Some('*')) => (depth, i) = (depth + 1, i + 2),
            ('*', Some('/')) => (depth, i) = (depth - 1, i + 2),
            _ => i += 1,
        }
    }
    i.min(chars.len())
}

fn string_end(chars: &[char], first: usize) -> usize {
    let mut i = first;
    while i < chars.len() {
        match chars[i] {
            '\\' => i += 2,
            '"' => return i + 1,
            _ => i += 1,
        }
    }
    chars.len()
}

/// A quote is a character only when one closes behind it; else it begins a lifetime.
fn char_end(chars: &[char], at: usize) -> usize {
    match (chars.get(at + 1), chars.get(at + 2)) {
        (Some('\\'), _) => (at + 3..chars.len())
            .find(|i| chars[*i] == '\'')
            .map_or(chars.len(), |i| i + 1),
        (Some(_), Some('\'')) => at + 3,
        _ => at,
    }
}

/// `r"…"`, `r#"…"#`, `b"…"`, `br#"…"#`, `b'…'`, `c"…"`; `at` if the letter begins a mere name.
fn prefixed_end(chars: &[char], at: usize) -> usize {
    let letters = chars[at..]
        .iter()
        .take_while(|c| matches!(c, 'r' | 'b' | 'c'))
        .count();
    let prefix: String = chars[at..at + letters].iter().collect();
    let hashes = chars[at + letters..]
        .iter()
        .take_while(|c| **c == '#')
        .count();
    let open = at + letters + hashes;
    match (prefix.as_str(), chars.get(open)) {
        ("r" | "br" | "cr", Some('"')) => raw_end(chars, open + 1, hashes),
        ("b" | "c", Some('"')) if hashes == 0 => string_end(chars, open + 1),
        ("b", Some('\'')) if hashes == 0 => char_end(chars, open),
        _ => at,
    }
}

fn raw_end(chars: &[char], first: usize, hashes: usize) -> usize {
    let closes = |i: &usize| {
        chars[*i] == '"' && chars[*i + 1..].iter().take_while(|c| **c == '#').count() >= hashes
    };
    (first..chars.len())
        .find(closes)
        .map_or(chars.len(), |i| i + 1 + hashes)
}
