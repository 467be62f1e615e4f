//! The manual's page of threats: whatever it says is found names tests that are there.

use crate::architecture::{root, rust_files};
use std::fs;

#[test]
fn what_the_page_of_threats_says_is_found_names_tests_that_are_there() {
    let page = fs::read_to_string(root().join("docs/threats.md")).unwrap();
    let sources = sources();
    let mut rows = 0;
    for line in page.lines().filter(|line| line.starts_with("| ")) {
        let cells: Vec<&str> = line.split(" | ").collect();
        // Which script judges what stands in a table of its own, of two columns.
        if cells.len() < 3 {
            assert!(line.contains(".py") || line.starts_with("| file"), "{line}");
            continue;
        }
        let tests = tests_of(line);
        let is_head = cells[0] == "| what is done" || cells[0] == "| word";
        let found = cells[2];
        if is_head {
            assert_eq!(tests, [""; 0], "{line}");
            continue;
        }
        rows += 1;
        assert!(
            !tests.is_empty() || found == "not found",
            "no test is named: {line}"
        );
        for test in tests {
            assert!(found.contains(test), "{test} stands in another cell");
            assert!(is_there(&sources, test), "there is no test {test}");
        }
    }
    assert_eq!(rows, 47, "count the rows again when one is added");
    for word in [
        "who signed what, in which order, and that nothing between two witnessed points was changed or removed",
        "It cannot show that the pin was in the hitch.",
        "a manager who controls every copy can hide the newest",
        "two people who agree to lie, can",
    ] {
        assert!(page.contains(word), "{word}");
    }
}

/// Every Rust file as the path of its module, with its text.
fn sources() -> Vec<(String, String)> {
    let root = root();
    let files = ["tests/suite", "src"].into_iter().flat_map(|folder| {
        let start = root.join(folder);
        rust_files(folder)
            .into_iter()
            .map(move |path| (path.strip_prefix(&start).unwrap().to_owned(), path))
    });
    files
        .map(|(below, path)| {
            let area = below
                .with_extension("")
                .to_str()
                .unwrap()
                .replace('\\', "/");
            (area.replace('/', "::"), fs::read_to_string(path).unwrap())
        })
        .collect()
}

/// The tests a line names: `area::name` between back-ticks.
fn tests_of(line: &str) -> Vec<&str> {
    let quoted = line.split('`').skip(1).step_by(2);
    quoted.filter(|word| word.contains("::")).collect()
}

fn is_there(sources: &[(String, String)], test: &str) -> bool {
    let (area, name) = test.rsplit_once("::").unwrap();
    let start = format!("fn {name}(");
    let mut same = sources.iter().filter(|(one, _)| one == area);
    same.any(|(_, text)| {
        text.match_indices(&start)
            .any(|(at, _)| text[..at].trim_end().ends_with("#[test]"))
    })
}

#[test]
fn a_test_that_is_not_there_is_missed() {
    let sources = sources();
    let real = "threats::a_test_that_is_not_there_is_missed";
    assert!(is_there(&sources, real));
    assert!(!is_there(&sources, "threats::sources"));
    assert!(!is_there(
        &sources,
        "house::a_test_that_is_not_there_is_missed"
    ));
}
