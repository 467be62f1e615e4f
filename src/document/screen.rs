//! What is settled before a value is read: size, one document, nothing that points elsewhere.

use crate::document::fault::hides;
use crate::document::{Fault, MOST_BYTES, Place, pointers, retrace, syntax};
use serde::de::{Deserialize, IgnoredAny};

/// Brackets and braces a file may open. The parser's time grows with the square of how deep they
/// stand in one another; at this bound the worst file takes less than a second.
const MOST_BRACKETS: usize = 10_000;

/// Refuses a text that is too long, not YAML, more than one document, or that uses anchors,
/// aliases or tags.
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
    let brackets = text.matches(['[', '{']).count();
    if brackets > MOST_BRACKETS {
        let what = format!("the file opens {brackets} brackets, and {MOST_BRACKETS} are the most");
        let fix = "write lists with `- ` and maps with a line for each key";
        return Err(vec![refusal(Place::START, what, fix)]);
    }
    if let Some((at, letter)) = text.char_indices().find(|(_, letter)| unseen(*letter)) {
        let place = Place::after(text.get(..at).unwrap_or_default());
        let what = format!(
            "an invisible character (U+{:04X}) stands here",
            u32::from(letter)
        );
        return Err(vec![refusal(place, what, "take it away")]);
    }
    let pointers = pointers::pointers(text);
    if !pointers.is_empty() {
        return Err(pointers);
    }
    parsed(text).map_err(|error| vec![syntax::fault(text, &error)])
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

/// Whether a character may not even stand in a comment, where it could hide a line.
fn unseen(letter: char) -> bool {
    hides(letter) && !matches!(letter, '\n' | '\r' | '\t')
}

/// Whether the text is one well-formed document. Builds nothing.
pub(crate) fn parsed(text: &str) -> Result<(), serde_yaml::Error> {
    let mut documents = serde_yaml::Deserializer::from_str(text);
    if let Some(first) = documents.next() {
        IgnoredAny::deserialize(first)?;
    }
    documents.next().map_or(Ok(()), retrace::refusal)
}
