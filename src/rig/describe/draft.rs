//! A rig file on its way: what is known so far, in the order the file is read.

use crate::document::{Document, Fault, Remarks, Tree};
use crate::rig::Rig;
use crate::rig::describe::{CHAPTERS, Over};

/// What a new file begins with.
const HEAD: &str = "format: hames-rig/1\n";

/// A rig file that may still lack most of what a rig needs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Draft {
    tree: Tree,
    remarks: Remarks,
}

impl Draft {
    /// A file of which nothing is known yet.
    pub(super) fn new() -> Self {
        Self {
            tree: Document::parse(HEAD).map_or(Tree::empty(), |document| document.tree()),
            remarks: Remarks::default(),
        }
    }

    /// A file begun before. It may lack values.
    ///
    /// # Errors
    /// What is wrong in it, where more is wrong than that something lacks.
    pub(super) fn read(text: &str) -> Result<Self, Vec<Fault>> {
        let wrong: Vec<Fault> = faults(text)
            .into_iter()
            .filter(|own| !own.lacking)
            .collect();
        if !wrong.is_empty() {
            return Err(wrong);
        }
        let document = Document::parse(text)?;
        Ok(Self {
            tree: document.tree(),
            remarks: document.remarks(),
        })
    }

    pub(super) fn at(&self, path: &str) -> Option<&Tree> {
        self.tree.at(path)
    }

    /// The word at a path.
    pub(super) fn word(&self, path: &str) -> Option<&str> {
        self.at(path).and_then(Tree::scalar)
    }

    pub(super) fn put(&mut self, path: &str, value: Tree) {
        self.tree
            .put(path, value, &|new, old| rank(new) < rank(old));
    }

    pub(super) fn take(&mut self, path: &str) {
        self.tree.take(path);
    }

    pub(super) fn remark(&mut self, path: &str, remark: &str) {
        self.remarks.put(path, remark);
    }

    /// The file's text.
    pub(super) fn text(&self) -> String {
        self.tree.written(&self.remarks)
    }

    /// Everything the rig file's reader has to say about it.
    pub(super) fn faults(&self) -> Vec<Fault> {
        faults(&self.text())
    }
}

fn faults(text: &str) -> Vec<Fault> {
    Rig::read(text).err().unwrap_or_default()
}

/// Where in the file a path belongs: that of the first question about it or about a part of it.
fn rank(path: &str) -> Option<usize> {
    let path = template(path);
    CHAPTERS
        .iter()
        .flat_map(|chapter| chapter.sections)
        .flat_map(|section| section.fields.iter().map(|field| section.path(field)))
        .position(|own| {
            own.strip_prefix(&path)
                .is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
        })
}

/// The path with `[]` for each place in a list and `*` for a chain's side, as questions have it.
pub(super) fn template(path: &str) -> String {
    let mut out = String::new();
    let mut inside = false;
    for letter in path.chars() {
        match letter {
            '[' => inside = true,
            ']' => inside = false,
            _ if inside => continue,
            _ => {}
        }
        out.push(letter);
    }
    let sides = CHAPTERS
        .iter()
        .filter(|chapter| matches!(chapter.over, Over::Sides))
        .flat_map(|chapter| chapter.sections);
    for section in sides {
        for side in ["left", "right"] {
            let own = section.at.replace('*', side);
            if let Some(rest) = out.strip_prefix(&own) {
                return format!("{}{rest}", section.at);
            }
        }
    }
    out
}
