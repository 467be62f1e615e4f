//! The first pass over the text: every value and key, in order, with its parent.

use crate::document::fault::{Loose, bare};
use crate::document::{Fault, Place, Spot, retrace, syntax};
use serde::de::{DeserializeSeed, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use std::collections::HashSet;
use std::fmt;

/// A value or a key, and how it hangs in the document.
#[derive(Clone, Debug)]
pub(crate) struct Item {
    pub(crate) parent: Option<Spot>,
    pub(crate) step: Step,
    pub(crate) content: Content,
}

impl Item {
    /// Whether this is a key, not a value.
    pub(crate) fn is_key(&self) -> bool {
        matches!(self.step, Step::Own) && self.parent.is_some()
    }
}

/// How an item is reached from its parent.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Step {
    /// It is the root, or a key.
    Own,
    /// It is the value of this key.
    Under(Spot),
    /// It stands at this position of a list.
    At(usize),
}

/// What an item holds.
#[derive(Clone, Debug)]
pub(crate) enum Content {
    Text(String),
    /// A bare number, with the characters it was written in.
    Number(String),
    Flag(bool),
    Nothing,
    List(Vec<Spot>),
    Map(Vec<Entry>),
}

/// A key and its value.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Entry {
    pub(crate) key: Spot,
    pub(crate) value: Spot,
}

/// Reads the values and keys of a screened text, and the faults that do not stop the reading.
pub(crate) fn grow(text: &str) -> Result<(Vec<Item>, Vec<Loose>), Fault> {
    let mut tree = Tree::default();
    let branch = Branch {
        tree: &mut tree,
        parent: None,
        step: Step::Own,
    };
    retrace::only(text, |document| branch.deserialize(document).map(drop))
        .map_err(|error| syntax::fault(text, &error))?;
    if matches!(
        tree.items.first().map(|root| &root.content),
        Some(Content::Nothing)
    ) {
        return Err(Fault {
            place: Place::START,
            path: String::new(),
            what: "there is nothing in this file".to_owned(),
            fix: "write at least one key and its value, such as `title: Hitch-up`".to_owned(),
            lacking: true,
        });
    }
    write_numbers(text, &mut tree.items).map_err(|error| syntax::fault(text, &error))?;
    Ok((tree.items, tree.faults))
}

/// The keys and list positions that lead to `spot`.
pub(crate) fn path(items: &[Item], spot: Spot) -> String {
    let mut steps = Vec::new();
    let mut next = Some(spot);
    while let Some(item) = next.and_then(|spot| items.get(spot.0)) {
        match (item.step, &item.content) {
            (Step::At(index), _) => steps.push(format!("[{index}]")),
            (Step::Under(key), _) => steps.push(format!(".{}", key_text(items, key))),
            (Step::Own, Content::Text(key)) if item.parent.is_some() => {
                steps.push(format!(".{}", bare(key)));
            }
            (Step::Own, _) => {}
        }
        next = item.parent;
    }
    steps.reverse();
    let path = steps.concat();
    path.strip_prefix('.').unwrap_or(&path).to_owned()
}

fn key_text(items: &[Item], key: Spot) -> String {
    match items.get(key.0).map(|item| &item.content) {
        Some(Content::Text(text)) => bare(text),
        _ => String::new(),
    }
}

/// Fills in the characters numbers were written in, which a first pass cannot see.
fn write_numbers(text: &str, items: &mut [Item]) -> Result<(), serde_yaml::Error> {
    let spots = (0..items.len()).map(Spot).zip(&*items);
    let numbers: Vec<Spot> = spots
        .filter(|(_, item)| matches!(item.content, Content::Number(_)))
        .map(|(spot, _)| spot)
        .collect();
    for (spot, digits) in retrace::texts(text, items, &numbers)? {
        if let Some(item) = items.get_mut(spot.0) {
            item.content = Content::Number(digits);
        }
    }
    Ok(())
}

#[derive(Default)]
struct Tree {
    items: Vec<Item>,
    faults: Vec<Loose>,
}

