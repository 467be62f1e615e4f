//! The schemas that ship for editors: as the program prints them, and no stricter and no looser
//! than the reader, as far as a schema can see.

mod draft;

use crate::architecture::root;
use crate::corpus;
use crate::harness::home::Home;
use draft::check;
use hames::barn::Policies;
use hames::checklist::{
    Checklist, LIST_FILE, PATTERN, SHARED, SHIPPED, STEPS_FILE, Shared, put_together, shapes,
};
use hames::document::Key;
use hames::drill::{SCENARIO_FILES, SCENARIOS_FILE, SIGHT_FILES, SIGHTS_FILE};
use serde_json::Value;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

const SMALL: &str = include_str!("../vectors/checklist-small.yaml");
const FAULTS: &str = include_str!("../vectors/checklist-faults.txt");

/// In which every key of the format stands.
const EVERY_KEY: &str = include_str!("../vectors/checklist-every-key.yaml");

/// Wrong files that a schema takes: it knows no names, no sums, no order, and no figure's dimension.
const BEYOND_A_SCHEMA: [&str; 46] = [
    "a step named twice",
    "a step named as one of another section",
    "a section named twice",
    "a branch named twice",
    "two states of one name",
    "a branch that is not there",
    "a branch nothing leads to",
    "a limit in another dimension",
    "a limit outside the plausible values",
    "plausible values upside down",
    "plausible values with no room",
    "a figure of another dimension",
    "a figure of one wheel in a step for the whole rig",
    "a figure of one wheel in a step for each axle of the truck",
    "a share of less than nothing",
    "more in another dimension",
    "put off to a section that is not there",
    "put off to an earlier section",
    "put off to its own section",
    "a condition on a later step",
    "a condition on itself",
    "a condition on a step that is answered for each wheel",
    "a condition on a state that is not there",
    "a condition on a reading",
    "a condition on one wheel",
    "a condition in another dimension",
    "a condition that rests on what is read on the walk",
    "a rule of thumb in another dimension",
    "a rule of thumb that is a figure of another dimension",
    "a rule of thumb no plausible reading reaches",
    "a fact told by each wheel",
    "a fact told twice",
    "a key of the file given twice",
    "an act that takes no time",
    "an act that takes half a second more",
    "an act that takes a length",
    "a limit by a later step",
    "a limit by the step itself",
    "a limit by a step that is seen, not read",
    "a limit by a step of another dimension",
    "a limit by a step that is read for each wheel",
    "more than was read, in another dimension",
    "siblings of a step that is read once",
    "siblings in another dimension",
    "a limit with a comma in it",
    "a limit without its unit",
];

fn schema(of: &str) -> Value {
    let printed = Home::new().hames(&format!("checklist schema {of}")).run();
    assert_eq!((printed.status, printed.err.as_str()), (0, ""));
    serde_json::from_str(&printed.out).unwrap()
}

fn value(yaml: &str) -> Value {
    serde_yaml::from_str(yaml).unwrap_or(Value::Null)
}

#[test]
fn the_schemas_that_ship_are_what_the_program_prints() {
    for (of, file) in [
        ("checklist", "hames-checklist-1.json"),
        ("steps", "hames-steps-1.json"),
        ("scenarios", "hames-drill-1.json"),
        ("sights", "hames-sights-1.json"),
    ] {
        let printed = Home::new()
            .hames(&format!("checklist schema {of}"))
            .run()
            .out;
        let made = Path::new(env!("CARGO_TARGET_TMPDIR")).join(file);
        fs::write(&made, &printed).unwrap();
        let shipped = format!("docs/schema/{file}");
        let written = fs::read_to_string(root().join(&shipped)).unwrap_or_default();
        assert!(
            written == printed,
            "the format has changed; take the new schema with: cp {} {shipped}",
            made.display()
        );
    }
}

