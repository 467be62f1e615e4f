//! Files made wrong on purpose: a corpus says which passages of a good file to change, where a
//! fault is then told, and in which words.
//!
//! `- ` begins a line of the passage taken out where it first stands, `+ ` one of those put in its
//! place; `--` parts one change from the next. `^` marks each place where a fault is told, and
//! `! ` says the faults in the same order.

/// A good file with passages changed, and what must be told.
pub(crate) struct Wrong {
    pub(crate) about: String,
    pub(crate) text: String,
    pub(crate) faults: Vec<String>,
}

/// Every wrong file of a corpus. Each names in brackets which of the good files it is made from.
pub(crate) fn all(corpus: &str, good: &[(&str, &str)]) -> Vec<Wrong> {
    corpus
        .split("\n== ")
        .skip(1)
        .map(|block| wrong(block, good))
        .collect()
}

/// Holds what is told about every wrong file of a corpus to what it says.
#[track_caller]
pub(crate) fn hold(wrong: &[Wrong], told: impl Fn(&str) -> Vec<String>) {
    let differ: Vec<String> = wrong
        .iter()
        .map(|wrong| (wrong, told(&wrong.text)))
        .filter(|(wrong, told)| *told != wrong.faults)
        .map(|(wrong, told)| {
            let (expected, told) = (wrong.faults.join("\n"), told.join("\n"));
            format!("== {}\n{expected}\nbut told:\n{told}", wrong.about)
        })
        .collect();
    assert!(differ.is_empty(), "\n{}\n", differ.join("\n\n"));
}

/// A good file changed, block by block: what each is about, the text, and what is said of it.
pub(crate) fn edited(corpus: &str, good: &str) -> Vec<(String, String, Vec<String>)> {
    let blocks = corpus.split("\n== ").skip(1);
    let edited = blocks.map(|block| {
        let (about, body) = block.split_once('\n').unwrap();
        let mut text = good.to_owned();
        for edit in body.split("\n--\n") {
            let (was, is) = (passage(edit, "- "), passage(edit, "+ "));
            assert!(text.contains(&was), "{about}: nowhere stands\n{was}");
            text = text.replacen(&was, &is, 1);
        }
        let says = body.lines().filter_map(|line| line.strip_prefix("! "));
        (about.to_owned(), text, says.map(str::to_owned).collect())
    });
    edited.collect()
}

fn wrong(block: &str, good: &[(&str, &str)]) -> Wrong {
    let (head, body) = block.split_once('\n').unwrap();
    let (about, made_from) = head.trim_end_matches(')').split_once(" (").unwrap();
    let (_, good) = good
        .iter()
        .find(|(name, _)| *name == made_from)
        .unwrap_or_else(|| panic!("{about}: no good file {made_from}"));
    let mut marked = (*good).to_owned();
    for edit in body.split("\n--\n") {
        let (was, is) = (passage(edit, "- "), passage(edit, "+ "));
        assert!(marked.contains(&was), "{about}: nowhere stands\n{was}");
        marked = marked.replacen(&was, &is, 1);
    }
    let (text, places) = unmark(&marked);
    let says: Vec<&str> = body
        .lines()
        .filter_map(|line| line.strip_prefix("! "))
        .collect();
    assert_eq!(places.len(), says.len(), "{about}: a mark for each fault");
    let faults = places
        .iter()
        .zip(says)
        .map(|((line, column), says)| format!("{line}:{column}: {says}"))
        .collect();
    Wrong {
        about: about.to_owned(),
        text,
        faults,
    }
}

/// The lines of an edit that begin so, without that beginning.
fn passage(edit: &str, sign: &str) -> String {
    let lines: Vec<&str> = edit
        .lines()
        .filter_map(|line| line.strip_prefix(sign))
        .collect();
    lines.join("\n")
}

/// The text without its marks, and the line and column of each.
fn unmark(marked: &str) -> (String, Vec<(usize, usize)>) {
    let mut text = String::new();
    let mut places = Vec::new();
    for letter in marked.chars() {
        if letter == '^' {
            let line = text.matches('\n').count() + 1;
            let column = text.rsplit('\n').next().unwrap().chars().count() + 1;
            places.push((line, column));
        } else {
            text.push(letter);
        }
    }
    (text, places)
}
