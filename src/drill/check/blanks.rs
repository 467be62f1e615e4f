//! Places of a sketch that are still to be written.

use crate::document::{Document, Tree};
use crate::drill::check::{Remark, Rule};

/// What stands in front of a place to be written; behind it stands what belongs there.
pub(in crate::drill) const BLANK: &str = "____";

/// Every text of the file that is still a blank.
pub(super) fn remarks(document: &Document) -> Vec<Remark> {
    let mut found = Vec::new();
    gather(&document.tree(), "", &mut found);
    found
}

fn gather(tree: &Tree, path: &str, found: &mut Vec<Remark>) {
    match tree {
        Tree::Map(entries) => {
            for (key, value) in entries {
                let dot = if path.is_empty() { "" } else { "." };
                gather(value, &format!("{path}{dot}{key}"), found);
            }
        }
        Tree::List(values) => {
            for (at, value) in values.iter().enumerate() {
                gather(value, &format!("{path}[{at}]"), found);
            }
        }
        Tree::Text(text) => {
            if let Some(wanted) = text.trim().strip_prefix(BLANK) {
                found.push(blank(path, wanted.trim()));
            }
        }
        Tree::Bare(_) => {}
    }
}

fn blank(path: &str, wanted: &str) -> Remark {
    let fix = if wanted.is_empty() {
        "write what belongs here".to_owned()
    } else {
        format!("write {wanted}")
    };
    Remark::new(Rule::Unwritten, path, "this is still to be written", fix)
}
