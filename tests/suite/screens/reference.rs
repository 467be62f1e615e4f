//! The page of keys is made from the table of keys.

use hames::tui::{Context, Press, Row, TABLE};
use std::fmt::Write;
use std::path::Path;

#[test]
fn the_page_of_keys_says_what_the_keys_do() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/keys.md");
    let page = page();
    // Accepted the way a changed screen is.
    if std::env::var_os("INSTA_UPDATE").is_some_and(|way| way == "always") {
        std::fs::write(&path, &page).unwrap();
    }
    let written = std::fs::read_to_string(&path).unwrap_or_default();
    assert_eq!(
        written, page,
        "accept it with INSTA_UPDATE=always cargo test"
    );
}

fn page() -> String {
    let mut page = String::from(
        "# Keys\n\n\
         For whoever works at the screens; made from the program's own table of keys.\n\n\
         `?` lists the keys valid at that moment, finds them by their words, and does the one chosen.\n\
         Tab holds a walk and `]` stops it because something is not clear, from any of its screens.\n\
         No key of a walk needs another one held, and none both answers a step and goes on.\n",
    );
    for context in Context::ALL {
        writeln!(
            page,
            "\n## {}\n\n| key | what it does |\n|---|---|",
            context.title()
        )
        .unwrap();
        for row in TABLE.iter().filter(|row| row.contexts.contains(&context)) {
            writeln!(page, "| {} | {} |", cap(row), row.what).unwrap();
        }
    }
    page
}

fn cap(row: &Row) -> String {
    let first = match row.press {
        Press::One(key) => format!("`{}`", key.cap()),
        Press::Digits => "`1` to `9`".to_owned(),
        Press::Letters => "`a` to `m`".to_owned(),
        Press::Text => "any other character".to_owned(),
        Press::Listed => "in the list of keys".to_owned(),
    };
    match row.also {
        Some(key) => format!("{first}, `{}`", key.cap()),
        None => first,
    }
}
