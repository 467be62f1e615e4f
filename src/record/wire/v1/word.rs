//! Words and short texts in bodies.

use crate::checklist::StepKey;
use crate::record::Unreadable;
use crate::record::json::Text;
use crate::record::strict::{self, field};
use crate::walk::Words;

/// The value a word of a table stands for.
pub(in crate::record::wire) fn named<T: Copy>(
    name: &'static str,
    text: &str,
    table: &[(&'static str, T)],
) -> Result<T, Unreadable> {
    let known = table.iter().find(|(word, _)| *word == text);
    field(name, text, |_| known.map(|(_, value)| *value))
}

/// The word of a table for a value.
pub(in crate::record::wire) fn word<T: PartialEq>(
    value: &T,
    table: &[(&'static str, T)],
) -> String {
    let known = table.iter().find(|(_, one)| one == value);
    known.map_or_else(String::new, |(word, _)| (*word).to_owned())
}

pub(in crate::record::wire) fn words(name: &'static str, text: &str) -> Result<Words, Unreadable> {
    field(name, text, strict::words)
}

pub(super) fn maybe_words(
    name: &'static str,
    text: Option<&Text<'_>>,
) -> Result<Option<Words>, Unreadable> {
    text.map(|text| words(name, text)).transpose()
}

pub(super) fn text(words: Option<&Words>) -> Option<Text<'_>> {
    words.map(|words| words.as_str().into())
}

pub(in crate::record::wire) fn step(text: &str) -> Result<StepKey, Unreadable> {
    token("step", text).map(|text| StepKey::named(&text))
}

pub(super) fn steps(texts: &[Text<'_>]) -> Result<Vec<StepKey>, Unreadable> {
    texts.iter().map(|text| step(text)).collect()
}

pub(super) fn texts(steps: &[StepKey]) -> Vec<Text<'_>> {
    steps.iter().map(|step| step.as_str().into()).collect()
}

/// An id of the checklist or rig: short, printable, not blank.
pub(in crate::record::wire) fn token(name: &'static str, text: &str) -> Result<String, Unreadable> {
    field(name, text, strict::words).map(Words::into_string)
}
