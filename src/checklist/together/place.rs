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

    /// A fault of the plain file, told of the source.
    pub(super) fn fault(&self, fault: Fault, document: &Document) -> Fault {
        let path = self.source(&fault.path);
        let spot = nearest_spot(document, &path);
        let of = self
            .shared
            .iter()
            .find(|(entry, _)| path.starts_with(&format!("{entry}.")));
        let what = match of {
            Some((entry, name)) if document.spot_at(&path).is_none() => {
                let inside = path.get(entry.len() + 1..).unwrap_or_default();
                format!("in the shared step `{name}`, {inside}: {}", fault.what)
            }
            _ => fault.what,
        };
        Fault {
            place: spot.0,
            path: spot.1,
            what,
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
