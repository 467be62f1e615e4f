//! A checklist put together: steps taken by name come from the shared ones, and steps of a policy
//! the barn did not choose are left away.
//!
//! What comes out is one plain file. It is what is walked, pinned beside the record and approved.

mod passage;
mod place;
mod shared;

pub use shared::Shared;

use crate::barn::{Choice, Policies};
use crate::checklist::Checklist;
use crate::checklist::format::INCLUDED;
use crate::checklist::lint::{Finding, lint_read};
use crate::document::{Document, Fault, Tree, nearest};
use place::Origins;
use std::collections::BTreeSet;

/// A checklist put together.
#[derive(Clone, Debug, PartialEq)]
pub struct Together {
    /// As read.
    pub checklist: Checklist,
    /// The one plain file.
    pub text: String,
}

/// Puts a checklist together and reads it. A file that takes nothing from elsewhere stays as it
/// is, byte for byte.
///
/// # Errors
/// Every fault, each at its place in `text`.
pub fn put_together(
    text: &str,
    shared: &Shared,
    policies: &Policies,
) -> Result<Together, Vec<Fault>> {
    let (_, built, checklist) = read(text, shared, policies)?;
    let plain = built.plain.as_ref().map_or(text, Document::text);
    Ok(Together {
        checklist,
        text: plain.to_owned(),
    })
}

/// Every finding of a checklist put together, each at its place in `text`.
pub fn lint_together(text: &str, shared: &Shared, policies: &Policies) -> Vec<Finding> {
    match read(text, shared, policies) {
        Err(faults) => faults.into_iter().map(Finding::from).collect(),
        Ok((document, built, checklist)) => {
            let place = |path: &str| built.origins.place(path, &document);
            lint_read(&checklist, &place)
        }
    }
}

fn read(
    text: &str,
    shared: &Shared,
    policies: &Policies,
) -> Result<(Document, Built, Checklist), Vec<Fault>> {
    let (document, built) = build(text, shared, policies)?;
    let plain = built.plain.as_ref().unwrap_or(&document);
    match Checklist::read_document(plain) {
        Ok(checklist) => Ok((document, built, checklist)),
        Err(faults) if built.plain.is_none() => Err(faults),
        Err(faults) => {
            let placed = faults
                .into_iter()
                .map(|fault| built.origins.fault(fault, plain, &document));
            Err(placed.collect())
        }
    }
}

struct Built {
    /// What was put together; nothing where the file takes nothing from elsewhere.
    plain: Option<Document>,
    origins: Origins,
}

fn build(
    text: &str,
    shared: &Shared,
    policies: &Policies,
) -> Result<(Document, Built), Vec<Fault>> {
    let document = Document::parse(text)?;
    let mut work = Work {
        document: &document,
        shared,
        policies,
        origins: Origins::default(),
        faults: Vec::new(),
        changed: false,
    };
    let tree = work.tree();
    let (faults, changed, origins) = (work.faults, work.changed, work.origins);
    if !faults.is_empty() {
        return Err(faults);
    }
    let built = if changed {
        Built {
            plain: Some(Document::of(&tree)),
            origins,
        }
    } else {
        Built {
            plain: None,
            origins: Origins::default(),
        }
    };
    Ok((document, built))
}

struct Work<'w> {
    document: &'w Document,
    shared: &'w Shared,
    policies: &'w Policies,
    origins: Origins,
    faults: Vec<Fault>,
    changed: bool,
}

