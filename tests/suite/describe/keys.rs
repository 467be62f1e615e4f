//! Every key the rig file's reader knows is asked about, and nothing is asked that it does not.

use crate::describe::person::Person;
use hames::document::{Document, Remarks, Tree};
use hames::figures::{Figure, NotKnown};
use hames::rig::Rig;
use hames::rig::demo::{JUNIPER, MESQUITE};
use hames::rig::describe::{CHAPTERS, Interview};
use std::collections::BTreeSet;

/// A key no map of a rig file has.
const STRANGE: &str = "zzzzzzzz";

/// Paths of every map of a tree.
fn maps(tree: &Tree, path: &str, found: &mut Vec<String>) {
    match tree {
        Tree::Map(entries) => {
            found.push(path.to_owned());
            for (key, value) in entries {
                let below = if path.is_empty() {
                    key.clone()
                } else {
                    format!("{path}.{key}")
                };
                maps(value, &below, found);
            }
        }
        Tree::List(values) => {
            for (place, value) in values.iter().enumerate() {
                maps(value, &format!("{path}[{place}]"), found);
            }
        }
        Tree::Text(_) | Tree::Bare(_) => {}
    }
}

/// The keys that are named when a strange one stands in the map at this path.
fn known(tree: &Tree, path: &str) -> Vec<String> {
    let strange = if path.is_empty() {
        STRANGE.to_owned()
    } else {
        format!("{path}.{STRANGE}")
    };
    let mut tree = tree.clone();
    tree.put(&strange, Tree::Text("strange".to_owned()), &|_, _| false);
    let faults = Rig::read(&tree.written(&Remarks::default())).unwrap_err();
    let told = faults
        .iter()
        .find(|fault| fault.what == format!("`{STRANGE}` is not a key here"))
        .unwrap_or_else(|| panic!("{path}: {faults:?}"));
    let keys = told.fix.strip_prefix("the keys here are ").unwrap();
    keys.split(", ")
        .map(|key| key.trim_matches('`').to_owned())
        .collect()
}

/// A path as questions have it: `[]` for a place in a list, `*` for a chain's side.
fn template(path: &str) -> String {
    let mut out = String::new();
    for (place, part) in path.split(['[', ']']).enumerate() {
        out.push_str(if place % 2 == 0 { part } else { "[]" });
    }
    out.replace("chains.left", "chains.*")
        .replace("chains.right", "chains.*")
}

/// Every path that a question fills.
fn asked() -> BTreeSet<String> {
    let mut asked = BTreeSet::from(["format".to_owned()]);
    for section in CHAPTERS.iter().flat_map(|chapter| chapter.sections) {
        for field in section.fields {
            let path = section.path(field);
            for slot in field.ask.slots().iter().filter(|slot| !slot.key.is_empty()) {
                asked.insert(format!("{path}.{}", slot.key));
            }
            if field.ask.has_evidence() {
                asked.insert(format!("{path}.by"));
                asked.insert(format!("{path}.at"));
            }
            asked.insert(path);
        }
    }
    // Words that are keys: the kinds of joint, the ways to tell an error, and a table's rows.
    for key in ["fixed", "of-reading", "grade"] {
        asked.insert(format!("instruments[].error.{key}"));
    }
    for tire in ["trailer.axles[].tire", "trailer.spare"] {
        for key in ["pressure", "load"] {
            asked.insert(format!("{tire}.table.rows[].{key}"));
        }
    }
    asked
}

#[test]
fn every_key_the_reader_knows_is_asked_about() {
    let asked = asked();
    let is_asked = |path: &str| {
        asked.iter().any(|own| {
            own.strip_prefix(path)
                .is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
        })
    };
    let files = [
        JUNIPER.to_owned(),
        MESQUITE.to_owned(),
        Person::with_a_bumper_pull().describes(Interview::default()),
        Person::with_a_gooseneck().describes(Interview::default()),
    ];
    let mut seen = BTreeSet::new();
    for text in files {
        let tree = Document::parse(&text).unwrap().tree();
        let mut paths = Vec::new();
        maps(&tree, "", &mut paths);
        for path in paths {
            if !seen.insert(template(&path)) {
                continue;
            }
            for key in known(&tree, &path) {
                let own = template(&if path.is_empty() {
                    key
                } else {
                    format!("{path}.{key}")
                });
                // A gooseneck has no receiver, and a bumper pull no bed.
                let foreign = own.starts_with("hitch.joint.gooseneck.")
                    || own.starts_with("hitch.joint.bumper-pull.");
                // Nobody walking round the rig knows when it was serviced: the books do.
                let booked = own.starts_with("service") || own.starts_with("papers");
                assert!(foreign || booked || is_asked(&own), "{own}");
            }
        }
    }
    assert!(seen.len() > 100, "{}", seen.len());
}

/// A rig of which all is left out that may be: whatever its figures then lack, somebody can be
/// asked for.
#[test]
fn every_value_a_figure_lacks_is_asked_about() {
    let asked = asked();
    let rig = Rig::read(&Person::in_a_hurry().describes(Interview::default())).unwrap();
    for figure in Figure::ALL {
        let items = match figure.each() {
            None => vec![None],
            Some(each) => each.items(&rig).into_iter().map(Some).collect(),
        };
        for item in items {
            let Err(NotKnown::Undescribed(_, lacks)) = figure.of(&rig, item.as_ref()) else {
                continue;
            };
            for lack in lacks {
                // Figures name a field of every axle and of either chain alike.
                let plain = |path: &str| path.replace("[]", "").replace(".*", "");
                let path = plain(&template(lack.field));
                let is_part = |own: &String| plain(own).starts_with(&path);
                assert!(asked.iter().any(is_part), "{figure:?}: {}", lack.field);
            }
        }
    }
}

#[test]
fn every_part_of_both_kinds_of_joint_is_asked_about() {
    let asked = asked();
    for part in [
        "bumper-pull.receiver.carrying.total",
        "bumper-pull.receiver.distributing.downward",
        "bumper-pull.receiver.height.is",
        "bumper-pull.drawbar.ratings.total",
        "bumper-pull.drawbar.rise.is",
        "bumper-pull.pin.diameter.by",
        "gooseneck.bed.downward",
        "gooseneck.bed-height.is",
        "gooseneck.rail-height.at",
    ] {
        assert!(asked.contains(&format!("hitch.joint.{part}")), "{part}");
    }
}
