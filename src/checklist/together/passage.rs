//! A passage of a checklist: some of its sections, as a list that can be walked by itself.
//!
//! What a kept step rests on comes along: a step whose answer decides whether it stands, or whose
//! reading is its limit. Nothing of a passage belongs to a haul or goes on the road.

use crate::checklist::Checklist;
use crate::checklist::together::{Together, branches_of};
use crate::document::{Document, Fault, Tree};
use std::collections::BTreeSet;

impl Together {
    /// These sections of it, in its own order.
    ///
    /// # Errors
    /// Every fault of what is left, as when none of its sections is meant.
    pub fn passage(&self, sections: &[String]) -> Result<Self, Vec<Fault>> {
        let document = Document::parse(&self.text)?;
        let tree = cut(&document.tree(), sections);
        let cut = Document::of(&tree);
        Ok(Self {
            checklist: Checklist::read_document(&cut)?,
            text: cut.text().to_owned(),
        })
    }
}

fn cut(whole: &Tree, sections: &[String]) -> Tree {
    let meant = |section: &Tree| {
        let id = section.at("id").and_then(Tree::scalar).unwrap_or_default();
        sections.iter().any(|name| name == id)
    };
    let needed = needed(whole, &meant);
    let Tree::Map(entries) = whole else {
        return whole.clone();
    };
    let mut kept: Vec<(String, Tree)> = Vec::new();
    for (key, value) in entries {
        match (key.as_str(), value) {
            ("haul" | "road" | "branches", _) => {}
            ("sections", Tree::List(all)) => {
                let left = all.iter().filter_map(|section| {
                    let all = meant(section);
                    keep_steps(section, |step| all || needed.contains(name_of(step)))
                });
                kept.push((key.clone(), Tree::List(left.collect())));
            }
            _ => kept.push((key.clone(), value.clone())),
        }
    }
    let mut tree = Tree::Map(kept);
    put_off_to_what_is_left(&mut tree);
    let mut opened = BTreeSet::new();
    branches_of(&tree, &mut opened);
    if let (Tree::Map(entries), Some(Tree::List(branches))) = (&mut tree, whole.at("branches")) {
        let opens = |branch: &&Tree| opened.contains(name_of(branch));
        let left = branches.iter().filter(opens).cloned().collect();
        entries.push(("branches".to_owned(), Tree::List(left)));
    }
    tree
}

/// The steps that those of the sections meant rest on, and what these rest on.
fn needed(whole: &Tree, meant: &impl Fn(&Tree) -> bool) -> BTreeSet<String> {
    let sections = items(whole.at("sections"));
    let all: Vec<&Tree> = sections
        .iter()
        .flat_map(|section| items(section.at("steps")))
        .collect();
    let mut open: Vec<&Tree> = sections
        .iter()
        .filter(|section| meant(section))
        .flat_map(|section| items(section.at("steps")))
        .collect();
    let mut needed = BTreeSet::new();
    while let Some(step) = open.pop() {
        let mut named = BTreeSet::new();
        steps_of(step, &mut named);
        for name in named {
            let found = all.iter().find(|step| name_of(step) == name);
            if let Some(found) = found
                && needed.insert(name)
            {
                open.push(found);
            }
        }
    }
    needed
}

/// The steps a step names, wherever it does.
fn steps_of(tree: &Tree, into: &mut BTreeSet<String>) {
    match tree {
        Tree::Map(entries) => {
            for (key, value) in entries {
                match (key.as_str(), value.scalar()) {
                    ("step", Some(id)) => {
                        into.insert(id.to_owned());
                    }
                    _ => steps_of(value, into),
                }
            }
        }
        Tree::List(values) => values.iter().for_each(|value| steps_of(value, into)),
        Tree::Text(_) | Tree::Bare(_) => {}
    }
}

/// The section with the steps that are kept; nothing where none is.
fn keep_steps(section: &Tree, keep: impl Fn(&Tree) -> bool) -> Option<Tree> {
    let mut section = section.clone();
    let Some(Tree::List(steps)) = section.at_mut("steps") else {
        return None;
    };
    let before = steps.len();
    steps.retain(keep);
    let (left, is_cut) = (steps.len(), steps.len() < before);
    if is_cut && let Some(complete) = section.at_mut("complete") {
        // Nobody states what was not asked.
        *complete = Tree::Text("What this passage needs of it was answered.".to_owned());
    }
    (left > 0).then_some(section)
}

/// A step cannot be put off until before a section that is not there.
fn put_off_to_what_is_left(tree: &mut Tree) {
    let left: BTreeSet<String> = items(tree.at("sections"))
        .iter()
        .map(|section| name_of(section).to_owned())
        .collect();
    let Some(Tree::List(sections)) = tree.at_mut("sections") else {
        return;
    };
    for section in sections {
        let Some(Tree::List(steps)) = section.at_mut("steps") else {
            continue;
        };
        for step in steps {
            let before = step.at("deferrable.before").and_then(Tree::scalar);
            if before.is_some_and(|before| !left.contains(before)) {
                step.take("deferrable");
            }
        }
    }
}

fn items(tree: Option<&Tree>) -> &[Tree] {
    match tree {
        Some(Tree::List(values)) => values,
        _ => &[],
    }
}

fn name_of(tree: &Tree) -> &str {
    tree.at("id").and_then(Tree::scalar).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use crate::checklist::{Haul, Shipped};

    fn passage(list: &str, sections: &[&str]) -> Vec<String> {
        let whole = Shipped::named(list).unwrap().by_default().unwrap();
        let sections: Vec<String> = sections.iter().map(|id| (*id).to_owned()).collect();
        let cut = whole.passage(&sections).unwrap().checklist;
        assert_eq!(cut.haul, Haul::Apart);
        let steps = cut.sections.iter().flat_map(|section| &section.steps);
        steps.map(|step| step.id.clone()).collect()
    }

    #[test]
    fn a_passage_has_the_steps_of_its_sections_and_those_they_rest_on() {
        let steps = passage("hitch-bumper", &["prove"]);
        assert_eq!(
            steps,
            [
                "company",
                "lift-rise",
                "lift-gap",
                "second-look",
                "front-mark",
                "rear-mark"
            ],
        );
    }

    #[test]
    fn of_a_section_that_was_cut_nobody_states_what_was_not_asked() {
        let whole = Shipped::named("hitch-bumper")
            .unwrap()
            .by_default()
            .unwrap();
        let cut = whole.passage(&["prove".to_owned()]).unwrap().checklist;
        let says: Vec<&str> = cut
            .sections
            .iter()
            .map(|one| one.complete.as_str())
            .collect();
        assert_eq!(
            says,
            [
                "What this passage needs of it was answered.",
                "The coupler lifts the truck, and the frame stands level enough for its axles.",
            ],
        );
    }

    #[test]
    fn every_section_of_every_shipped_list_can_be_walked_by_itself() {
        for shipped in crate::checklist::SHIPPED {
            let whole = shipped.by_default().unwrap();
            for section in &whole.checklist.sections {
                let cut = whole.passage(std::slice::from_ref(&section.id));
                assert!(cut.is_ok(), "{} {}: {cut:?}", shipped.id, section.id);
            }
        }
    }

    #[test]
    fn a_passage_of_no_section_there_is_cannot_be_walked() {
        let whole = Shipped::named("stop").unwrap().by_default().unwrap();
        assert!(whole.passage(&["nosuch".to_owned()]).is_err());
    }
}