impl Work<'_> {
    fn tree(&mut self) -> Tree {
        let mut tree = self.document.tree();
        let (mut kept, mut dropped) = (BTreeSet::new(), BTreeSet::new());
        if let Some(Tree::List(sections)) = tree.at_mut("sections") {
            for (section, part) in sections.iter_mut().enumerate() {
                let Some(Tree::List(steps)) = part.at_mut("steps") else {
                    continue;
                };
                let mut origin = Vec::new();
                let all = std::mem::take(steps);
                for (index, step) in all.into_iter().enumerate() {
                    let path = format!("sections[{section}].steps[{index}]");
                    let (step, stands) = self.step(step, &path);
                    branches_of(&step, if stands { &mut kept } else { &mut dropped });
                    if stands {
                        origin.push(index);
                        steps.push(step);
                    }
                }
                self.origins.steps(section, origin);
            }
        }
        self.branches(&mut tree, &kept, &dropped);
        tree
    }

    /// The step with what is shared in its place, and whether the barn's choices let it stand.
    fn step(&mut self, step: Tree, path: &str) -> (Tree, bool) {
        let step = if step.at("include").is_some() {
            self.changed = true;
            self.included(step, path)
        } else {
            step
        };
        let Tree::Map(mut entries) = step else {
            return (step, true);
        };
        let Some(at) = entries.iter().position(|(key, _)| key == "policy") else {
            return (Tree::Map(entries), true);
        };
        self.changed = true;
        let (_, policy) = entries.remove(at);
        let stands = self.stands(&policy, &format!("{path}.policy"));
        (Tree::Map(entries), stands)
    }

    fn stands(&mut self, policy: &Tree, path: &str) -> bool {
        let told = match policy {
            Tree::Map(entries) => match entries.as_slice() {
                [(word, Tree::Text(choice))] => Choice::from_words(word, choice)
                    .map(|choice| self.policies.chose(choice))
                    .map_err(|not| (not.what(), not.fix())),
                _ => Err(one_policy()),
            },
            _ => Err(one_policy()),
        };
        told.unwrap_or_else(|(what, fix)| {
            self.fault(path, what, fix);
            true
        })
    }

    fn included(&mut self, entry: Tree, path: &str) -> Tree {
        let Some(name) = entry.at("include").and_then(Tree::scalar) else {
            let what = "the name of one shared step is wanted here".to_owned();
            let fix = "write each on a line of its own, as `- include: seat`".to_owned();
            self.fault(&format!("{path}.include"), what, fix);
            return entry;
        };
        let Some(found) = self.shared.step(name) else {
            let fix = match nearest(name, self.shared.names()) {
                Some(meant) => format!("did you mean `{meant}`?"),
                None => "name a step of the shared files, or write the step here".to_owned(),
            };
            let what = format!("there is no shared step `{name}`");
            self.fault(&format!("{path}.include"), what, fix);
            return entry;
        };
        let mut step = found.clone();
        self.origins.shared(path, name);
        let Tree::Map(entries) = entry else {
            return step;
        };
        for (key, value) in entries {
            if key == "include" {
                continue;
            }
            let beside = INCLUDED.keys.iter().map(|known| known.name).skip(1);
            if !beside.clone().any(|known| known == key) {
                let fix = match nearest(&key, beside) {
                    Some(meant) => format!("did you mean `{meant}`?"),
                    None => "write the step whole where it asks something else".to_owned(),
                };
                let what = format!("`{key}` cannot stand beside `include`");
                self.key_fault(&format!("{path}.{key}"), what, fix);
                continue;
            }
            replace(&mut step, key, value);
        }
        step
    }

    /// Branches that only steps left away opened go with them; those of shared steps come along.
    fn branches(&mut self, tree: &mut Tree, kept: &BTreeSet<String>, dropped: &BTreeSet<String>) {
        let Tree::Map(entries) = tree else { return };
        if !self.changed {
            return;
        }
        if !entries.iter().any(|(key, _)| key == "branches") {
            entries.push(("branches".to_owned(), Tree::List(Vec::new())));
        }
        let Some(Tree::List(branches)) = tree.at_mut("branches") else {
            return;
        };
        let mut origin = Vec::new();
        let own = std::mem::take(branches);
        for (index, branch) in own.into_iter().enumerate() {
            let id = branch.at("id").and_then(Tree::scalar).unwrap_or_default();
            if kept.contains(id) || !dropped.contains(id) {
                origin.push(index);
                branches.push(branch);
            }
        }
        self.origins.branches(origin);
        let known: BTreeSet<String> = branches
            .iter()
            .filter_map(|branch| branch.at("id")?.scalar().map(str::to_owned))
            .collect();
        let missing = kept.iter().filter(|id| !known.contains(*id));
        for (id, branch) in missing.filter_map(|id| Some((id, self.shared.branch(id)?))) {
            self.origins.shared_branch(id);
            branches.push(branch.clone());
        }
    }

    /// A fault of a key, told at the key itself.
    fn key_fault(&mut self, path: &str, what: String, fix: String) {
        match self.document.key_at(path) {
            Some(key) => self.faults.push(self.document.fault_at(key, what, fix)),
            None => self.fault(path, what, fix),
        }
    }

    fn fault(&mut self, path: &str, what: String, fix: String) {
        let fault = place::fault(self.document, path, what, fix);
        self.faults.push(fault);
    }
}

/// The branches a step names, wherever it does.
fn branches_of(tree: &Tree, into: &mut BTreeSet<String>) {
    match tree {
        Tree::Map(entries) => {
            for (key, value) in entries {
                match (key.as_str(), value.scalar()) {
                    ("branch", Some(id)) => {
                        into.insert(id.to_owned());
                    }
                    _ => branches_of(value, into),
                }
            }
        }
        Tree::List(values) => values.iter().for_each(|value| branches_of(value, into)),
        Tree::Text(_) | Tree::Bare(_) => {}
    }
}

/// Puts a value in the place of the one with this key, or behind the `id` where there is none.
fn replace(step: &mut Tree, key: String, value: Tree) {
    let Tree::Map(entries) = step else { return };
    match entries.iter_mut().find(|(own, _)| *own == key) {
        Some((_, own)) => *own = value,
        None => entries.insert(entries.len().min(1), (key, value)),
    }
}

fn one_policy() -> (String, String) {
    (
        "a step stands by one policy".to_owned(),
        "write it as `policy: { tie: bar-first }`".to_owned(),
    )
}
