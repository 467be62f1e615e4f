//! What a copying, syncing or versioning of the folder can do to it on the way.

use crate::cli::command::quoted;
use crate::cli::doctor::check::Check;
use crate::cli::doctor::tree::Named;
use crate::store::{Disk, Kind, Local, is_place};
use std::collections::BTreeMap;
use std::path::Path;

const OF: &str = "sharing";

/// Longest name that every kind of disk and sync takes.
const LONGEST: usize = 100;

/// Most bytes of a file that is looked at here.
const MOST: usize = 64 * 1024 * 1024;

/// What a sync leaves where it keeps a folder the same elsewhere.
const SYNC_MARKS: [&str; 2] = [".stfolder", ".stignore"];

/// Parts of names that syncs, browsers and editors give to a second copy.
const COPY_MARKS: [&str; 7] = [
    ".sync-conflict-",
    "conflicted copy",
    "case conflict",
    " - copy",
    ".orig",
    ".bak",
    "~",
];

/// The folders that hold what people stated, and nothing else.
const STATED: [&str; 3] = ["mgr", "approved", "crew"];

/// Files whose every byte is signed or hashed.
const BYTE_FOR_BYTE: [&str; 7] = [
    "trip.jsonl",
    "seal.json",
    "statement.json",
    "approval.json",
    "allowed_signers",
    "crew.allowed_signers",
    "checklist.yaml",
];

pub(super) fn shared(root: &Path, names: &[Named]) -> Vec<Check> {
    let mut checks = attributes(root);
    checks.extend(keys_go_along(root));
    checks.extend(copies(root, names));
    checks.extend(alike(names));
    checks.extend(long(names));
    checks.extend(line_ends(root, names));
    if checks.is_empty() {
        checks.push(Check::ok(
            OF,
            "names, line ends and ignore files are such as every sync and stick takes",
        ));
    }
    checks
}

/// Line ends are left alone on the way.
fn attributes(root: &Path) -> Vec<Check> {
    let text = text(&root.join(".gitattributes"));
    let kept = text
        .as_deref()
        .is_some_and(|text| text.lines().any(|line| line.trim() == "* -text"));
    if kept {
        return Vec::new();
    }
    let set = repository(root).is_some_and(|git| converts(&git));
    let told = ".gitattributes does not hold the line “* -text”, so a checkout may change line \
                ends, and signatures no longer hold. Put that line there";
    vec![if set {
        Check::wrong(
            OF,
            format!("core.autocrlf is set for this repository, and {told}"),
        )
    } else {
        Check::wrong(OF, told)
    }]
}

/// Whether private keys may leave the laptop with the folder.
fn keys_go_along(root: &Path) -> Vec<Check> {
    let has_keys = Local
        .list(&root.join("keys"))
        .is_ok_and(|keys| !keys.is_empty());
    if !has_keys {
        return Vec::new();
    }
    let mut checks = Vec::new();
    let ignores = |name: &str| {
        text(&root.join(name)).is_some_and(|text| {
            text.lines()
                .any(|line| matches!(line.trim(), "/keys/" | "/keys" | "keys/" | "keys"))
        })
    };
    let git = repository(root);
    if let Some(git) = &git
        && text_holds(&git.join("index"), "keys/")
    {
        checks.push(Check::wrong(
            OF,
            "private keys may be in the repository already. Take them out of it with git rm \
             --cached, and have a manager enrol new ones: whoever has a copy has the keys",
        ));
    }
    if !ignores(".gitignore") {
        let told = ".gitignore does not hold the line “/keys/”, so private keys would go along. \
                    Put that line there";
        checks.push(if git.is_some() {
            Check::wrong(OF, told)
        } else {
            Check::look(OF, told)
        });
    }
    let is_there = |mark: &str| Local.exists(&root.join(mark)).unwrap_or(false);
    if SYNC_MARKS.iter().any(|mark| is_there(mark)) && !ignores(".stignore") {
        checks.push(Check::wrong(
            OF,
            "a sync keeps this folder the same elsewhere, and keys/ with it. Leave keys/ out of \
             what it syncs (a line “/keys” in .stignore)",
        ));
    }
    checks
}

