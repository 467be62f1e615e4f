//! A file of a statement that is gone, judged by the program as its user runs it and by the second
//! verifier.

use super::barns::{change, whole};
use crate::barn50::making::{Barn, Left, people};
use hames::record::{Crew, Opinion};

const ODILE: &str = "odile.marsh";

/// A barn whose crew file changed twice since it was founded, with a trip somebody agreed to.
fn barn() -> Barn {
    let mut barn = Barn::founded();
    for newer in ["# newer\n", "# newest\n"] {
        let text = people(false).text().to_owned() + newer;
        change(&mut barn, ODILE, Crew::read(text.as_bytes()).unwrap(), &[]);
    }
    barn.walk(0, "wren.ashdown", Left::Sealed);
    barn.countersign(0, Opinion::Agreed);
    assert_eq!(whole(&barn), "intact");
    barn
}

#[test]
fn both_find_the_same_where_any_file_of_a_statement_is_gone() {
    let barn = barn();
    let stated: Vec<&String> = barn.files.keys().collect();
    for gone in stated.into_iter().filter(|path| path.starts_with("mgr/")) {
        let mut left = barn.clone();
        left.files.remove(gone);
        let found = whole(&left);
        assert_ne!(found, "intact", "{gone}");
    }
}

#[test]
fn both_miss_a_statement_whose_signature_stayed() {
    let mut barn = barn();
    let newest = barn
        .files
        .keys()
        .rfind(|path| path.ends_with("statement.json"));
    let newest = newest.unwrap().clone();
    barn.files.remove(&newest);
    assert_eq!(whole(&barn), "gap");
    barn.files.remove(&newest.replace(".json", ".sig"));
    assert_eq!(whole(&barn), "not-countersigned", "nothing names it");
}

#[test]
fn a_folder_that_is_no_logbook_is_never_told_as_intact() {
    let python = |script: &str, folder: &str| {
        let mut second = std::process::Command::new(crate::harness::tools::python());
        let script = format!("{}/tests/second/{script}", env!("CARGO_MANIFEST_DIR"));
        second.arg("-B").arg(script).arg(folder).output().unwrap()
    };
    for script in ["logbook.py", "statements.py", "verify.py"] {
        let told = python(script, "/no/such/folder");
        let text = String::from_utf8_lossy(&told.stdout).into_owned();
        assert_eq!(told.status.code(), Some(17), "{script}: {text}");
        assert!(!text.contains("whole intact"), "{script}: {text}");
    }
}
