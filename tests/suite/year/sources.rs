//! Whose word each limit is: every number says where it is written, or that it is nowhere.

use hames::checklist::{Ask, SHIPPED, shipped_by_default};
use hames::rules::{Basis, Bound};

/// Every basis of every list, with where it stands.
fn bases() -> Vec<(String, Basis, bool)> {
    let mut bases = Vec::new();
    for put in shipped_by_default() {
        for step in put.checklist.steps() {
            let at = format!("{}: {}", put.checklist.id, step.id);
            match &step.ask {
                Ask::Sighting(ask) | Ask::Independent(ask) => {
                    bases.push((at, ask.basis.clone(), false));
                }
                Ask::Reading(ask) => {
                    for rung in &ask.limits {
                        bases.push((at.clone(), rung.basis.clone(), true));
                        thumbs(&at, &rung.bound, &mut bases);
                    }
                }
            }
        }
    }
    bases
}

fn thumbs(at: &str, bound: &Bound, bases: &mut Vec<(String, Basis, bool)>) {
    if let Bound::Of { or: Some(rule), .. } | Bound::Read { or: Some(rule), .. } = bound {
        bases.push((at.to_owned(), rule.basis.clone(), true));
        thumbs(at, &rule.bound, bases);
    }
}

#[test]
fn every_limit_with_a_number_names_its_source_or_says_that_it_has_none() {
    let bases = bases();
    let numbers = bases.iter().filter(|(_, _, number)| *number).count();
    assert!(numbers > 200, "only {numbers} limits");
    for (at, basis, _) in &bases {
        let words = basis.source.split_whitespace().count();
        assert!(words >= 2, "{at}: “{}” says nothing", basis.source);
        for empty in ["unknown", "n/a", "tbd", "see above", "various"] {
            assert!(
                !basis.source.to_lowercase().contains(empty),
                "{at}: {}",
                basis.source
            );
        }
    }
}

#[test]
fn what_is_law_names_the_law() {
    for (at, basis, _) in bases() {
        if basis.authority.word() == "law" {
            let source = &basis.source;
            let named = [
                "CFR", "SDCL", "WAC", "code", "law", "statute", "state", "licen", "permit",
            ];
            assert!(
                named.iter().any(|word| source.contains(word)),
                "{at}: {source}"
            );
        }
    }
}

#[test]
fn no_list_promises_and_none_names_where_it_was_learnt() {
    for shipped in SHIPPED {
        let text = shipped.text.to_lowercase();
        for word in [
            " safe ", "safely", "http", "www.", "handbook", "[cp]", "[mem]", "podcast", "video",
        ] {
            assert!(!text.contains(word), "{}: {word}", shipped.id);
        }
    }
}