/// Second copies that a sync or an editor made.
fn copies(root: &Path, names: &[Named]) -> Vec<Check> {
    let is_marked = |named: &Named| {
        let name = named.name().to_lowercase();
        let numbered = name
            .rsplit_once(" (")
            .and_then(|(_, rest)| rest.split_once(')'))
            .is_some_and(|(number, _)| number.parse::<u32>().is_ok());
        numbered || COPY_MARKS.iter().any(|mark| name.contains(mark))
    };
    let found = names.iter().filter(|one| is_marked(one) || is_astray(one));
    let mut copies: Vec<&Named> = Vec::new();
    for named in found {
        // What lies in a folder that is told is told with it.
        if copies.iter().all(|one| !named.path.starts_with(&one.path)) {
            copies.push(named);
        }
    }
    let merge = format!("hames logbook merge {}", quoted(root));
    copies
        .iter()
        .map(|named| {
            Check::look(
                OF,
                format!(
                    "{} looks like a second copy that a sync or an editor made. {merge} judges such \
                     by what is in them, and keeps aside what it moves",
                    named.shown()
                ),
            )
        })
        .collect()
}

/// Whether a file lies among what people stated for the whole barn, in no place of a logbook: not
/// every sync gives its copies a name that tells them.
fn is_astray(named: &Named) -> bool {
    let among = STATED.iter().any(|part| named.path.starts_with(part));
    let is_draft = named.name().starts_with('.');
    among && named.kind == Kind::File && !is_draft && !is_place(&named.path)
}

/// Names that one kind of disk takes for the same.
fn alike(names: &[Named]) -> Vec<Check> {
    let mut same: BTreeMap<String, Vec<&Named>> = BTreeMap::new();
    for named in names {
        let key = named.path.to_string_lossy().to_lowercase();
        same.entry(key).or_default().push(named);
    }
    let twice = same.into_values().filter(|same| same.len() > 1);
    twice
        .map(|same| {
            let shown: Vec<String> = same.iter().map(|named| named.shown()).collect();
            Check::wrong(
                OF,
                format!(
                    "{} differ in small and large letters alone, and some disks keep one of them. \
                     See which one is ours before it is copied",
                    shown.join(" and ")
                ),
            )
        })
        .collect()
}

fn long(names: &[Named]) -> Vec<Check> {
    let long = names.iter().filter(|named| named.name().len() > LONGEST);
    long.map(|named| {
        Check::look(
            OF,
            format!(
                "{} has a name of more than {LONGEST} characters, which not every disk takes. It \
                 is none of ours",
                named.shown()
            ),
        )
    })
    .collect()
}

fn line_ends(root: &Path, names: &[Named]) -> Vec<Check> {
    let ours = names
        .iter()
        .filter(|named| named.kind == Kind::File && BYTE_FOR_BYTE.contains(&named.name().as_str()));
    let changed = ours.filter(|named| {
        let bytes = Local
            .read(&root.join(&named.path), MOST)
            .unwrap_or_default();
        bytes.windows(2).any(|pair| pair == b"\r\n")
    });
    changed
        .map(|named| {
            Check::wrong(
                OF,
                format!(
                    "line ends of {} were changed on the way (CRLF). Take the file anew from where \
                     it came, with .gitattributes in its place",
                    named.shown()
                ),
            )
        })
        .collect()
}

/// The folder of the repository the logbook lies in.
fn repository(root: &Path) -> Option<std::path::PathBuf> {
    let whole = std::path::absolute(root).ok()?;
    let mut above = whole.ancestors().map(|folder| folder.join(".git"));
    above.find(|git| Local.exists(&git.join("config")).unwrap_or(false))
}

/// Whether the repository changes line ends.
fn converts(git: &Path) -> bool {
    text(&git.join("config")).is_some_and(|config| {
        config.lines().any(|line| {
            let line = line.to_lowercase().replace(' ', "");
            matches!(line.trim(), "autocrlf=true" | "autocrlf=input")
        })
    })
}

fn text(path: &Path) -> Option<String> {
    let bytes = Local.read(path, MOST).ok()?;
    Some(String::from_utf8_lossy(&bytes).into_owned())
}

fn text_holds(path: &Path, part: &str) -> bool {
    let bytes = Local.read(path, MOST).unwrap_or_default();
    bytes
        .windows(part.len())
        .any(|window| window == part.as_bytes())
}