impl Tree {
    fn add(&mut self, parent: Option<Spot>, step: Step, content: Content) -> Spot {
        let spot = Spot(self.items.len());
        self.items.push(Item {
            parent,
            step,
            content,
        });
        spot
    }

    fn fill(&mut self, spot: Spot, content: Content) {
        if let Some(item) = self.items.get_mut(spot.0) {
            item.content = content;
        }
    }

    fn tell(&mut self, spot: Spot, what: String, fix: &str) {
        let fix = fix.to_owned();
        self.faults.push(Loose {
            spot,
            what,
            fix,
            lacking: false,
        });
    }
}

/// A value about to be read into the tree.
struct Branch<'t> {
    tree: &'t mut Tree,
    parent: Option<Spot>,
    step: Step,
}

impl Branch<'_> {
    fn add(self, content: Content) -> Spot {
        self.tree.add(self.parent, self.step, content)
    }
}

impl<'de> DeserializeSeed<'de> for Branch<'_> {
    type Value = Spot;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Spot, D::Error> {
        deserializer.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Branch<'_> {
    type Value = Spot;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a value")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<Spot, E> {
        Ok(self.add(Content::Text(text.to_owned())))
    }

    fn visit_bool<E: Error>(self, flag: bool) -> Result<Spot, E> {
        Ok(self.add(Content::Flag(flag)))
    }

    fn visit_unit<E: Error>(self) -> Result<Spot, E> {
        Ok(self.add(Content::Nothing))
    }

    fn visit_none<E: Error>(self) -> Result<Spot, E> {
        Ok(self.add(Content::Nothing))
    }

    fn visit_i64<E: Error>(self, _: i64) -> Result<Spot, E> {
        Ok(self.add(Content::Number(String::new())))
    }

    fn visit_u64<E: Error>(self, _: u64) -> Result<Spot, E> {
        Ok(self.add(Content::Number(String::new())))
    }

    fn visit_i128<E: Error>(self, _: i128) -> Result<Spot, E> {
        Ok(self.add(Content::Number(String::new())))
    }

    fn visit_u128<E: Error>(self, _: u128) -> Result<Spot, E> {
        Ok(self.add(Content::Number(String::new())))
    }

    fn visit_f64<E: Error>(self, _: f64) -> Result<Spot, E> {
        Ok(self.add(Content::Number(String::new())))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Spot, A::Error> {
        let spot = self.tree.add(self.parent, self.step, Content::Nothing);
        let mut children = Vec::new();
        while let Some(child) = list.next_element_seed(Branch {
            tree: &mut *self.tree,
            parent: Some(spot),
            step: Step::At(children.len()),
        })? {
            children.push(child);
        }
        self.tree.fill(spot, Content::List(children));
        Ok(spot)
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Spot, A::Error> {
        let spot = self.tree.add(self.parent, self.step, Content::Nothing);
        let mut entries = Vec::new();
        let mut seen = HashSet::new();
        while let Some(name) = map.next_key_seed(KeyName)? {
            let key = self
                .tree
                .add(Some(spot), Step::Own, Content::Text(name.clone()));
            let value = map.next_value_seed(Branch {
                tree: &mut *self.tree,
                parent: Some(spot),
                step: Step::Under(key),
            })?;
            if name == "<<" {
                let fix = "write the keys out in full";
                self.tree
                    .tell(key, "`<<` merges keys from elsewhere".to_owned(), fix);
            } else if seen.contains(&name) {
                let what = format!("`{}` is given twice", bare(&name));
                self.tree.tell(key, what, "keep one of the two");
            } else {
                entries.push(Entry { key, value });
                seen.insert(name);
            }
        }
        self.tree.fill(spot, Content::Map(entries));
        Ok(spot)
    }
}

/// A key's characters, whatever they would mean as a value: `NO`, `on` and `5` are keys too.
struct KeyName;

impl<'de> DeserializeSeed<'de> for KeyName {
    type Value = String;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<String, D::Error> {
        deserializer.deserialize_str(self)
    }
}

impl Visitor<'_> for KeyName {
    type Value = String;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(syntax::A_WORD_AS_KEY)
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<String, E> {
        Ok(text.to_owned())
    }
}
