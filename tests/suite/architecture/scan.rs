//! Finds every name in a file and says which of them its layer must not use.

use super::blank::blanked;
use super::plan::Plan;

/// A file to look at.
pub(crate) struct Source {
    pub(crate) name: String,
    pub(crate) room: Room,
    pub(crate) text: String,
}

/// Where the file stands.
pub(crate) enum Room {
    /// `main.rs`: it may name `cli`, and from outside what `cli` may.
    Program,
    /// A file of a layer, so many modules deep; the layer's own `foo.rs` is one deep.
    Layer { name: String, depth: usize },
}

/// A word, `::` or a sign, with its line.
struct Token {
    line: usize,
    text: String,
}

/// A path as written out in full: groups are taken apart.
struct Named {
    line: usize,
    segments: Vec<String>,
    written: Written,
}

#[derive(Clone, Copy, PartialEq)]
enum Written {
    Code,
    Use,
    PubUse,
}

/// Every breach in `source`, one sentence each, with file and line.
pub(crate) fn faults(source: &Source, plan: &Plan) -> Vec<String> {
    let code = blanked(&source.text);
    let tokens = tokens(&code);
    let tests_from = 1 + code
        .lines()
        .position(|line| line.starts_with("#[cfg(test)]"))
        .unwrap_or(usize::MAX - 1);
    let mut faults = Vec::new();
    for path in paths(&tokens) {
        let in_tests = path.line >= tests_from;
        if let Some(fault) = arrow_fault(&path, &source.room, in_tests, plan) {
            faults.push((path.line, fault));
        }
    }
    let layer = match &source.room {
        Room::Program => "cli",
        Room::Layer { name, .. } => name,
    };
    for name in plan.forbidden(layer) {
        let uses = lines_with(name, &tokens);
        for line in uses.into_iter().filter(|line| *line < tests_from) {
            faults.push((line, format!("‘{layer}’ must not use ‘{name}’")));
        }
    }
    faults.sort();
    faults.dedup();
    faults
        .into_iter()
        .map(|(line, fault)| format!("{}:{line}: {fault}", source.name))
        .collect()
}

/// What is wrong with `lib.rs`: it declares the layers, in the table's order, and does no more.
pub(crate) fn lib_faults(text: &str, plan: &Plan) -> Vec<String> {
    let code = blanked(text);
    let mut faults = Vec::new();
    let mut last = None;
    for (line, written) in (1..).zip(code.lines().map(str::trim)) {
        if written.is_empty() || written.starts_with('#') {
            continue;
        }
        let declared = written
            .strip_prefix("pub mod ")
            .and_then(|rest| rest.strip_suffix(';'));
        let place = declared.and_then(|name| plan.place(name));
        if place.is_none() {
            faults.push(format!("src/lib.rs:{line}: not the declaration of a layer"));
        } else if place <= last {
            faults.push(format!("src/lib.rs:{line}: not in the order of the table"));
        }
        last = last.max(place);
    }
    faults
}

/// What is wrong with a path that leads to another layer, if anything is.
fn arrow_fault(path: &Named, room: &Room, in_tests: bool, plan: &Plan) -> Option<String> {
    let segments: Vec<&str> = path.segments.iter().map(String::as_str).collect();
    let supers = segments.iter().take_while(|s| **s == "super").count();
    if supers > 2 {
        return Some("‘super::super::super’: write the path from ‘crate’".to_owned());
    }
    let depth = match room {
        Room::Program => 0,
        Room::Layer { depth, .. } => depth + usize::from(in_tests),
    };
    let other = match segments.as_slice() {
        ["crate" | "hames"] if path.written != Written::Code => "*",
        ["crate" | "hames", other, ..] => other,
        _ if supers > 0 && supers >= depth => segments
            .get(supers)
            .copied()
            .filter(|other| *other == "*" || plan.place(other).is_some())?,
        _ => return None,
    };
    if matches!(other, "*" | "self") {
        return Some("names the whole crate: name the layer".to_owned());
    }
    match room {
        Room::Program if other == "cli" => None,
        Room::Program => Some(format!(
            "the program names ‘{other}’: it may name ‘cli’ alone"
        )),
        Room::Layer { name, .. } if !plan.allows(name, other) => {
            Some(format!("‘{name}’ names ‘crate::{other}’"))
        }
        Room::Layer { name, .. } if path.written == Written::PubUse && name != other => Some(
            format!("‘{name}’ gives on ‘crate::{other}’, which hides an arrow"),
        ),
        Room::Layer { .. } => None,
    }
}

