//! What is exported of a logbook: a closed list, so that what is added to logbooks later, private
//! keys, caches and quarantine never go along unless somebody writes them here.

use crate::record::{MAX_STATEMENT, MAX_TRIP};
use crate::store::{Disk, Entry, Kind, Local, Logbook, MOST_FILE_BYTES, StoreFault};
use std::path::{Path, PathBuf};

/// One file of an export.
#[derive(Clone, Debug)]
pub(super) struct Content {
    /// Where it lies below the export, with strokes between.
    pub(super) at: String,
    /// Where its bytes come from.
    pub(super) from: From,
}

/// Where the bytes of a file come from.
#[derive(Clone, Debug)]
pub(super) enum From {
    /// A file of the logbook of at most so many bytes.
    Logbook(PathBuf, usize),
    /// They are the same in every export.
    Text(&'static str),
}

/// Everything that is copied, by place, and what of the logbook is not.
pub(super) struct Contents {
    pub(super) contents: Vec<Content>,
    pub(super) left_behind: Vec<String>,
}

/// The files that go along, by the parts of their place. A star stands for any name, and at the end
/// of one for any ending.
const ALONG: &[&[&str]] = &[
    &["barn.txt"],
    &["crew", "allowed_signers"],
    &["mgr", "*", "*", "statement.json"],
    &["mgr", "*", "*", "statement.sig"],
    &["mgr", "*", "*", "allowed_signers"],
    &["approved", "*", "*", "checklist.yaml"],
    &["approved", "*", "*", "approval.json"],
    &["approved", "*", "*", "approval.sig"],
    &["dev", "*", "t", "*", "trip.jsonl"],
    &["dev", "*", "t", "*", "trip.torn-*"],
    &["dev", "*", "t", "*", "checklist.yaml"],
    &["dev", "*", "t", "*", "rig.yaml"],
    &["dev", "*", "t", "*", "crew.allowed_signers"],
    &["dev", "*", "t", "*", "seal.json"],
    &["dev", "*", "t", "*", "seal.person.sig"],
    &["dev", "*", "t", "*", "seal.device.sig"],
    &["drill", "dev", "*", "t", "*", "trip.jsonl"],
    &["drill", "dev", "*", "t", "*", "trip.torn-*"],
    &["drill", "dev", "*", "t", "*", "checklist.yaml"],
    &["drill", "dev", "*", "t", "*", "rig.yaml"],
    &["drill", "dev", "*", "t", "*", "scenario.yaml"],
    &["drill", "dev", "*", "t", "*", "sights.yaml"],
    &["drill", "dev", "*", "t", "*", "crew.allowed_signers"],
    &["drill", "dev", "*", "t", "*", "seal.json"],
    &["drill", "dev", "*", "t", "*", "seal.person.sig"],
    &["drill", "dev", "*", "t", "*", "seal.device.sig"],
    &["drill", "dev", "*", "t", "*", "seal.examiner.sig"],
];

/// What a logbook has for itself alone. It is left behind and not told of.
const OWN: &[&str] = &[".gitignore", ".gitattributes", "keys", "hold", ".git"];

/// What goes along beside the records: how line ends are kept, and the second verifier, which shares
/// no line with this program.
const BESIDE: [(&str, &str); 7] = [
    (".gitattributes", "* -text\n"),
    (
        "second/drills.py",
        include_str!("../../../../tests/second/drills.py"),
    ),
    (
        "second/kinds.py",
        include_str!("../../../../tests/second/kinds.py"),
    ),
    (
        "second/logbook.py",
        include_str!("../../../../tests/second/logbook.py"),
    ),
    (
        "second/signed.py",
        include_str!("../../../../tests/second/signed.py"),
    ),
    (
        "second/statements.py",
        include_str!("../../../../tests/second/statements.py"),
    ),
    (
        "second/verify.py",
        include_str!("../../../../tests/second/verify.py"),
    ),
];

/// Gathers what goes along.
pub(super) fn contents(logbook: &Logbook<Local>) -> Result<Contents, StoreFault> {
    let mut all = Contents {
        contents: BESIDE
            .map(|(at, text)| Content {
                at: at.to_owned(),
                from: From::Text(text),
            })
            .into(),
        left_behind: Vec::new(),
    };
    all.gather(logbook.root(), "", ALONG)?;
    all.contents.sort_by(|one, other| one.at.cmp(&other.at));
    Ok(all)
}

impl Contents {
    fn gather(&mut self, folder: &Path, at: &str, along: &[&[&str]]) -> Result<(), StoreFault> {
        let entries = Local.list(folder);
        for entry in entries.map_err(StoreFault::of_reading(folder, MOST_FILE_BYTES))? {
            let plain = |name: &&str| !name.contains(|one: char| one.is_control() || one == '\\');
            let Some(name) = entry.name.to_str().filter(plain) else {
                self.leave(at, &entry);
                continue;
            };
            let matching: Vec<&[&str]> = along
                .iter()
                .filter_map(|along| along.split_first())
                .filter(|(first, _)| fits(first, name))
                .map(|(_, rest)| rest)
                .collect();
            let path = folder.join(name);
            let place = format!("{at}{name}");
            match entry.kind {
                Kind::File if matching.iter().any(|rest| rest.is_empty()) => {
                    let most = most_bytes(name);
                    let from = From::Logbook(path, most);
                    self.contents.push(Content { at: place, from });
                }
                Kind::Folder if matching.iter().any(|rest| !rest.is_empty()) => {
                    self.gather(&path, &format!("{place}/"), &matching)?;
                }
                _ => self.leave(at, &entry),
            }
        }
        Ok(())
    }

    fn leave(&mut self, at: &str, entry: &Entry) {
        let name = entry.name.to_string_lossy();
        if !OWN.contains(&name.as_ref()) {
            let place = format!("{at}{name}");
            self.left_behind.push(place.escape_debug().to_string());
        }
    }
}

/// A name that begins with a point is a draft that a crash left, or somebody else's.
fn fits(pattern: &str, name: &str) -> bool {
    match pattern.strip_suffix('*') {
        Some(start) => name.starts_with(start) && !name.starts_with('.'),
        None => name == pattern,
    }
}

/// A journal and a statement may be longer than other files.
fn most_bytes(name: &str) -> usize {
    if name.starts_with("trip.") {
        MAX_TRIP
    } else {
        MOST_FILE_BYTES.max(MAX_STATEMENT)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_star_stands_for_any_name_but_a_draft() {
        for (pattern, name, yes) in [
            ("*", "wren.ashdown", true),
            ("*", ".draft", false),
            ("trip.torn-*", "trip.torn-1", true),
            ("trip.torn-*", "trip.jsonl", false),
            ("seal.json", "seal.json", true),
            ("seal.json", "seal.json.bak", false),
        ] {
            assert_eq!(fits(pattern, name), yes, "{pattern} {name}");
        }
    }
}
