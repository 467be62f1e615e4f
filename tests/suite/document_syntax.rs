//! Files that are not well-formed, or say more than a plain file may.

use crate::document::{check, faults};
use hames::document::{Fault, Place};
use proptest::prelude::*;

#[test]
fn anchors_aliases_and_tags_are_refused_each_at_its_place() {
    check(
        "title: &t a\ncrew: [*t, *t]\nsteps: !x\n  - !!str 5\n",
        &[
            "1:8: `&t` marks a part of the file to be repeated; take it away, or put quotes around it if it is text",
            "2:8: `*t` repeats a part marked elsewhere; write that part out in full, or put quotes around it if it is text",
            "2:12: `*t` repeats a part marked elsewhere; write that part out in full, or put quotes around it if it is text",
            "3:8: `!x` is a tag, and a value here has none; take it away, or put quotes around it if it is text",
            "4:5: `!!str` is a tag, and a value here has none; take it away, or put quotes around it if it is text",
        ],
    );
    check(
        "'title' *a\n",
        &[
            "1:9: `*a` repeats a part marked elsewhere; write that part out in full, or put quotes around it if it is text",
        ],
    );
    check(
        "title: *bold* words\n",
        &[
            "1:8: `*bold*` repeats a part marked elsewhere; write that part out in full, or put quotes around it if it is text",
        ],
    );
}

#[test]
fn aliases_of_aliases_never_swell() {
    let mut text = "a0: &a0 [x, x, x, x, x, x, x, x, x]\n".to_owned();
    for level in 1..12 {
        let below = format!("*a{}", level - 1);
        let nine = [below.as_str(); 9].join(", ");
        text = format!("{text}a{level}: &a{level} [{nine}]\n");
    }
    let told = faults(&text);
    assert_eq!(told.len(), 20);
    assert_eq!(told[0].place, Place { line: 1, column: 5 });
}

#[test]
fn what_is_left_open_is_told_where_it_begins() {
    let quote = "a quote opens here and is never closed; close it, or put the other kind of quote around text that holds one";
    let tab = "a tab stands where only blanks may; indent with blanks";
    for (text, place, told) in [
        ("title: a\nsteps:\n\t- id: b\n", "3:1", tab),
        ("title: a\nsteps:\n  -\tid: b\n", "3:4", tab),
        ("title: \"abc\nsteps: []\n", "1:8", quote),
        ("'", "1:1", quote),
        (
            "title: 'a\n---\nb'",
            "2:1",
            "a quote is still open at this line `---` or `...`; close the quote above",
        ),
    ] {
        check(text, &[&format!("{place}: {told}")]);
    }
}

#[test]
fn what_stands_where_it_cannot_is_told_with_a_way_to_mend_it() {
    let braces =
        "a map opens here and is not closed; close it with `}`, and put a comma between its keys";
    for (text, place, told) in [
        (
            "title: a\n---\ntitle: b\n",
            "3:1",
            "a second document begins here; keep one document to a file, and take the line `---` between them away",
        ),
        (
            "[a] b\n",
            "1:5",
            "more stands behind the end of the file's value; keep one map to a file",
        ),
        (
            "%FOO\n---\ntitle: a\n",
            "1:5",
            "a line that begins with `%` is an order to the parser; take the line away",
        ),
        (
            "title: a: b\n",
            "1:9",
            "a colon stands where no key can; put quotes around text that holds a colon and a blank, or mend the indentation",
        ),
        (
            "title: a\nsteps\n",
            "2:1",
            "a key without a colon begins here; write keys as `key: value`",
        ),
        (
            "title: 'it's'",
            "1:12",
            "no key begins here; line the keys of a map up under each other, and put quotes around all of a text or none",
        ),
        (
            "crew:\n  - a\n  b: c\n",
            "3:3",
            "no list entry begins here; line the `-` of a list up under each other",
        ),
        (
            "title: - a\n",
            "1:8",
            "a list entry cannot begin here; begin each entry on its own line, or put quotes around text that begins with `- `",
        ),
        (
            "title: ? a\n",
            "1:8",
            "a key cannot begin here; put quotes around text that begins with `? `",
        ),
        (
            "crew: [a, b\ntitle: c\n",
            "1:7",
            "a list opens here and is not closed; close it with `]`, and put a comma between its values",
        ),
        ("crew: {a: b\ntitle: c\n", "1:7", braces),
        (
            "crew: [a,, b]\n",
            "1:10",
            "a value is wanted here; write one, or put quotes around text that begins with a bracket, a brace or a comma",
        ),
    ] {
        check(text, &[&format!("{place}: {told}")]);
    }
}

