//! Wrong values in well-formed files, and what is told about them.

use hames::document::{Document, Fault, Map, Node, Place, Read};
use hames::units::{Dimension, Exact};
use proptest::prelude::*;

/// Reads a small format that asks for every kind of value once.
fn reader(root: Node<'_>) -> Read<()> {
    let map = root.map(&["title", "crew", "steps"])?;
    let title = map.required("title").and_then(Node::sentence);
    let crew = map.optional("crew").map(|node| node.each(Node::id));
    let steps = map.optional("steps").map(|node| node.each(step));
    title?;
    crew.transpose()?;
    steps.transpose().map(drop)
}

type Reader = fn(Node<'_>) -> Read<()>;

const STEP: [(&str, Reader); 10] = [
    ("id", |node| node.id().map(drop)),
    ("critical", |node| node.flag().map(drop)),
    ("times", |node| node.whole().map(drop)),
    ("ratio", |node| node.decimal().map(drop)),
    ("side", |node| node.choice(&[("left", ()), ("right", ())])),
    ("max", |node| node.quantity(Dimension::Pressure).map(drop)),
    ("count", |node| node.quantity(Dimension::Count).map(drop)),
    ("note", |node| node.text().map(drop)),
    CHECKS[0],
    CHECKS[1],
];

const CHECKS: [(&str, Reader); 2] = [
    ("reading", |node| node.map(&["max"]).map(drop)),
    ("sighting", |node| node.list().map(drop)),
];

fn step(node: Node<'_>) -> Read<()> {
    let map: Map<'_> = node.map(&STEP.map(|(key, _)| key))?;
    let id = map.required("id").map(drop);
    let check = map.only_one_of(&CHECKS).map(drop);
    let values: Vec<Read<()>> = STEP
        .iter()
        .filter_map(|(key, read)| map.optional(key).map(read))
        .collect();
    id?;
    check?;
    values.into_iter().collect()
}

pub(crate) fn faults(text: &str) -> Vec<Fault> {
    Document::parse(text)
        .and_then(|document| document.read(reader))
        .err()
        .unwrap_or_default()
}

/// Holds the faults of a file to what is expected.
#[track_caller]
pub(crate) fn check(text: &str, expected: &[&str]) {
    let told: Vec<String> = faults(text).iter().map(ToString::to_string).collect();
    assert_eq!(told, expected, "{text}");
}

#[test]
fn a_file_as_it_should_be_has_no_fault() {
    check(
        "title: Tack & feed * all ! now\ncrew: [wren-ashdown, tobias]\nsteps:\n  - id: ball\n    \
         critical: true\n    times: 3\n    ratio: 0.30\n    side: left\n    max: 65 psi\n    \
         count: 4\n    note: '12'\n    reading: {max: 5}\n  - {id: pin, sighting: [], ratio: '1.5'}\n",
        &[],
    );
}

#[test]
fn words_other_readers_take_for_yes_and_no_stay_words() {
    for word in [
        "NO",
        "on",
        "y",
        "12:30",
        "1_000",
        "012",
        "2026-08-21",
        "0o9",
    ] {
        check(&format!("title: {word}\n"), &[]);
    }
}

#[test]
fn a_folded_paragraph_is_one_sentence_and_signs_inside_text_point_nowhere() {
    check("title: >\n  a\n  b\n", &[]);
    check("title: |\n  &a *b !c\n", &[]);
    check("title: '&a *b !c' # &c *d !e\n", &[]);
}

#[test]
fn an_empty_file_is_told_so() {
    for text in ["", "# only a remark\n", "~", "---\n", "\u{feff}"] {
        check(
            text,
            &[
                "1:1: there is nothing in this file; write at least one key and its value, such as `title: Hitch-up`",
            ],
        );
    }
}

#[test]
fn a_root_that_is_no_map_is_told_at_the_start() {
    check(
        "just text",
        &[
            "1:1: a map of keys and values is wanted here, not the text “just text”; write keys below, each as `key: value`",
        ],
    );
    check(
        "- a\n- b\n",
        &[
            "1:1: a map of keys and values is wanted here, not a list; write keys below, each as `key: value`",
        ],
    );
}

#[test]
fn a_bare_number_or_true_is_no_text_and_quotes_mend_it() {
    check(
        "title: 5",
        &["1:8: title: text is wanted here, not the number “5”; put it in quotes: \"5\""],
    );
    check(
        "title: 6.50",
        &["1:8: title: text is wanted here, not the number “6.50”; put it in quotes: \"6.50\""],
    );
    check(
        "title: true",
        &["1:8: title: text is wanted here, not the bare word true; put it in quotes: \"true\""],
    );
    check(
        "title:\n",
        &["1:7: title: text is wanted here, not nothing; write the text behind the colon"],
    );
}

#[test]
fn a_sentence_is_one_visible_line() {
    check(
        "title: '  '",
        &["1:8: title: this text is empty; write the text, or take the key away"],
    );
    check(
        "title: |\n  a\n  b\n",
        &[
            "1:8: title: a line break stands in this text; write one paragraph; `>` behind the colon joins lines",
        ],
    );
    check(
        r#"title: "ball \e[2Jlocked""#,
        &[
            "1:8: title: an invisible character (U+001B) stands in this text; write it anew with letters, digits and punctuation",
        ],
    );
    check(
        r#"title: "\u202Edekcol""#,
        &[
            "1:8: title: an invisible character (U+202E) stands in this text; write it anew with letters, digits and punctuation",
        ],
    );
}

#[test]
fn an_unknown_key_is_told_at_the_key_and_a_missing_one_at_its_map() {
    check(
        "titel: a\n",
        &[
            "1:1: `title` is missing; add a line `title: …`",
            "1:1: titel: `titel` is not a key here; did you mean `title`?",
        ],
    );
    check(
        "title: a\nNO: 1\n",
        &["2:1: NO: `NO` is not a key here; the keys here are `title`, `crew`, `steps`"],
    );
    check(
        "title: a\nsteps: [{id: b, sighting: []}, {sighting: [], sied: left}]\n",
        &[
            "2:32: steps[1]: `id` is missing; add a line `id: …`",
            "2:47: steps[1].sied: `sied` is not a key here; did you mean `side`?",
        ],
    );
}

#[test]
fn a_key_given_twice_or_merged_is_told_and_the_rest_is_still_read() {
    check(
        "title: a\ntitle: b\ncrew: 5\n",
        &[
            "2:1: title: `title` is given twice; keep one of the two",
            "3:7: crew: a list is wanted here, not the number “5”; begin each entry on its own line with `- `",
        ],
    );
    check(
        "<<: {title: a}\ntitle: b\n",
        &["1:1: <<: `<<` merges keys from elsewhere; write the keys out in full"],
    );
}

#[test]
fn every_wrong_name_of_a_list_is_told_with_a_better_one() {
    check(
        "title: a\ncrew: [Wren Ashdown, 5, x9, '9', \"*b\"]",
        &[
            "2:8: crew[0]: “Wren Ashdown” is not a name; write `wren-ashdown`",
            "2:22: crew[1]: text is wanted here, not the number “5”; put it in quotes: \"5\"",
            "2:29: crew[3]: “9” is not a name; use lower-case letters, digits and hyphens, a letter first",
            "2:34: crew[4]: “*b” is not a name; write `b`",
        ],
    );
}

#[test]
fn every_value_of_the_wrong_kind_is_told_at_once_in_the_order_of_the_file() {
    check(
        "title: a\nsteps:\n  - id: a\n    critical: yes\n    times: 1.5\n    ratio: 1,5\n    \
         side: lft\n    max: 65\n    count: 2.5 kg\n    note: [a]\n    reading: 5\n",
        &[
            "4:15: steps[0].critical: true or false is wanted here, not the text “yes”; write one of the two, without quotes",
            "5:12: steps[0].times: a whole number is wanted here, not the number “1.5”; write digits only, such as 4",
            "6:12: steps[0].ratio: a number is wanted here, not the text “1,5”; write digits with at most one point, such as 12.5",
            "7:11: steps[0].side: “lft” is not a word known here; did you mean left? The words here are left, right",
            "8:10: steps[0].max: the unit is missing; type a pressure such as 65 psi or 4.5 bar",
            "9:12: steps[0].count: “kg” is not a unit of count; type a count such as 4",
            "10:11: steps[0].note: text is wanted here, not a list; write the text behind the colon",
            "11:14: steps[0].reading: a map of keys and values is wanted here, not the number “5”; write keys below, each as `key: value`",
        ],
    );
}

#[test]
fn a_quantity_is_refused_in_the_words_of_the_units() {
    check(
        "title: a\nsteps:\n  - {id: a, sighting: [], max: 65 kg}\n  - {id: b, sighting: [], max: {a: b}}\n",
        &[
            "3:32: steps[0].max: “kg” is not a unit of pressure; type a pressure such as 65 psi or 4.5 bar",
            "4:32: steps[1].max: a pressure with its unit is wanted here, not a map of keys and values; write it as 65 psi or 4.5 bar",
        ],
    );
}

#[test]
fn numbers_no_person_writes_on_a_plate_are_refused() {
    for digits in [
        ".nan",
        ".inf",
        "1e3",
        "0x10",
        "+5",
        "1_0",
        "99999999999999999999",
    ] {
        let told = faults(&format!(
            "title: a\nsteps: [{{id: a, sighting: [], ratio: {digits}, times: {digits}}}]"
        ));
        assert_eq!(told.len(), 2, "{digits}: {told:?}");
        assert!(told[0].what.starts_with("a number is wanted"), "{digits}");
        assert!(told[1].what.starts_with("a whole number"), "{digits}");
    }
}

#[test]
fn a_decimal_is_taken_exactly_as_written_bare_or_quoted() {
    let document = Document::parse("[0.1, '0.10', 3, -0.5]").unwrap();
    let read = document.read(|root| root.each(Node::decimal)).unwrap();
    let exact = |text| Exact::parse_decimal(text).unwrap();
    assert_eq!(
        read,
        [exact("0.1"), exact("0.1"), exact("3"), exact("-0.5")]
    );
}

#[test]
fn of_keys_that_exclude_each_other_one_is_wanted() {
    check(
        "title: a\nsteps:\n  - id: a\n  - {id: b, reading: {}, sighting: []}\n",
        &[
            "3:5: steps[0]: one of `reading`, `sighting` is missing; add one of them",
            "4:26: steps[1].sighting: `reading` and `sighting` stand together, and only one of `reading`, `sighting` may; keep one of them",
        ],
    );
}

#[test]
fn a_hundred_faults_are_told_and_the_rest_counted() {
    let wrong = "  - {id: a, sighting: 5}\n".repeat(130);
    let told = faults(&format!("title: a\nsteps:\n{wrong}"));
    assert_eq!(told.len(), 101);
    assert_eq!(told[100].what, "30 more faults follow from here");
    assert_eq!(told[100].place.line, 103);
}

#[test]
fn a_spot_kept_after_reading_still_knows_its_place_and_path() {
    let steps: String = (0..500)
        .map(|n| format!("  - {{id: s{n}, max: 65 psi}}\n"))
        .fold(String::from("steps:\n"), |all, step| all + &step);
    let document = Document::parse(&steps).unwrap();
    let spots = document
        .read(|root| {
            let steps = root.map(&["steps"])?.required("steps")?;
            steps.each(|step| Ok(step.map(&["id", "max"])?.required("max")?.spot()))
        })
        .unwrap();
    let last = *spots.last().unwrap();
    assert_eq!(
        document.place_of(last),
        Place {
            line: 501,
            column: 21
        }
    );
    assert_eq!(document.path_of(last), "steps[499].max");
    assert_eq!(
        document
            .fault_at(last, "this is high", "look again")
            .to_string(),
        "501:21: steps[499].max: this is high; look again"
    );
}

#[test]
fn nothing_repeated_from_a_file_can_move_the_cursor() {
    let told = faults("title: a\n\"\\e[2J\\r\": 5\ncrew: [\"\\e]0;x\\a\"]\n");
    assert_eq!(told.len(), 2);
    for fault in told {
        assert!(!fault.to_string().contains(char::is_control), "{fault:?}");
    }
}

proptest! {
    #[test]
    fn a_fault_points_at_its_value_however_deep(lists in prop::collection::vec(0..4_usize, 1..6)) {
        let mut text = "wrong".to_owned();
        for before in &lists {
            text = format!("[{}{text}, 7]", "7, ".repeat(*before));
        }
        let column = text.chars().position(|letter| letter == 'w').unwrap() + 1;
        let down = |root: Node<'_>| {
            let mut node = root;
            for before in lists.iter().rev() {
                node = node.list()?[*before];
            }
            node.whole()
        };
        let told = Document::parse(&text).unwrap().read(down).unwrap_err();
        prop_assert_eq!(told.len(), 1);
        prop_assert_eq!(told[0].place, Place { line: 1, column });
    }
}

#[test]
fn a_quantity_of_several_dimensions_is_the_first_it_can_be_and_else_the_usual_one_is_wanted() {
    let read = |text: &str| {
        Document::parse(text)
            .and_then(|document| {
                document.read(|node| node.quantity_in(&[Dimension::Voltage, Dimension::Current]))
            })
            .map_err(|faults| faults[0].to_string())
    };
    assert_eq!(read("0.1 V").unwrap().dimension(), Dimension::Voltage);
    assert_eq!(read("0.1 A").unwrap().dimension(), Dimension::Current);
    assert_eq!(
        read("0.1 psi").unwrap_err(),
        "1:1: “psi” is not a unit of voltage; type a voltage such as 12.6 V"
    );
    assert!(
        read("[1]")
            .unwrap_err()
            .contains("a voltage with its unit is wanted here")
    );
}
