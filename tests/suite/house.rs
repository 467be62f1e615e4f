//! House rules that a compiler does not know: sizes, first lines, links, and what lies where.

use crate::architecture::{blanked, root, rust_files, shown};
use std::fs;
use std::path::{Path, PathBuf};

/// A longer file holds more than one idea.
const MOST_LINES: usize = 500;

/// 234 packages when this was written, tests and other platforms included. A new dependency is a
/// decision: raise the number in the commit that gives its reason.
const MOST_PACKAGES: usize = 245;

/// What may lie at the top, beside dot-files and what git ignores.
const TOP: [&str; 9] = [
    "Cargo.toml",
    "Cargo.lock",
    "README.md",
    "DEVELOPERS.md",
    "LICENSE",
    "src",
    "checklists",
    "tests",
    "docs",
];

#[test]
fn no_rust_file_is_longer_than_people_read() {
    let long: Vec<String> = texts()
        .into_iter()
        .map(|(name, text)| (name, text.lines().count()))
        .filter(|(_, lines)| *lines > MOST_LINES)
        .map(|(name, lines)| format!("{name}: {lines} lines"))
        .collect();
    assert!(long.is_empty(), "over {MOST_LINES}: {long:#?}");
}

#[test]
fn every_rust_file_begins_by_saying_what_it_is_for() {
    let silent: Vec<String> = texts()
        .into_iter()
        .filter(|(_, text)| !text.starts_with("//! "))
        .map(|(name, _)| name)
        .collect();
    assert!(silent.is_empty(), "no `//!` on the first line: {silent:#?}");
}

/// The standard library's powers and angles may end in another digit on another machine; `libm`
/// reckons them itself. A verdict has to come out the same wherever a record is verified.
#[test]
fn formulas_and_figures_take_powers_and_angles_from_libm_alone() {
    const DIFFER: [&str; 21] = [
        "powf", "powi", "exp", "exp2", "exp_m1", "ln", "ln_1p", "log", "log2", "log10", "sin",
        "cos", "tan", "asin", "acos", "atan", "atan2", "sinh", "cosh", "tanh", "hypot",
    ];
    let calls = |line: &&str| {
        let called = |name: &&str| line.contains(&format!(".{name}("));
        DIFFER.iter().any(called) || line.contains(".cbrt(")
    };
    let mut found = Vec::new();
    for folder in ["src/mechanics", "src/figures"] {
        for path in rust_files(folder) {
            let text = blanked(&fs::read_to_string(&path).unwrap());
            let code = text.split("#[cfg(test)]").next().unwrap();
            if !path.components().any(|part| part.as_os_str() == "laws") {
                found.extend(
                    code.lines()
                        .filter(calls)
                        .map(|line| format!("{}: {line}", shown(&path))),
                );
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn every_file_of_the_suite_is_a_module_of_it() {
    let main = blanked(&fs::read_to_string(root().join("tests/suite/main.rs")).unwrap());
    let declared: Vec<&str> = main
        .lines()
        .filter_map(|line| line.strip_prefix("mod ")?.strip_suffix(';'))
        .collect();
    let forgotten: Vec<PathBuf> = fs::read_dir(root().join("tests/suite"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|extension| extension == "rs"))
        .filter(|path| {
            let stem = path.file_stem().unwrap().to_str().unwrap();
            stem != "main" && !declared.contains(&stem)
        })
        .collect();
    assert!(forgotten.is_empty(), "never run: {forgotten:#?}");
}

#[test]
fn nothing_is_left_half_done() {
    let marks = [concat!("FIX", "ME"), concat!("X", "XX")];
    let macros = ["todo!", "unimplemented!", "dbg!"];
    for (name, text) in texts() {
        for (line, code) in (1..).zip(blanked(&text).lines()) {
            for word in macros {
                assert!(!code.contains(word), "{name}:{line}: {word}");
            }
        }
        for (line, written) in (1..).zip(text.lines()) {
            let mut words = written.split(|c: char| !c.is_alphanumeric());
            assert!(
                !words.any(|word| marks.contains(&word)),
                "{name}:{line}: {written}"
            );
        }
    }
}

#[test]
fn every_relative_link_in_the_documents_leads_somewhere() {
    let mut pages = vec![root().join("README.md"), root().join("DEVELOPERS.md")];
    pages.extend(
        fs::read_dir(root().join("docs"))
            .unwrap()
            .map(|entry| entry.unwrap().path())
            .filter(|path| path.extension().is_some_and(|extension| extension == "md")),
    );
    let broken: Vec<String> = pages
        .iter()
        .filter(|page| page.exists())
        .flat_map(|page| broken_links(page, &fs::read_to_string(page).unwrap()))
        .collect();
    assert!(broken.is_empty(), "{broken:#?}");
}

#[test]
fn a_broken_link_is_found_and_a_good_one_is_not() {
    let page = root().join("docs/page.md");
    let text = "[a](../Cargo.toml) [b](architecture.md#arrows) [c](https://example.org/x) \
        [d](#here) `[e](in/code.md)` [f](nowhere.md)\n```\n[g](also/code.md)\n```\n";
    assert_eq!(broken_links(&page, text), ["docs/page.md: nowhere.md"]);
}

#[test]
fn the_lock_file_holds_no_more_packages_than_were_agreed() {
    let lock = fs::read_to_string(root().join("Cargo.lock")).unwrap();
    let packages = lock.lines().filter(|line| *line == "[[package]]").count();
    assert!(packages <= MOST_PACKAGES, "{packages} packages");
}

#[test]
fn only_agreed_things_lie_at_the_top() {
    let ignored = fs::read_to_string(root().join(".gitignore")).unwrap();
    let ignored: Vec<&str> = ignored.lines().map(|line| line.trim_matches('/')).collect();
    let strays: Vec<String> = fs::read_dir(root())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().to_str().unwrap().to_owned())
        .filter(|name| !name.starts_with('.'))
        .filter(|name| !TOP.contains(&name.as_str()) && !ignored.contains(&name.as_str()))
        .collect();
    assert!(strays.is_empty(), "{strays:?}");
}

/// Every Rust file of the package with its text.
fn texts() -> Vec<(String, String)> {
    ["src", "tests"]
        .into_iter()
        .flat_map(rust_files)
        .map(|path| (shown(&path), fs::read_to_string(&path).unwrap()))
        .collect()
}

/// The links of `page` to files that are not there; code is no link.
fn broken_links(page: &Path, text: &str) -> Vec<String> {
    let prose: String = text.split("```").step_by(2).collect();
    let prose: String = prose.split('`').step_by(2).collect();
    prose
        .split("](")
        .skip(1)
        .filter_map(|rest| rest.split_once(')'))
        .map(|(target, _)| target)
        .filter(|target| !target.contains("://") && !target.starts_with("mailto:"))
        .filter_map(|target| target.split('#').next())
        .filter(|target| !target.is_empty())
        .filter(|target| !page.parent().unwrap().join(target).exists())
        .map(|target| format!("{}: {target}", shown(page)))
        .collect()
}