#[test]
fn characters_that_mean_something_else_are_told() {
    for (text, place, told) in [
        (
            "title: \"C:\\quill\"\n",
            "1:11",
            "a backslash in double quotes has no meaning here; use single quotes around text that holds a backslash",
        ),
        (
            "title: @home\n",
            "1:8",
            "no value can begin with this character; put quotes around the value",
        ),
        (
            "? [a, b]\n: c\n",
            "1:3",
            "a list or map stands here as a key; write keys as plain words, and put quotes around a value that begins with `{` or `[`",
        ),
        (
            "title: |0\n a",
            "1:9",
            "this is not well-formed YAML (found an indentation indicator equal to 0 at line 1 column 9, while scanning a block scalar at line 1 column 8); check the indentation, the colons and the quotes here",
        ),
        (
            "title: a\u{200b}b\n",
            "1:9",
            "an invisible character (U+200B) stands here; take it away",
        ),
        (
            "title: a\r\n# b\u{202e}\r\n",
            "2:4",
            "an invisible character (U+202E) stands here; take it away",
        ),
    ] {
        check(text, &[&format!("{place}: {told}")]);
    }
}

#[test]
fn what_is_too_long_or_too_deep_is_refused() {
    check(
        &format!("title: {}", "a".repeat(1_000_000)),
        &["1:1: the file has 1000007 bytes, and 1000000 are the most; split it into several files"],
    );
    check(
        &"[".repeat(20_000),
        &[
            "1:1: the file opens 20000 brackets, and 10000 are the most; write lists with `- ` and maps with a line for each key",
        ],
    );
    check(
        &format!("title: a\ncrew: {}{}", "[".repeat(200), "]".repeat(200)),
        &["2:134: lists and maps stand too deep in one another here; write them less deep"],
    );
    check(
        &"[a: ".repeat(10_000),
        &["1:257: lists and maps stand too deep in one another here; write them less deep"],
    );
    let told = faults(&"- ".repeat(400_000));
    assert_eq!(
        told[0].place,
        Place {
            line: 1,
            column: 257
        }
    );
}

/// Texts made of what YAML is made of, so that many get past the first characters.
fn yaml_like() -> impl Strategy<Value = String> {
    let parts = prop::sample::select(vec![
        "title", "crew", "steps", "id", "a", "é", ": ", ":", "- ", "\n", "\n  ", "\n    ", " ",
        "\t", "[", "]", "{", "}", ", ", "'", "\"", "&a ", "*a", "!x ", "<<", "#", " # ", "|", ">",
        "%", "@", "---\n", "...\n", "5", "0.5", "true", "~", "\\", "\r\n", "?", "\u{85}",
    ]);
    prop::collection::vec(parts, 0..40).prop_map(|parts| parts.concat())
}

proptest! {
    #[test]
    fn whatever_a_file_holds_reading_it_does_not_panic(text in "\\PC{0,80}") {
        faults(&text);
    }

    #[test]
    fn faults_stand_inside_the_file_and_in_its_order(text in yaml_like()) {
        let told = faults(&text);
        prop_assert!(told.is_sorted_by_key(|fault| fault.place));
        let lines: Vec<&str> = text.split(['\n', '\r']).collect();
        for Fault { place, .. } in told {
            let line = lines.get(place.line - 1);
            let inside = line.is_some_and(|line| place.column <= line.chars().count() + 1);
            prop_assert!(inside || text.contains('\r'), "{place}");
        }
    }

    #[test]
    fn signs_in_quoted_text_are_only_text(text in "[ -~&&[^'\\\\]]{1,30}") {
        let quoted = format!("title: '{text}.'\n");
        check(&quoted, &[]);
    }
}
