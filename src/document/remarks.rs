//! Remarks: what a person wrote into a file beside its values, kept when the file is written
//! again.

use crate::document::grow::Item;
use crate::document::{Document, Spot};
use std::collections::BTreeMap;

/// Remarks, as they stand behind their sign, by the path of the value they stand above; those at
/// the file's end have an empty path.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Remarks(pub(crate) BTreeMap<String, Vec<String>>);

impl Remarks {
    /// The remarks above the value a path leads to.
    pub fn of(&self, path: &str) -> &[String] {
        self.0.get(path).map_or(&[], Vec::as_slice)
    }

    /// Puts a remark above the value a path leads to.
    pub fn put(&mut self, path: &str, remark: &str) {
        self.0
            .entry(path.to_owned())
            .or_default()
            .push(format!(" {remark}"));
    }
}

impl Document {
    /// The remarks that stand on lines of their own or behind a value, each by the path of the
    /// value below or beside it.
    pub fn remarks(&self) -> Remarks {
        let mut remarks: BTreeMap<String, Vec<String>> = BTreeMap::new();
        let mut keys: Vec<Spot> = (0..self.items.len())
            .map(Spot)
            .filter(|&spot| self.is_key(spot))
            .collect();
        let mut below = (0, String::new());
        for (line, remark) in (1..).zip(self.text.lines()).filter_map(remark) {
            // Lines above the same key share it. Looking up a place reads the text again.
            if below.0 < line {
                below = self.first_key_from(line, &mut keys);
            }
            remarks
                .entry(below.1.clone())
                .or_default()
                .push(remark.to_owned());
        }
        Remarks(remarks)
    }

    /// The line and the path of the first key on this line or below, and of `keys` only those that
    /// follow. Keys stand in the file's order, so it is found by halves.
    fn first_key_from(&self, line: usize, keys: &mut Vec<Spot>) -> (usize, String) {
        let at = keys.partition_point(|&key| self.place_of(key).line < line);
        keys.drain(..at);
        match keys.first() {
            Some(&key) => (self.place_of(key).line, self.path_of(key)),
            None => (usize::MAX, String::new()),
        }
    }

    fn is_key(&self, spot: Spot) -> bool {
        self.item(spot).is_some_and(Item::is_key)
    }
}

/// The remark on a line, with the line's number.
fn remark((line, text): (usize, &str)) -> Option<(usize, &str)> {
    let mut quote = None;
    let mut before = ' ';
    for (at, letter) in text.char_indices() {
        match (quote, letter) {
            (Some(open), _) if open == letter => quote = None,
            // A quote opens only where a value begins: an apostrophe in a word is none.
            (None, '"' | '\'') if begins_value(text.get(..at).unwrap_or_default()) => {
                quote = Some(letter);
            }
            (None, '#') if before.is_whitespace() => {
                return Some((line, text.get(at + 1..)?.trim_end()));
            }
            _ => {}
        }
        before = letter;
    }
    None
}

fn begins_value(before: &str) -> bool {
    let before = before.trim_end();
    before.is_empty() || before.ends_with([':', ',', '{', '[', '-'])
}
