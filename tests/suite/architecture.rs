//! Holds the code to the tables of `docs/architecture.md`: who may name whom, and what may be
//! named where. The scanner reads text, so it also sees what a macro or a `cfg` hides.

mod blank;
mod plan;
mod planted;
mod scan;

use std::fs;
use std::path::{Path, PathBuf};

pub(crate) use blank::blanked;
use plan::Plan;
use scan::{Room, Source};

#[test]
fn every_layer_names_only_what_its_row_allows() {
    let plan = written_plan();
    let faults: Vec<String> = rust_files("src")
        .iter()
        .filter_map(|path| read_source(path))
        .flat_map(|source| scan::faults(&source, &plan))
        .collect();
    assert!(faults.is_empty(), "\n{}\n", faults.join("\n"));
}

#[test]
fn every_folder_and_file_below_src_is_a_layer_of_the_table() {
    let plan = written_plan();
    let unknown: Vec<String> = fs::read_dir(root().join("src"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .map(|path| path.file_stem().unwrap().to_str().unwrap().to_owned())
        .filter(|stem| stem != "main" && stem != "lib" && plan.place(stem).is_none())
        .collect();
    assert!(unknown.is_empty(), "no row in the table for {unknown:?}");
}

#[test]
fn lib_declares_the_layers_in_the_order_of_the_table_and_nothing_else() {
    let text = fs::read_to_string(root().join("src/lib.rs")).unwrap();
    let faults = scan::lib_faults(&text, &written_plan());
    assert!(faults.is_empty(), "\n{}\n", faults.join("\n"));
}

#[test]
fn the_table_lets_a_layer_name_only_layers_above_it() {
    let plan = written_plan();
    for (place, layer) in plan.layers.iter().enumerate() {
        for named in &layer.may_name {
            let above = plan.place(named).is_some_and(|other| other < place);
            assert!(above, "‘{}’ may name ‘{named}’, not above it", layer.name);
        }
    }
}

#[test]
fn the_table_keeps_outside_names_to_layers_that_it_has() {
    let plan = written_plan();
    for (name, layers) in &plan.only_in {
        for layer in layers {
            assert!(plan.place(layer).is_some(), "‘{name}’ only in ‘{layer}’?");
        }
    }
}

#[test]
fn the_program_has_one_world_and_no_way_to_another() {
    let of_file = |path: &PathBuf| {
        let code = blanked(&fs::read_to_string(path).unwrap());
        let worlds = code.lines().filter(|line| line.contains("World for"));
        let named = worlds.map(|line| format!("{}: {}", shown(path), line.trim()));
        named.collect::<Vec<_>>()
    };
    let worlds: Vec<String> = rust_files("src").iter().flat_map(of_file).collect();
    assert_eq!(worlds, ["src/world/machine.rs: impl World for Machine {"]);
}

/// The folder of the package.
pub(crate) fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// Every Rust file below `folder`, sorted.
pub(crate) fn rust_files(folder: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut open = vec![root().join(folder)];
    while let Some(folder) = open.pop() {
        for entry in fs::read_dir(&folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                open.push(path);
            } else if path.extension().is_some_and(|extension| extension == "rs") {
                found.push(path);
            }
        }
    }
    found.sort();
    found
}

/// `path` as people write it: below the package, with slashes.
pub(crate) fn shown(path: &Path) -> String {
    let below = path.strip_prefix(root()).unwrap_or(path);
    below.to_str().unwrap().replace('\\', "/")
}

fn written_plan() -> Plan {
    Plan::read(&fs::read_to_string(root().join("docs/architecture.md")).unwrap())
}

/// The file with its place, or nothing for `lib.rs`, which has a rule of its own.
fn read_source(path: &Path) -> Option<Source> {
    let name = shown(path);
    let modules: Vec<&str> = name
        .trim_start_matches("src/")
        .trim_end_matches(".rs")
        .split('/')
        .collect();
    let room = match modules.as_slice() {
        ["lib"] => return None,
        ["main"] => Room::Program,
        [layer, inner @ ..] => Room::Layer {
            name: (*layer).to_owned(),
            depth: inner.len() + 1,
        },
        [] => unreachable!("a path has a first part"),
    };
    let text = fs::read_to_string(path).unwrap();
    Some(Source { name, room, text })
}
