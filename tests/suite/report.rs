//! A page of a report as HTML and as text: whatever a file or a person wrote stays text.

use hames::report::{
    Block, Chart, DayCell, Days, Item, Page, Part, Picture, Row, Table, html, text,
};
use proptest::prelude::*;

/// What somebody may have put in a file to be shown elsewhere.
const HOSTILE: [&str; 9] = [
    "<script>document.title='ran'</script>",
    "\"><img src=x onerror=alert(1)>",
    "' onload='alert(1)",
    "]]><!-- --> -->",
    "</style><script>1</script>",
    "&lt;b&gt; &amp; &#60;",
    "\u{1b}[2J\u{1b}]0;ran\u{7}",
    "Fenn\u{202e}nnef\u{2066}",
    "a\u{0}b\r\nc\u{85}d\u{feff}",
];

/// A page that has this text everywhere a text can stand.
fn page_of(words: &str) -> Page {
    let word = || words.to_owned();
    let chart = Chart {
        title: word(),
        told: vec![word()],
        svg: None,
        letters: None,
    };
    let blocks = vec![
        Block::Words(word()),
        Block::Strong(word()),
        Block::List(vec![word(), word()]),
        Block::Run(vec![word(), word()]),
        Block::Short(vec![word()]),
        Block::Items(vec![Item {
            head: word(),
            lines: vec![word(), word()],
        }]),
        Block::Table(Table {
            caption: word(),
            heads: vec!["One", "Two"],
            rows: vec![Row {
                cells: vec![word(), word()],
                strong: true,
            }],
        }),
        Block::Days(Days {
            caption: word(),
            weeks: vec![vec![
                None,
                Some(DayCell {
                    day: 1,
                    lines: vec![word()],
                    strong: true,
                }),
            ]],
        }),
        Block::Charts(vec![chart.clone()]),
        Block::Small(vec![chart]),
    ];
    Page {
        title: word(),
        warning: Some(word()),
        cover: vec![word()],
        picture: Some(Picture {
            svg: "<svg></svg>".to_owned(),
            told: word(),
        }),
        parts: vec![Part {
            title: word(),
            blocks,
        }],
        foot: vec![word()],
    }
}

/// The tags of a page in order, and what stands between them.
fn taken_apart(html: &str) -> (Vec<&str>, Vec<&str>) {
    let (mut tags, mut texts, mut rest) = (Vec::new(), Vec::new(), html);
    while let Some((text, behind)) = rest.split_once('<') {
        let (tag, behind) = behind.split_once('>').unwrap();
        if tag != "wbr" {
            tags.push(tag);
        }
        texts.push(text);
        rest = behind;
    }
    (tags, texts)
}

/// Whether it changes neither the tags of a page nor a line of a terminal.
fn stays_text(words: &str) {
    let page = page_of(words);
    let (shown, plain) = (html(&page), html(&page_of("x")));
    let (tags, texts) = taken_apart(&shown);
    assert_eq!(tags, taken_apart(&plain).0, "{words:?}");
    for text in texts {
        let text = text.replace('\n', "");
        assert!(!text.contains(['>', '"', '\'']), "{text:?}");
        let refs = text.split('&').skip(1);
        for one in refs {
            let (name, _) = one.split_once(';').unwrap();
            assert!(["amp", "lt", "gt", "quot", "#39"].contains(&name), "{one}");
        }
    }
    let lines = text(&page);
    for shown in [&shown, &lines] {
        let moves = |letter: char| letter != '\n' && letter.is_control();
        let turns =
            |letter: char| matches!(letter, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
        assert!(
            !shown.contains(|letter| moves(letter) || turns(letter)),
            "{shown:?}"
        );
    }
}

#[test]
fn what_was_made_to_run_or_to_hide_is_shown_as_it_was_written() {
    for words in HOSTILE {
        stays_text(words);
    }
    let shown = html(&page_of(HOSTILE[0])).replace("<wbr>", "");
    assert!(
        shown.contains("&lt;script&gt;document.title=&#39;ran&#39;&lt;/script&gt;"),
        "{shown}"
    );
    assert!(text(&page_of(HOSTILE[0])).contains(HOSTILE[0]));
    assert!(text(&page_of(HOSTILE[7])).contains("Fenn\\u{202e}nnef"));
}

proptest! {
    #[test]
    fn no_text_becomes_markup_or_moves_a_cursor(words in any::<String>()) {
        stays_text(&words);
    }
}

#[test]
fn a_page_needs_nothing_else_and_says_so() {
    let shown = html(&page_of("x"));
    assert!(
        shown.starts_with("<!DOCTYPE html>\n<html lang=\"en\">"),
        "{shown}"
    );
    let policy = "content=\"default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; \
                  form-action 'none'\"";
    assert!(shown.contains(policy), "{shown}");
    for other in [
        "http:",
        "https:",
        "<script",
        "<link",
        "@import",
        "url(",
        "@font-face",
        "size:A4",
    ] {
        assert!(!shown.contains(other), "{other}");
    }
}

#[test]
fn a_word_that_is_too_long_for_a_column_may_be_broken_and_keeps_its_letters() {
    let long = "w".repeat(400);
    let shown = html(&page_of(&long));
    assert!(shown.contains("<wbr>"), "{shown}");
    assert!(shown.replace("<wbr>", "").contains(&long));
}
