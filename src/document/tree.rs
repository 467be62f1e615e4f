//! A document as a tree of maps, lists and scalars, to be changed and written again.
//!
//! Reading a file into what it means is the work of [`Node`](crate::document::Node). A tree is
//! for a file that is being written step by step: it keeps values that mean nothing yet.

use crate::document::grow::Content;
use crate::document::{Document, Spot};

/// A value of a document.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Tree {
    /// Text, put in quotes where it would read as something else.
    Text(String),
    /// A number, or `true` or `false`, as written.
    Bare(String),
    /// Values in order.
    List(Vec<Tree>),
    /// Keys and values in order.
    Map(Vec<(String, Tree)>),
}

/// One step of a path.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Step<'p> {
    Key(&'p str),
    At(usize),
}

impl Document {
    /// The whole document as a tree. A key with nothing behind it is left away.
    pub fn tree(&self) -> Tree {
        self.branch(Spot(0))
    }

    fn branch(&self, spot: Spot) -> Tree {
        match self.item(spot).map(|item| &item.content) {
            Some(Content::Text(text)) => Tree::Text(text.clone()),
            Some(Content::Number(digits)) => Tree::Bare(digits.clone()),
            Some(Content::Flag(flag)) => Tree::Bare(flag.to_string()),
            Some(Content::List(spots)) => {
                Tree::List(spots.iter().map(|&spot| self.branch(spot)).collect())
            }
            Some(Content::Map(entries)) => {
                let entries = entries.iter().filter(|entry| !self.is_nothing(entry.value));
                let pair = |key, value| (self.key(key), self.branch(value));
                Tree::Map(entries.map(|entry| pair(entry.key, entry.value)).collect())
            }
            Some(Content::Nothing) | None => Tree::Map(Vec::new()),
        }
    }

    fn is_nothing(&self, spot: Spot) -> bool {
        matches!(
            self.item(spot).map(|item| &item.content),
            Some(Content::Nothing)
        )
    }

    fn key(&self, spot: Spot) -> String {
        match self.item(spot).map(|item| &item.content) {
            Some(Content::Text(text)) => text.clone(),
            _ => String::new(),
        }
    }
}

impl Tree {
    /// An empty map.
    pub fn empty() -> Self {
        Self::Map(Vec::new())
    }

    /// The value a path such as `axles[1].tire.size` leads to.
    pub fn at(&self, path: &str) -> Option<&Self> {
        steps(path)
            .into_iter()
            .try_fold(self, |tree, step| tree.child(step))
    }

    /// The same, to be changed.
    pub fn at_mut(&mut self, path: &str) -> Option<&mut Self> {
        steps(path)
            .into_iter()
            .try_fold(self, |tree, step| tree.child_mut(step))
    }

    /// The text or bare characters of a scalar.
    pub fn scalar(&self) -> Option<&str> {
        match self {
            Self::Text(text) | Self::Bare(text) => Some(text),
            Self::List(_) | Self::Map(_) => None,
        }
    }

    /// The keys of a map, in order.
    pub fn keys(&self) -> impl Iterator<Item = &str> {
        let entries: &[(String, Self)] = match self {
            Self::Map(entries) => entries,
            _ => &[],
        };
        entries.iter().map(|(key, _)| key.as_str())
    }

    /// How many values a list has; nothing when this is no list.
    pub fn count(&self) -> Option<usize> {
        match self {
            Self::List(values) => Some(values.len()),
            _ => None,
        }
    }

    /// Puts a value where the path leads, and makes the maps and list places on the way. A new
    /// key stands before the first of its map whose path `before` says it comes before.
    pub fn put(&mut self, path: &str, value: Self, before: &dyn Fn(&str, &str) -> bool) {
        self.put_below("", &steps(path), value, before);
    }

    fn put_below(
        &mut self,
        walked: &str,
        steps: &[Step<'_>],
        value: Self,
        before: &dyn Fn(&str, &str) -> bool,
    ) {
        match steps {
            [] => *self = value,
            [Step::Key(key), rest @ ..] => {
                let path = joined(walked, key);
                let mut entries = match std::mem::replace(self, Self::empty()) {
                    Self::Map(entries) => entries,
                    _ => Vec::new(),
                };
                let at = entries.iter().position(|(own, _)| own == key);
                let at = at.unwrap_or_else(|| {
                    let at = entries
                        .iter()
                        .position(|(own, _)| before(&path, &joined(walked, own)))
                        .unwrap_or(entries.len());
                    entries.insert(at, ((*key).to_owned(), Self::empty()));
                    at
                });
                if let Some((_, child)) = entries.get_mut(at) {
                    child.put_below(&path, rest, value, before);
                }
                *self = Self::Map(entries);
            }
            [Step::At(index), rest @ ..] => {
                let mut values = match std::mem::replace(self, Self::empty()) {
                    Self::List(values) => values,
                    _ => Vec::new(),
                };
                while values.len() <= *index {
                    values.push(Self::empty());
                }
                if let Some(child) = values.get_mut(*index) {
                    child.put_below(&format!("{walked}[{index}]"), rest, value, before);
                }
                *self = Self::List(values);
            }
        }
    }

    /// Takes away what the path leads to, if it is there.
    pub fn take(&mut self, path: &str) {
        let mut steps = steps(path);
        let Some(last) = steps.pop() else { return };
        let parent = steps
            .into_iter()
            .try_fold(self, |tree, step| tree.child_mut(step));
        match (parent, last) {
            (Some(Self::Map(entries)), Step::Key(key)) => entries.retain(|(own, _)| own != key),
            (Some(Self::List(values)), Step::At(index)) if index < values.len() => {
                values.remove(index);
            }
            _ => {}
        }
    }

    fn child(&self, step: Step<'_>) -> Option<&Self> {
        match (self, step) {
            (Self::Map(entries), Step::Key(key)) => entries
                .iter()
                .find(|(own, _)| own == key)
                .map(|(_, value)| value),
            (Self::List(values), Step::At(index)) => values.get(index),
            _ => None,
        }
    }

    fn child_mut(&mut self, step: Step<'_>) -> Option<&mut Self> {
        match (self, step) {
            (Self::Map(entries), Step::Key(key)) => entries
                .iter_mut()
                .find(|(own, _)| own == key)
                .map(|(_, value)| value),
            (Self::List(values), Step::At(index)) => values.get_mut(index),
            _ => None,
        }
    }
}

pub(crate) fn joined(walked: &str, key: &str) -> String {
    if walked.is_empty() {
        key.to_owned()
    } else {
        format!("{walked}.{key}")
    }
}

/// `axles[1].tire` as the keys and list places to go by.
fn steps(path: &str) -> Vec<Step<'_>> {
    path.split('.')
        .flat_map(|part| {
            let (key, places) = part
                .split_once('[')
                .map_or((part, ""), |(key, rest)| (key, rest));
            let key = (!key.is_empty()).then_some(Step::Key(key));
            let places = places
                .split(['[', ']'])
                .filter_map(|place| place.parse().ok().map(Step::At));
            key.into_iter().chain(places)
        })
        .collect()
}