#[test]
fn every_file_that_ships_passes_its_schema() {
    let (lists, steps) = (schema("checklist"), schema("steps"));
    let shipped = SHIPPED.iter().map(|shipped| shipped.text);
    for text in shipped.chain([PATTERN, SMALL, EVERY_KEY]) {
        let met = check(&lists, &value(text));
        assert_eq!(met.faults, [""; 0], "{}", text.lines().next().unwrap());
    }
    for shipped in SHIPPED {
        let put = shipped.together(&Policies::default()).unwrap();
        assert_eq!(
            check(&lists, &value(&put.text)).faults,
            [""; 0],
            "{}",
            shipped.id
        );
    }
    let (scenarios, sights) = (schema("scenarios"), schema("sights"));
    let drills = SCENARIO_FILES.map(|text| (&scenarios, text));
    let seen = SIGHT_FILES.map(|text| (&sights, text));
    let shared = SHARED.map(|text| (&steps, text));
    for (schema, text) in shared.into_iter().chain(drills).chain(seen) {
        let met = check(schema, &value(text));
        assert_eq!(met.faults, [""; 0], "{}", text.lines().next().unwrap());
    }
}

#[test]
fn a_wrong_file_is_refused_by_the_schema_too_but_for_what_no_schema_sees() {
    let lists = schema("checklist");
    let wrong = corpus::all(FAULTS, &[("small", SMALL)]);
    let taken: Vec<&str> = wrong
        .iter()
        .filter(|wrong| check(&lists, &value(&wrong.text)).faults.is_empty())
        .map(|wrong| wrong.about.as_str())
        .collect();
    assert_eq!(taken, BEYOND_A_SCHEMA);
}

#[test]
fn every_key_of_the_format_stands_in_the_file_that_is_said_to_have_them_all() {
    let lists = schema("checklist");
    let file = value(EVERY_KEY);
    let met = check(&lists, &file);
    let mut known: BTreeSet<(&str, &str)> = BTreeSet::new();
    for shape in shapes(&LIST_FILE) {
        known.extend(shape.keys.iter().map(|key| (shape.name, key.name)));
    }
    let root = (LIST_FILE.name.to_owned(), String::new());
    for (part, place) in met.parts.iter().chain([&root]) {
        if let Some(map) = file.pointer(place).and_then(Value::as_object) {
            known.retain(|(shape, key)| shape != part || !map.contains_key(*key));
        }
    }
    assert!(known.is_empty(), "{known:?}");
}

/// What must be there by the schema is what the reader misses, and nothing else is.
#[test]
fn the_reader_misses_the_keys_that_must_be_there_and_no_others() {
    let lists = schema("checklist");
    let put = put_together(EVERY_KEY, Shared::shipped(), &Policies::default()).unwrap();
    let file = value(&put.text);
    let met = check(&lists, &file);
    let root = (LIST_FILE.name.to_owned(), String::new());
    let mut tried = BTreeSet::new();
    for (part, place) in met.parts.iter().chain([&root]) {
        let all = shapes(&LIST_FILE);
        let Some(shape) = all.iter().find(|shape| shape.name == part) else {
            continue;
        };
        for key in shape.keys {
            // Of each kind of map one is enough.
            let there = file.pointer(place).unwrap().get(key.name).is_some();
            if !there || !tried.insert((part, key.name)) {
                continue;
            }
            let mut without = file.clone();
            let map = without.pointer_mut(place).unwrap().as_object_mut().unwrap();
            map.remove(key.name);
            let text = serde_yaml::to_string(&without).unwrap();
            let faults = Checklist::read(&text).err().unwrap_or_default();
            let told = format!("`{}` is missing", key.name);
            let missed = faults.iter().any(|fault| fault.what == told);
            // A unit has to be there for everything but a count. A key that says which kind of map
            // this is makes it another kind when it goes.
            let wanted = match (part.as_str(), key.name) {
                ("reading", "unit") => true,
                ("by-step", "step") | ("by-siblings", "siblings") => false,
                _ => key.must,
            };
            assert_eq!(missed, wanted, "{place}: {}", key.name);
        }
    }
    assert!(tried.len() > 60, "{}", tried.len());
}

#[test]
fn the_pages_on_the_formats_name_every_key() {
    let mut silent = Vec::new();
    for (page, files) in [
        ("docs/checklist-format.md", [&LIST_FILE, &STEPS_FILE]),
        ("docs/drills.md", [&SCENARIOS_FILE, &SIGHTS_FILE]),
    ] {
        let text = fs::read_to_string(root().join(page)).unwrap();
        for shape in files.into_iter().flat_map(shapes) {
            let unnamed = |key: &&Key| !text.contains(&format!("`{}", key.name));
            let unnamed = shape.keys.iter().filter(unnamed);
            silent.extend(unnamed.map(|key| format!("{page}: {}: {}", shape.name, key.name)));
        }
    }
    assert!(silent.is_empty(), "{silent:?}");
}
