//! What is settled before a value is read: size, nothing unseen, nothing that points elsewhere.

use crate::document::fault::hides;
use crate::document::{Fault, MOST_BYTES, Place, pointers};
use memchr::memchr2_iter;

/// Brackets and braces a file may open. The parser's time grows with the square of how deep they
/// stand in one another; at this bound the worst file takes less than a second.
const MOST_BRACKETS: usize = 10_000;

/// Refuses a text that is too long, holds what cannot be seen, or uses anchors, aliases or tags.
pub(crate) fn screen(text: &str) -> Result<(), Vec<Fault>> {
    if text.len() > MOST_BYTES {
        let what = format!(
            "the file has {} bytes, and {MOST_BYTES} are the most",
            text.len()
        );
        return Err(vec![refusal(
            Place::START,
            what,
            "split it into several files",
        )]);
    }
    let brackets = memchr2_iter(b'[', b'{', text.as_bytes()).count();
    if brackets > MOST_BRACKETS {
        let what = format!("the file opens {brackets} brackets, and {MOST_BRACKETS} are the most");
        let fix = "write lists with `- ` and maps with a line for each key";
        return Err(vec![refusal(Place::START, what, fix)]);
    }
    if let Some((at, letter)) = first_unseen(text) {
        let place = Place::after(text.get(..at).unwrap_or_default());
        let what = format!(
            "an invisible character (U+{:04X}) stands here",
            u32::from(letter)
        );
        return Err(vec![refusal(place, what, "take it away")]);
    }
    let pointers = pointers::pointers(text);
    if pointers.is_empty() {
        Ok(())
    } else {
        Err(pointers)
    }
}

/// A fault of the text as such, which has no keys yet.
pub(crate) fn refusal(place: Place, what: String, fix: &str) -> Fault {
    Fault {
        place,
        path: String::new(),
        what,
        fix: fix.to_owned(),
        lacking: false,
    }
}

/// The first character that cannot be seen, and where. Most lines are plain and need no closer look.
fn first_unseen(text: &str) -> Option<(usize, char)> {
    let mut start = 0;
    for line in text.split_inclusive('\n') {
        if !line.bytes().all(is_plain) {
            let found = line.char_indices().find(|(_, letter)| unseen(*letter));
            if let Some((at, letter)) = found {
                return Some((start + at, letter));
            }
        }
        start += line.len();
    }
    None
}

/// Whether a byte is a letter by itself that everybody sees, or the end of a line.
fn is_plain(byte: u8) -> bool {
    matches!(byte, b' '..=b'~' | b'\n')
}

/// Whether a character may not even stand in a comment, where it could hide a line.
fn unseen(letter: char) -> bool {
    hides(letter) && !matches!(letter, '\n' | '\r' | '\t')
}
