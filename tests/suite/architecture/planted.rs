//! The scanner's own tests: breaches planted in a small house that must be found, and words in
//! comments and strings that must not be.

use super::blank::blanked;
use super::plan::Plan;
use super::scan::{Room, Source, faults, lib_faults};

const HOUSE: &str = "
| layer | what it is | may name |
|---|---|---|
| stall | a place | – |
| herd | the animals | stall |
| barn | the building | stall, herd |
| gate | the way out | barn |
| cli | the door | barn, gate |

The pure layers are `stall` to `barn`.
They never name files, environment, network, processes, threads, a clock, randomness, printing, `ratatui` or `clap`.

| name | only in |
|---|---|
| sha2, getrandom | herd |
| std::fs | gate |
| clap | cli |
";

/// The breaches in `text` if it stood in `layer`, a file below the layer's own.
fn found_in(layer: &str, text: &str) -> Vec<String> {
    let room = match layer {
        "main" => Room::Program,
        name => Room::Layer {
            name: name.to_owned(),
            depth: 2,
        },
    };
    let name = format!("{layer}.rs");
    let text = text.to_owned();
    faults(&Source { name, room, text }, &Plan::read(HOUSE))
}

#[track_caller]
fn caught(layer: &str, text: &str, expected: &[&str]) {
    assert_eq!(found_in(layer, text), expected);
}

#[track_caller]
fn passes(layer: &str, text: &str) {
    caught(layer, text, &[]);
}

#[test]
fn an_arrow_that_points_down_is_caught_with_file_and_line() {
    caught(
        "stall",
        "//! Stalls.\n\nuse crate::herd::Horse;\n",
        &["stall.rs:3: ‘stall’ names ‘crate::herd’"],
    );
}

#[test]
fn an_arrow_hidden_in_a_group_is_caught() {
    caught(
        "herd",
        "use crate::{\n    stall::Stall,\n    barn::{Loft, Aisle},\n};\n",
        &["herd.rs:3: ‘herd’ names ‘crate::barn’"],
    );
}

#[test]
fn an_arrow_in_an_expression_or_a_macro_is_caught() {
    caught(
        "herd",
        "fn f() { let x = crate::gate::open(); }\nmacro_rules! m { () => { $crate::barn::Loft } }",
        &[
            "herd.rs:1: ‘herd’ names ‘crate::gate’",
            "herd.rs:2: ‘herd’ names ‘crate::barn’",
        ],
    );
}

#[test]
fn the_crates_own_name_counts_as_crate() {
    caught(
        "herd",
        "use hames::gate::Gate;",
        &["herd.rs:1: ‘herd’ names ‘crate::gate’"],
    );
}

#[test]
fn climbing_out_of_the_layer_counts_as_crate() {
    caught(
        "herd",
        "use super::super::barn::Loft;",
        &["herd.rs:1: ‘herd’ names ‘crate::barn’"],
    );
    passes("herd", "use super::Horse;");
    caught(
        "herd",
        "use super::super::super::stall::Stall;",
        &["herd.rs:1: ‘super::super::super’: write the path from ‘crate’"],
    );
}

#[test]
fn naming_the_whole_crate_is_caught() {
    for text in [
        "use crate::*;",
        "use crate::{self as c};",
        "use crate as c;",
    ] {
        caught(
            "gate",
            text,
            &["gate.rs:1: names the whole crate: name the layer"],
        );
    }
    passes("gate", "pub(crate) struct Gate;");
}

#[test]
fn giving_on_another_layer_is_caught_and_giving_on_ones_own_is_not() {
    for text in [
        "pub use crate::stall::Stall;",
        "pub(crate) use crate::{stall::Stall};",
    ] {
        let expected = "herd.rs:1: ‘herd’ gives on ‘crate::stall’, which hides an arrow";
        caught("herd", text, &[expected]);
    }
    passes(
        "herd",
        "pub use crate::herd::horse::Horse;\npub use horse::Horse;",
    );
}

#[test]
fn an_outside_name_in_the_wrong_layer_is_caught() {
    caught(
        "gate",
        "use sha2::Sha256;\nfn f() { clap::parse() }",
        &[
            "gate.rs:1: ‘gate’ must not use ‘sha2’",
            "gate.rs:2: ‘gate’ must not use ‘clap’",
        ],
    );
    passes("herd", "use sha2::Sha256;");
    passes("gate", "use std::{fs, env};");
    passes(
        "cli",
        "use clap::Parser;\nuse std::time::Instant;\nfn f() { println!() }",
    );
}

