//! The list of every value in the documents is the list that is asked.

use crate::architecture::root;
use hames::rig::describe::{Ask, CHAPTERS, Need, Over};
use std::fmt::Write;

/// The heading below which the page is this list.
const HEADING: &str = "## Every value\n\n";

fn list() -> String {
    let mut list = String::new();
    let mut title = "";
    for chapter in CHAPTERS {
        for section in chapter.sections {
            for field in section.fields {
                if matches!(field.ask, Ask::Like(_) | Ask::More(_)) {
                    continue;
                }
                if section.title != title {
                    title = section.title;
                    let rule = "| key | where it is found | without it |\n|---|---|---|\n";
                    write!(list, "\n### {title}\n\n{rule}").unwrap();
                }
                let without = match (field.need, chapter.over) {
                    // Without its name a thing of a list is none.
                    (_, Over::Each(_)) if section.is_opened_by(field) => "",
                    _ if section.is_opened_by(field) => section.without.unwrap_or_default(),
                    (Need::May(follows), _) => follows,
                    (Need::Must, _) => "",
                };
                let path = section.path(field);
                writeln!(list, "| `{path}` | {} | {without} |", field.look).unwrap();
            }
        }
    }
    list.trim_start().to_owned()
}

#[test]
fn the_page_about_rig_files_lists_every_value() {
    let path = root().join("docs/rigs.md");
    let page = std::fs::read_to_string(&path).unwrap();
    let (head, kept) = page.split_once(HEADING).unwrap();
    let fresh = list();
    // Accepted the way a changed screen is.
    if std::env::var_os("INSTA_UPDATE").is_some_and(|way| way == "always") {
        std::fs::write(&path, format!("{head}{HEADING}{fresh}")).unwrap();
        return;
    }
    assert!(
        kept == fresh,
        "docs/rigs.md is stale: INSTA_UPDATE=always cargo test"
    );
}
