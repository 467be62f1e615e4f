//! What is settled before a value is read: size, one document, nothing that points elsewhere.

use crate::document::fault::{bare, hides};
use crate::document::{Fault, MOST_BYTES, Place, retrace, syntax};
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
    let pointers = pointers(text);
    if !pointers.is_empty() {
        return Err(pointers);
    }
    parsed(text).map_err(|error| vec![syntax::fault(text, &error)])
}

fn refusal(place: Place, what: String, fix: &str) -> Fault {
    Fault {
        place,
        path: String::new(),
        what,
        fix: fix.to_owned(),
    }
}

/// Whether a character may not even stand in a comment, where it could hide a line.
fn unseen(letter: char) -> bool {
    hides(letter) && !matches!(letter, '\n' | '\r' | '\t')
}

/// Whether the text is one well-formed document. Builds nothing.
fn parsed(text: &str) -> Result<(), serde_yaml::Error> {
    let mut documents = serde_yaml::Deserializer::from_str(text);
    if let Some(first) = documents.next() {
        IgnoredAny::deserialize(first)?;
    }
    documents.next().map_or(Ok(()), retrace::refusal)
}

/// Pointers told one by one.
const MOST_POINTERS: usize = 20;

/// Every anchor, alias and tag, as a fault.
///
/// The parser does not show them, so it is asked another way: each `&`, `*` and `!` is replaced
/// by `@`, which may stand inside text and comments as they may, but can begin nothing. Where
/// the parser then refuses an `@`, one of them began something. This runs before any value is
/// read, so aliases of aliases cannot swell.
fn pointers(text: &str) -> Vec<Fault> {
    if !text.contains(POINTERS) {
        return Vec::new();
    }
    let letters: Vec<char> = text.chars().collect();
    let mut masked: Vec<char> = letters
        .iter()
        .map(|letter| {
            if POINTERS.contains(letter) {
                MASK
            } else {
                *letter
            }
        })
        .collect();
    let mut faults = Vec::new();
    while faults.len() < MOST_POINTERS {
        let Err(error) = parsed(&masked.iter().collect::<String>()) else {
            break;
        };
        let Some(start) = error.location().map(|location| location.index()) else {
            break;
        };
        let Some(sign) = letters.get(start).filter(|sign| POINTERS.contains(sign)) else {
            break;
        };
        let rest = letters.get(start..).unwrap_or_default();
        let word: String = rest.iter().take_while(|letter| in_word(**letter)).collect();
        for (at, letter) in masked
            .iter_mut()
            .skip(start)
            .take(word.chars().count())
            .enumerate()
        {
            // An alias is a value, so a word stays in its stead; the others stand beside one.
            *letter = match sign {
                '*' if at == 0 => '_',
                '*' => 'x',
                _ => ' ',
            };
        }
        faults.push(pointer(retrace::place_of(&error), *sign, &bare(&word)));
    }
    faults
}

const POINTERS: [char; 3] = ['&', '*', '!'];
const MASK: char = '@';

fn in_word(letter: char) -> bool {
    !letter.is_whitespace() && !matches!(letter, ',' | '[' | ']' | '{' | '}')
}

fn pointer(place: Place, sign: char, word: &str) -> Fault {
    let (what, fix) = match sign {
        '&' => ("marks a part of the file to be repeated", "take it away"),
        '*' => (
            "repeats a part marked elsewhere",
            "write that part out in full",
        ),
        _ => ("is a tag, and a value here has none", "take it away"),
    };
    let fix = format!("{fix}, or put quotes around it if it is text");
    refusal(place, format!("`{word}` {what}"), &fix)
}