#[test]
fn a_pure_layer_that_reaches_for_the_world_is_caught() {
    for (text, name) in [
        ("use std::{io, fs::File};", "std::fs"),
        ("fn f() { std::env::var(1) }", "std::env"),
        ("use std::net::TcpStream;", "std::net"),
        ("use std::process;", "std::process"),
        ("use std::{thread as t};", "std::thread"),
        ("fn f() { SystemTime::now() }", "SystemTime"),
        ("use std::time::{Duration, Instant};", "Instant"),
        ("fn f() { chrono::Utc::now() }", "Utc::now"),
        ("fn f() { println!() }", "println!"),
        ("fn f() { eprintln ! () }", "eprintln!"),
        ("use ratatui::Frame;", "ratatui"),
        ("extern crate rand;", "rand"),
        ("use getrandom::fill;", "getrandom"),
    ] {
        let expected = format!("barn.rs:1: ‘barn’ must not use ‘{name}’");
        caught("barn", text, &[&expected]);
    }
    passes("herd", "use getrandom::fill;");
    passes(
        "barn",
        "use std::time::Duration;\nfn print() {}\nlet rand_seed = operand;",
    );
}

#[test]
fn the_test_module_may_use_the_world_but_not_point_down() {
    caught(
        "herd",
        "#[cfg(test)]\nmod tests {\n    use std::fs;\n    use crate::barn::Loft;\n}\n",
        &["herd.rs:4: ‘herd’ names ‘crate::barn’"],
    );
    passes(
        "herd",
        "#[cfg(test)]\nmod tests {\n    use super::super::horse::Horse;\n}\n",
    );
}

#[test]
fn the_program_may_name_the_command_line_alone() {
    passes("main", "fn main() { hames::cli::run() }");
    caught(
        "main",
        "use hames::barn::Barn;",
        &["main.rs:1: the program names ‘barn’: it may name ‘cli’ alone"],
    );
}

#[test]
fn comments_strings_and_characters_name_nothing() {
    passes(
        "stall",
        r###"
//! See crate::herd and std::fs; println!("x").
/* use crate::barn::Loft; /* nested: use std::env; */ SystemTime */
/// ```
/// use hames::gate::Gate;
/// ```
fn quoted<'a>(x: &'a str) -> &'a str {
    let _ = "use crate::herd::Horse; \" std::fs \\";
    let _ = r"crate::herd\"; let _ = br#"std::process " crate::barn"#;
    let _ = r##"a "# crate::gate "##;
    let _ = (b"crate::herd", c"ratatui", '"', '\'', b'"', '\u{2019}', '\\');
    let brand: &'static str = x; // rand, clap
    brand
}
"###,
    );
}

#[test]
fn code_behind_a_comment_or_a_string_is_still_seen() {
    for text in [
        "/* a */ use crate::herd::Horse;",
        "let _ = (\"a\", '\"', r#\"b\"#); crate::herd::f();",
        "fn f<'a>(x: &'a str) { let y = '\\''; crate::herd::f() }",
        "let r = br + c; crate::herd::f();",
    ] {
        caught("stall", text, &["stall.rs:1: ‘stall’ names ‘crate::herd’"]);
    }
}

#[test]
fn blanking_keeps_every_line_break() {
    let text = "a /* b\nc */ d \"e\nf\" r#\"\n\"# // g\nh";
    let code: Vec<String> = blanked(text)
        .lines()
        .map(|line| line.trim().to_owned())
        .collect();
    assert_eq!(code, ["a", "d", "", "", "h"]);
}

#[test]
fn lib_declares_layers_in_the_tables_order_and_does_no_more() {
    let faults = |text| lib_faults(text, &Plan::read(HOUSE));
    assert!(faults("//! The house.\n\npub mod stall;\n#[cfg(x)]\npub mod barn;\n").is_empty());
    assert_eq!(
        faults("pub mod herd;\npub mod stall;\n"),
        ["src/lib.rs:2: not in the order of the table"],
    );
    for text in [
        "pub mod loft;",
        "mod stall;",
        "pub use stall::Stall;",
        "fn f() {}",
    ] {
        assert_eq!(
            faults(text),
            ["src/lib.rs:1: not the declaration of a layer"]
        );
    }
}
