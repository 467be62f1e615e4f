//! Anchors, aliases and tags: what would let a value come from elsewhere or be another kind.
//!
//! The parser follows them and does not show them, so it is asked another way: each `&`, `*` and
//! `!` is replaced by `@`, which may stand inside text and remarks as they may, but can begin
//! nothing. Where the parser then refuses an `@`, one of them began something. No alias is left
//! to follow, so aliases of aliases cannot swell.

use crate::document::fault::bare;
use crate::document::screen::refusal;
use crate::document::{Fault, Place, retrace};
use memchr::memchr3;
use serde::de::{Deserialize, IgnoredAny};

const SIGNS: [char; 3] = ['&', '*', '!'];
const MASK: char = '@';

/// Pointers told one by one. Each costs another look at the text.
const MOST_TOLD: usize = 20;

/// Every anchor, alias and tag of the text, as a fault.
pub(crate) fn pointers(text: &str) -> Vec<Fault> {
    let mut faults = Vec::new();
    if memchr3(b'&', b'*', b'!', text.as_bytes()).is_none() {
        return faults;
    }
    let letters: Vec<char> = text.chars().collect();
    let mut masked: Vec<char> = letters.iter().copied().map(mask).collect();
    while faults.len() < MOST_TOLD {
        let Some((start, place)) = next_refused(&masked) else {
            break;
        };
        let word = word_at(&letters, start);
        let Some(sign) = word.first().filter(|sign| SIGNS.contains(sign)) else {
            break;
        };
        faults.push(fault(place, *sign, &bare(&word.iter().collect::<String>())));
        erase(&mut masked, start, &word);
    }
    faults
}

fn mask(letter: char) -> char {
    if SIGNS.contains(&letter) {
        MASK
    } else {
        letter
    }
}

/// Where the parser refuses a mask, as an index and as a place.
fn next_refused(masked: &[char]) -> Option<(usize, Place)> {
    let error = parsed(&masked.iter().collect::<String>()).err()?;
    let index = error.location()?.index();
    (masked.get(index) == Some(&MASK)).then(|| (index, retrace::place_of(&error)))
}

/// Whether the text is one well-formed document. Builds nothing.
fn parsed(text: &str) -> Result<(), serde_yaml::Error> {
    retrace::only(text, |first| IgnoredAny::deserialize(first).map(drop))
}

/// Takes a pointer out of the masked text, so that the next one can be found.
///
/// An alias is a value, and another value must take its stead; the others stand beside one.
fn erase(masked: &mut [char], start: usize, word: &[char]) {
    let instead = if word.first() == Some(&'*') { 'x' } else { ' ' };
    for letter in masked.iter_mut().skip(start).take(word.len()) {
        *letter = instead;
    }
}

/// The pointer beginning at `start`: its sign and the rest of its word.
fn word_at(letters: &[char], start: usize) -> Vec<char> {
    let rest = letters.iter().skip(start).copied();
    rest.take_while(|&letter| in_word(letter)).collect()
}

fn in_word(letter: char) -> bool {
    !letter.is_whitespace() && !matches!(letter, ',' | '[' | ']' | '{' | '}')
}

fn fault(place: Place, sign: char, word: &str) -> Fault {
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
