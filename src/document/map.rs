//! A map of keys and values.

use crate::document::fault::bare;
use crate::document::grow::{Content, Entry};
use crate::document::{Node, Read, Spot, nearest};

/// A map being read. Its keys are all known and each stands there once, or faults have been told.
#[derive(Clone, Copy, Debug)]
pub struct Map<'d> {
    node: Node<'d>,
    entries: &'d [Entry],
}

impl<'d> Map<'d> {
    pub(crate) fn new(node: Node<'d>, entries: &'d [Entry]) -> Self {
        Self { node, entries }
    }

    /// The map as a value, to tell a fault of it as a whole.
    pub fn node(self) -> Node<'d> {
        self.node
    }

    /// Where the map stands.
    pub fn spot(self) -> Spot {
        self.node.spot()
    }

    /// The value of `key`.
    ///
    /// # Errors
    /// When the key is missing.
    pub fn required(self, key: &str) -> Read<Node<'d>> {
        self.optional(key).ok_or_else(|| {
            self.node.lack(
                format!("`{key}` is missing"),
                format!("add a line `{key}: …`"),
            )
        })
    }

    /// The value of `key`, if the key is there. A key with nothing behind it is there.
    pub fn optional(self, key: &str) -> Option<Node<'d>> {
        self.entries
            .iter()
            .find(|entry| self.name(entry) == key)
            .map(|entry| self.node.beside(entry.value))
    }

    /// The one key of `choices` that stands in the map: its meaning and its value.
    ///
    /// # Errors
    /// When none of them is there, or more than one.
    pub fn only_one_of<T: Copy>(self, choices: &[(&str, T)]) -> Read<(T, Node<'d>)> {
        let given: Vec<(&Entry, T)> = self
            .entries
            .iter()
            .filter_map(|entry| {
                let name = self.name(entry);
                let choice = choices.iter().find(|(key, _)| *key == name)?;
                Some((entry, choice.1))
            })
            .collect();
        let keys = keys(choices.iter().map(|(key, _)| *key));
        match given.as_slice() {
            [(entry, meaning)] => Ok((*meaning, self.node.beside(entry.value))),
            [] => Err(self
                .node
                .lack(format!("one of {keys} is missing"), "add one of them")),
            [(first, _), (second, _), ..] => Err(self.node.beside(second.key).fault(
                format!(
                    "`{}` and `{}` stand together, and only one of {keys} may",
                    self.name(first),
                    self.name(second)
                ),
                "keep one of them",
            )),
        }
    }

    /// Tells each key that is not `known`, at the key itself. One of `others` may have been meant.
    pub(crate) fn tell_unknown(self, known: &[&str], others: &[&str]) {
        for entry in self.entries {
            let name = self.name(entry);
            if known.contains(&name) {
                continue;
            }
            let fix = match nearest(name, known.iter().chain(others).copied()) {
                Some(meant) => format!("did you mean `{meant}`?"),
                None => format!("the keys here are {}", keys(known.iter().copied())),
            };
            self.node
                .beside(entry.key)
                .fault(format!("`{}` is not a key here", bare(name)), fix);
        }
    }

    fn name(self, entry: &Entry) -> &'d str {
        match self.node.beside(entry.key).content() {
            Some(Content::Text(name)) => name,
            _ => "",
        }
    }
}

/// Keys as a sentence lists them.
fn keys<'k>(keys: impl Iterator<Item = &'k str>) -> String {
    let quoted: Vec<String> = keys.map(|key| format!("`{key}`")).collect();
    quoted.join(", ")
}