/// The lines that use `name`: a word, a macro with its `!`, or neighbours in a path.
fn lines_with(name: &str, tokens: &[Token]) -> Vec<usize> {
    if name.contains("::") {
        let wanted: Vec<&str> = name.split("::").collect();
        return paths(tokens)
            .into_iter()
            .filter(|path| {
                path.segments
                    .windows(wanted.len())
                    .any(|part| part == wanted)
            })
            .map(|path| path.line)
            .collect();
    }
    let (word, call) = match name.strip_suffix('!') {
        Some(word) => (word, true),
        None => (name, false),
    };
    (0..tokens.len())
        .filter(|i| tokens[*i].text == word)
        .filter(|i| !call || tokens.get(i + 1).is_some_and(|next| next.text == "!"))
        .map(|i| tokens[i].line)
        .collect()
}

fn tokens(code: &str) -> Vec<Token> {
    let mut tokens: Vec<Token> = Vec::new();
    for (line, text) in (1..).zip(code.lines()) {
        let mut rest = text.trim_start();
        while let Some(first) = rest.chars().next() {
            let word = rest
                .find(|c: char| !c.is_alphanumeric() && c != '_')
                .unwrap_or(rest.len());
            let length = match word {
                0 if rest.starts_with("::") => 2,
                0 => first.len_utf8(),
                word => word,
            };
            let (text, after) = rest.split_at(length);
            tokens.push(Token {
                line,
                text: text.to_owned(),
            });
            rest = after.trim_start();
        }
    }
    tokens
}

/// Every path in the file, in `use` and in expressions, groups taken apart. A single word is a
/// path too.
fn paths(tokens: &[Token]) -> Vec<Named> {
    let mut found = Vec::new();
    let mut written = Written::Code;
    let mut at = 0;
    while at < tokens.len() {
        match tokens[at].text.as_str() {
            "use" if follows_pub(&tokens[..at]) => written = Written::PubUse,
            "use" => written = Written::Use,
            ";" => written = Written::Code,
            _ => {}
        }
        let first = found.len();
        at = path_from(tokens, at, &[], &mut found).max(at + 1);
        for path in &mut found[first..] {
            path.written = written;
        }
    }
    found
}

/// Reads the path or the group that begins at `at` and gives where it ends.
fn path_from(tokens: &[Token], at: usize, before: &[String], found: &mut Vec<Named>) -> usize {
    let mut segments = before.to_vec();
    let mut i = at;
    while let Some(token) = tokens.get(i) {
        let opens_group = token.text == "{" && i > at;
        if opens_group {
            return group_from(tokens, i + 1, &segments, found);
        }
        let is_glob = token.text == "*" && i > at;
        if !is_word(&token.text) && !is_glob {
            break;
        }
        segments.push(token.text.clone());
        i += 1;
        if tokens.get(i).is_none_or(|next| next.text != "::") {
            break;
        }
        i += 1;
    }
    if segments.len() > before.len() {
        let line = tokens[i.min(tokens.len()) - 1].line;
        let written = Written::Code;
        found.push(Named {
            line,
            segments,
            written,
        });
    }
    i
}

fn group_from(tokens: &[Token], at: usize, before: &[String], found: &mut Vec<Named>) -> usize {
    let mut i = at;
    while let Some(token) = tokens.get(i) {
        if token.text == "}" {
            return i + 1;
        }
        if token.text == "as" {
            i += 2;
        } else {
            i = path_from(tokens, i, before, found).max(i + 1);
        }
    }
    i
}

fn is_word(text: &str) -> bool {
    text.starts_with(|c: char| c.is_alphabetic() || c == '_')
}

/// Whether the tokens end in `pub` or `pub(…)`.
fn follows_pub(before: &[Token]) -> bool {
    let mut before: Vec<&str> = before.iter().map(|token| token.text.as_str()).collect();
    if before.last() == Some(&")") {
        while before.pop().is_some_and(|text| text != "(") {}
    }
    before.last() == Some(&"pub")
}
