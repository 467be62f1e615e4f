//! Paths within the commands that are printed, so that what is copied to a shell does what it says.

use crate::walk::Words;
use std::path::Path;

/// A path as any POSIX shell takes it for one word, and no program for a flag.
pub(super) fn quoted(path: &Path) -> String {
    let bytes = path.as_os_str().as_encoded_bytes();
    let flag = if bytes.starts_with(b"-") { "./" } else { "" };
    match path.to_str() {
        Some(text) if is_plain(text) => format!("{flag}{text}"),
        Some(text) if !text.contains(char::is_control) => {
            format!("'{flag}{}'", text.replace('\'', "'\\''"))
        }
        _ => format!("$'{flag}{}'", in_octal(bytes)),
    }
}

/// What stands in a printed command for words that somebody has to think of.
const PLACEHOLDER: &str = "WORDS";

/// A reason typed behind a flag. What a printed command has in its place is none: it would be signed
/// for good.
pub(super) fn reason(flag: &str, typed: &str) -> Result<Words, String> {
    let words = Words::read(typed).map_err(|fault| format!("The words behind {flag}: {fault}."))?;
    if says_nothing(words.as_str()) {
        return Err(format!(
            "“{typed}” stands in the command for words of your own. Type behind {flag} why, in words \
             that are understood in years."
        ));
    }
    Ok(words)
}

/// Whether it is only the place of words.
pub(super) fn says_nothing(words: &str) -> bool {
    let mut letters = words.chars();
    words == PLACEHOLDER
        || letters.all(|letter| matches!(letter, '.' | '…' | ' ' | '"' | '“' | '”' | '\''))
}

/// Whether a shell takes it as it stands.
pub(super) fn is_plain(text: &str) -> bool {
    let plain = |letter: char| letter.is_ascii_alphanumeric() || "/._-".contains(letter);
    !text.is_empty() && text.chars().all(plain)
}

/// What a terminal would not show as it is, by number, as POSIX has it within `$'…'`.
fn in_octal(bytes: &[u8]) -> String {
    let told = bytes.iter().map(|byte| {
        if matches!(byte, b'\'' | b'\\') || !(b' '..=b'~').contains(byte) {
            format!("\\{byte:03o}")
        } else {
            char::from(*byte).to_string()
        }
    });
    told.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_is_one_word_to_a_shell_whatever_is_in_it() {
        for (path, word) in [
            ("/barn/keys/wren.ashdown", "/barn/keys/wren.ashdown"),
            (
                "/barn/keys/wren.ashdown - Copy",
                "'/barn/keys/wren.ashdown - Copy'",
            ),
            ("Odile's $HOME;ls", "'Odile'\\''s $HOME;ls'"),
            ("~/barn", "'~/barn'"),
            ("-rf", "./-rf"),
            ("- Copy", "'./- Copy'"),
            ("", "''"),
            ("a\nb\u{1b}'", "$'a\\012b\\033\\047'"),
        ] {
            assert_eq!(quoted(Path::new(path)), word, "{path:?}");
        }
    }
}
