//! Where a part of the plain file stands in the file it was put together from.

use crate::document::{Document, Fault, Place};
use std::collections::BTreeMap;

/// For each part of the plain file, which one of the source it was.
#[derive(Clone, Debug, Default)]
pub(super) struct Origins {
    steps: BTreeMap<usize, Vec<usize>>,
    branches: Option<Vec<usize>>,
    /// Shared steps by the path of their entry in the source.
    shared: BTreeMap<String, String>,
    /// Shared branches, which stand behind those of the source.
    shared_branches: Vec<String>,
}

impl Origins {
    pub(super) fn steps(&mut self, section: usize, origin: Vec<usize>) {
        self.steps.insert(section, origin);
    }

    pub(super) fn branches(&mut self, origin: Vec<usize>) {
        self.branches = Some(origin);
    }

    pub(super) fn shared(&mut self, path: &str, name: &str) {
        self.shared.insert(path.to_owned(), name.to_owned());
    }

    pub(super) fn shared_branch(&mut self, name: &str) {
        self.shared_branches.push(name.to_owned());
    }

    /// A fault of the plain file, told of the source.
    pub(super) fn fault(&self, fault: Fault, plain: &Document, document: &Document) -> Fault {
        let path = self.source(&fault.path);
        // One path stands for a key and for its value; what is told of the key stays there.
        let value = plain.spot_at(&fault.path);
        let of_key = value.is_some_and(|spot| plain.place_of(spot) != fault.place);
        let spot = match document.key_at(&path).filter(|_| of_key) {
            Some(key) => (document.place_of(key), path.clone()),
            None => nearest_spot(document, &path),
        };
        let of = self
            .shared
            .iter()
            .find(|(entry, _)| path.starts_with(&format!("{entry}.")));
        let (what, fix) = match of {
            Some((entry, name)) if document.spot_at(&path).is_none() => {
                let inside = path.get(entry.len() + 1..).unwrap_or_default();
                let what = format!("in the shared step `{name}`, {inside}: {}", fault.what);
                (what, fix_beside(inside, fault.fix))
            }
            _ => match self.of_shared_branch(&fault.path) {
                Some(name) => {
                    let what = format!("in the shared branch `{name}`: {}", fault.what);
                    (what, fault.fix)
                }
                None => (fault.what, fault.fix),
            },
        };
        Fault {
            place: spot.0,
            path: spot.1,
            what,
            fix,
            ..fault
        }
    }

    /// The place in the source, and the path to it.
    pub(super) fn place(&self, path: &str, document: &Document) -> (Place, String) {
        nearest_spot(document, &self.source(path))
    }

    /// The same path in the source.
    fn source(&self, path: &str) -> String {
        self.step(path)
            .or_else(|| self.branch(path))
            .unwrap_or_else(|| path.to_owned())
    }

    fn of_shared_branch(&self, path: &str) -> Option<&String> {
        let (branch, _) = path.strip_prefix("branches[")?.split_once(']')?;
        let own = self.branches.as_ref()?.len();
        let shared = branch.parse::<usize>().ok()?.checked_sub(own)?;
        self.shared_branches.get(shared)
    }

    fn step(&self, path: &str) -> Option<String> {
        let (section, rest) = path.strip_prefix("sections[")?.split_once("].steps[")?;
        let (step, rest) = rest.split_once(']')?;
        let origin = self.steps.get(&section.parse().ok()?)?;
        let index = origin.get(step.parse::<usize>().ok()?)?;
        Some(format!("sections[{section}].steps[{index}]{rest}"))
    }

    fn branch(&self, path: &str) -> Option<String> {
        let (branch, rest) = path.strip_prefix("branches[")?.split_once(']')?;
        let origin = self.branches.as_ref()?.get(branch.parse::<usize>().ok()?);
        Some(match origin {
            Some(index) => format!("branches[{index}]{rest}"),
            None => "branches".to_owned(),
        })
    }
}

/// A shared step taken a second time gets its other name where it is taken.
fn fix_beside(inside: &str, fix: String) -> String {
    if inside == "id" {
        "give it a name of its own here, as `id: …` beside `include`".to_owned()
    } else {
        fix
    }
}

/// The value the path leads to, or the last one on the way there.
fn nearest_spot(document: &Document, path: &str) -> (Place, String) {
    let mut path = path;
    loop {
        if let Some(spot) = document.spot_at(path) {
            return (document.place_of(spot), path.to_owned());
        }
        match path.rfind(['.', '[']) {
            Some(at) => path = path.get(..at).unwrap_or_default(),
            None => return (Place::START, String::new()),
        }
    }
}

/// A fault at the value a path of the source leads to.
pub(super) fn fault(document: &Document, path: &str, what: String, fix: String) -> Fault {
    let (place, path) = nearest_spot(document, path);
    Fault {
        place,
        path,
        what,
        fix,
        lacking: false,
    }
}
