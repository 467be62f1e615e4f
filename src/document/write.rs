//! A tree written as YAML, so that reading it gives the same tree again.

use crate::document::fault::hides;
use crate::document::tree::joined;
use crate::document::{Remarks, Tree};
use std::fmt::Write;

/// Characters that mean nothing wherever they stand inside unquoted text.
const PLAIN: &str = " -/.'%()+·°²×";

impl Tree {
    /// The document's text, each remark on its own line above the value it belongs to.
    pub fn written(&self, remarks: &Remarks) -> String {
        let mut page = Page {
            remarks,
            text: String::new(),
        };
        match self {
            Self::Map(entries) if !entries.is_empty() => page.map(entries, "", 0, 0),
            _ => {
                page.text.push_str(&line(self));
                page.text.push('\n');
            }
        }
        page.remarks_above("", 0);
        page.text
    }
}

struct Page<'r> {
    remarks: &'r Remarks,
    text: String,
}

impl Page<'_> {
    /// The entries of a map, of which the first needs `first` columns of indent and the others
    /// `indent`: behind a dash the first has its indent already.
    fn map(&mut self, entries: &[(String, Tree)], path: &str, indent: usize, first: usize) {
        for (place, (key, value)) in entries.iter().enumerate() {
            let own = joined(path, key);
            if place > 0 || first > 0 || path.is_empty() {
                if path.is_empty() && place > 0 && !is_short(value) {
                    self.text.push('\n');
                }
                self.remarks_above(&own, indent);
                self.pad(indent);
            }
            let _ = write!(self.text, "{}:", scalar(key));
            // A part of the file itself has room.
            let apart = path.is_empty() && value.keys().next().is_some();
            self.value(value, &own, indent, apart);
        }
    }

    /// What stands behind a key; on lines of its own where it must stand apart.
    fn value(&mut self, value: &Tree, path: &str, indent: usize, apart: bool) {
        if fits_a_line(value) && !apart && !self.has_remarks(path, &|_| true) {
            let _ = writeln!(self.text, " {}", line(value));
            return;
        }
        self.text.push('\n');
        match value {
            Tree::Map(entries) => self.map(entries, path, indent + 2, indent + 2),
            Tree::List(values) => {
                for (place, value) in values.iter().enumerate() {
                    self.item(value, &format!("{path}[{place}]"), indent + 2);
                }
            }
            Tree::Text(_) | Tree::Bare(_) => {}
        }
    }

    /// One value of a list.
    fn item(&mut self, value: &Tree, path: &str, indent: usize) {
        let first = match value {
            Tree::Map(entries) => entries.first().map(|(key, _)| joined(path, key)),
            _ => None,
        };
        if let Some(first) = &first {
            self.remarks_above(first, indent);
        }
        self.pad(indent);
        self.text.push_str("- ");
        let inside = |own: &str| Some(own) != first.as_deref();
        match value {
            Tree::Map(entries) if !fits_a_line(value) || self.has_remarks(path, &inside) => {
                self.map(entries, path, indent + 2, 0);
            }
            _ => {
                self.text.push_str(&line(value));
                self.text.push('\n');
            }
        }
    }

    fn remarks_above(&mut self, path: &str, indent: usize) {
        for remark in self.remarks.of(path) {
            self.pad(indent);
            self.text.push('#');
            self.text.push_str(remark);
            self.text.push('\n');
        }
    }

    /// Whether a value below `path` has a remark.
    fn has_remarks(&self, path: &str, counts: &dyn Fn(&str) -> bool) -> bool {
        self.remarks.0.keys().any(|own| {
            let below = own.strip_prefix(path);
            below.is_some_and(|below| below.starts_with(['.', '['])) && counts(own)
        })
    }

    fn pad(&mut self, indent: usize) {
        self.text.extend(std::iter::repeat_n(' ', indent));
    }
}

/// Whether a value is a scalar, or nothing.
fn is_short(value: &Tree) -> bool {
    fits_a_line(value) && value.keys().next().is_none()
}

/// Whether a value stands on the line of its key: a scalar, a map of nothing but scalars, nothing.
fn fits_a_line(value: &Tree) -> bool {
    let is_scalar = |value: &Tree| value.scalar().is_some();
    match value {
        Tree::Text(_) | Tree::Bare(_) => true,
        Tree::List(values) => values.is_empty(),
        Tree::Map(entries) => entries.iter().all(|(_, value)| is_scalar(value)),
    }
}

/// A value on one line.
fn line(value: &Tree) -> String {
    match value {
        Tree::Text(text) => scalar(text),
        Tree::Bare(bare) => bare.clone(),
        Tree::List(values) => {
            let values: Vec<String> = values.iter().map(line).collect();
            format!("[{}]", values.join(", "))
        }
        Tree::Map(entries) if entries.is_empty() => "{}".to_owned(),
        Tree::Map(entries) => {
            let pairs: Vec<String> = entries
                .iter()
                .map(|(key, value)| format!("{}: {}", scalar(key), line(value)))
                .collect();
            format!("{{ {} }}", pairs.join(", "))
        }
    }
}

