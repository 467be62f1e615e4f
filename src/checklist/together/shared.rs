//! Steps that stand once and are taken by name, format `hames-steps/1`.

use crate::checklist::format::{STEPS_FILE, STEPS_FORMAT};
use crate::document::{Document, Fault, Node, Read, Takes, Tree};
use std::collections::BTreeMap;

/// Shared steps and the branches they open, by id.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Shared {
    steps: BTreeMap<String, Tree>,
    branches: BTreeMap<String, Tree>,
}

impl Shared {
    /// Takes in a file of shared steps. What a step asks is read where it is included.
    ///
    /// # Errors
    /// Every fault of the file: its format, a step or branch without an id or with one that is
    /// taken.
    pub fn add(&mut self, text: &str) -> Result<(), Vec<Fault>> {
        let document = Document::parse(text)?;
        let tree = document.tree();
        let mut new = Self::default();
        document.read(|root| {
            let map = root.shaped(&STEPS_FILE)?;
            let format = map.required("format").and_then(format);
            for (key, known, new) in [
                ("steps", &self.steps, &mut new.steps),
                ("branches", &self.branches, &mut new.branches),
            ] {
                let Some(node) = map.optional(key) else {
                    continue;
                };
                let nodes = node.list()?;
                for (index, node) in nodes.into_iter().enumerate() {
                    let path = format!("{key}[{index}]");
                    let Some(part) = tree.at(&path) else { continue };
                    let id = part.at("id").and_then(Tree::scalar);
                    match id {
                        None if node.is_map() => {
                            let _ = node.lack("`id` is missing", "add a line `id: …`");
                        }
                        // It is told what is wanted.
                        None => drop(node.map(&[])),
                        Some(id) if known.contains_key(id) || new.contains_key(id) => {
                            let _ = node.fault(
                                format!("`{id}` stands in the shared files already"),
                                "give it another id, or take it away",
                            );
                        }
                        Some(id) => {
                            new.insert(id.to_owned(), part.clone());
                        }
                    }
                }
            }
            format
        })?;
        self.steps.append(&mut new.steps);
        self.branches.append(&mut new.branches);
        Ok(())
    }

    /// Every fault of a file of shared steps, with what of each step's shape is wrong. Names and
    /// dimensions are read where a step is taken.
    pub fn faults(text: &str) -> Vec<Fault> {
        let document = match Document::parse(text) {
            Ok(document) => document,
            Err(faults) => return faults,
        };
        let fits = document.read(|root| root.fit(Takes::Map(&STEPS_FILE)));
        let mut faults = fits.err().unwrap_or_default();
        faults.extend(Self::default().add(text).err().unwrap_or_default());
        faults.sort();
        faults.dedup();
        faults
    }

    /// The same, with every step and branch of `rest` whose id is not taken.
    #[must_use]
    pub fn over(mut self, rest: &Self) -> Self {
        for (own, more) in [
            (&mut self.steps, &rest.steps),
            (&mut self.branches, &rest.branches),
        ] {
            for (id, part) in more {
                own.entry(id.clone()).or_insert_with(|| part.clone());
            }
        }
        self
    }

    /// The step with this id.
    pub(super) fn step(&self, id: &str) -> Option<&Tree> {
        self.steps.get(id)
    }

    /// The branch with this id.
    pub(super) fn branch(&self, id: &str) -> Option<&Tree> {
        self.branches.get(id)
    }

    /// The ids of all steps.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.steps.keys().map(String::as_str)
    }
}

fn format(node: Node<'_>) -> Read<()> {
    if node.text()? == STEPS_FORMAT {
        return Ok(());
    }
    Err(node.fault(
        "this format is not known here",
        format!("write `format: {STEPS_FORMAT}`, or use a newer program"),
    ))
}