/// Text without quotes where it reads as the same text, else in quotes.
fn scalar(text: &str) -> String {
    let plain = text.starts_with(|first: char| first.is_alphanumeric() || first == '-')
        && !text.ends_with(' ')
        && text
            .chars()
            .all(|letter| letter.is_ascii_alphanumeric() || PLAIN.contains(letter));
    if plain && (is_word(text) || is_text(text)) {
        text.to_owned()
    } else {
        quoted(text)
    }
}

/// Words that some reader of YAML takes for a flag or for nothing.
const NO_WORDS: [&str; 10] = [
    "true", "false", "null", "nan", "yes", "no", "on", "off", "y", "n",
];

/// Whether this is a word beyond doubt, without asking the parser: what begins with a letter is
/// never a number or a date.
fn is_word(text: &str) -> bool {
    text.starts_with(char::is_alphabetic) && !NO_WORDS.contains(&text.to_ascii_lowercase().as_str())
}

/// Whether the parser takes this for text, and for nothing else.
fn is_text(text: &str) -> bool {
    matches!(
        serde_yaml::from_str(text),
        Ok(serde_yaml::Value::String(read)) if read == text
    )
}

fn quoted(text: &str) -> String {
    let mut quoted = String::from("\"");
    for letter in text.chars() {
        match letter {
            '"' | '\\' => {
                quoted.push('\\');
                quoted.push(letter);
            }
            letter if hides(letter) || letter == '\u{feff}' => {
                let _ = write!(quoted, "\\U{:08X}", u32::from(letter));
            }
            letter => quoted.push(letter),
        }
    }
    quoted.push('"');
    quoted
}

#[cfg(test)]
mod tests {
    use crate::document::{Document, Remarks, Tree};
    use proptest::prelude::*;

    fn tree(text: &str) -> (Tree, Remarks) {
        let document = Document::parse(text).unwrap();
        (document.tree(), document.remarks())
    }

    #[test]
    fn a_file_is_written_with_its_remarks_above_what_they_are_about() {
        let text = "\
# A file.
format: some/1
name: wren's truck

truck:
  # The label.
  gvwr: { is: 7150 lb, by: plate, at: label on the driver's door post }
  sides:
    # Nothing yet.
    left: {}
  odd: \"54\"
  count: 54

load:
  # The first.
  - name: hay
    at: { behind: -6 in, right: 0 in }
  - { name: \"tack, and trunks\" }
  - 12 V
# The end.
";
        let (tree, remarks) = tree(text);
        assert_eq!(tree.written(&remarks), text);
    }

    #[test]
    fn a_remark_behind_a_value_moves_above_it_and_a_sign_inside_a_value_is_none() {
        let (tree, remarks) = tree("kind: adult   # or pony\nname: 'a # b'\nat: driver's door#1\n");
        assert_eq!(
            tree.written(&remarks),
            "# or pony\nkind: adult\nname: \"a # b\"\nat: \"driver's door#1\"\n"
        );
    }

    #[test]
    fn a_value_is_put_and_taken_by_its_path() {
        let mut own = Tree::empty();
        let by_letter = |new: &str, old: &str| new < old;
        for path in ["b.d", "b.c", "a", "list[1].x"] {
            own.put(path, Tree::Text(path.to_owned()), &by_letter);
        }
        let none = Remarks::default();
        assert_eq!(
            own.written(&none),
            "a: a\n\nb:\n  c: b.c\n  d: b.d\n\nlist:\n  - {}\n  - { x: \"list[1].x\" }\n"
        );
        assert_eq!(own.at("b.d").and_then(Tree::scalar), Some("b.d"));
        own.take("b.d");
        own.take("nowhere.at[3].all");
        assert_eq!(
            (own.at("b.d"), own.at("list").and_then(Tree::count)),
            (None, Some(2))
        );
    }

    fn any_tree() -> impl Strategy<Value = Tree> {
        let leaf = prop_oneof![
            "\\PC{0,12}".prop_map(Tree::Text),
            "[-a-z0-9 :#'\",.{}\\[\\]~]{0,8}".prop_map(Tree::Text),
            Just(Tree::Text("true".to_owned())),
            "[1-9][0-9]{0,4}".prop_map(Tree::Bare),
            Just(Tree::Bare("true".to_owned())),
        ];
        leaf.prop_recursive(4, 24, 4, |inner| {
            let keyed = prop::collection::btree_map("[a-z]{1,5}", inner.clone(), 0..4);
            prop_oneof![
                prop::collection::vec(inner, 0..4).prop_map(Tree::List),
                keyed.prop_map(|map| Tree::Map(map.into_iter().collect())),
            ]
        })
    }

    proptest! {
        #[test]
        fn what_is_written_reads_as_the_same_tree(tree in any_tree()) {
            let root = Tree::Map(vec![("root".to_owned(), tree)]);
            let text = root.written(&Remarks::default());
            let read = Document::parse(&text).map_err(|faults| {
                TestCaseError::fail(format!("{faults:?}\n{text}"))
            })?;
            prop_assert_eq!(read.tree(), root, "{}", text);
        }
    }
}
