//! What changed from one checklist to another, told the gravest first.

use crate::corpus;
use hames::barn::Policies;
use hames::checklist::{Checklist, Gravity, PATTERN, Shared, changes, put_together};

const SMALL: &str = include_str!("../vectors/checklist-small.yaml");

/// Its head says how it is written.
const CHANGES: &str = include_str!("../vectors/checklist-changes.txt");

#[test]
fn every_change_is_told_as_a_sentence_with_its_weight() {
    let before = Checklist::read(SMALL).unwrap();
    let differ: Vec<String> = corpus::edited(CHANGES, SMALL)
        .into_iter()
        .filter_map(|(about, text, says)| {
            let after =
                Checklist::read(&text).unwrap_or_else(|faults| panic!("{about}: {faults:?}"));
            let word = |weight| match weight {
                Gravity::CriticalGone => "critical-gone",
                Gravity::Looser => "looser",
                Gravity::Other => "other",
                Gravity::Words => "words",
            };
            let told: Vec<String> = changes(&before, &after)
                .iter()
                .map(|change| format!("{}: {change}", word(change.weight)))
                .collect();
            (told != says).then(|| {
                format!(
                    "== {about}\n{}\nbut told:\n{}",
                    says.join("\n"),
                    told.join("\n")
                )
            })
        })
        .collect();
    assert!(differ.is_empty(), "\n{}\n", differ.join("\n\n"));
}

#[test]
fn a_list_has_not_changed_against_itself() {
    let pattern = put_together(PATTERN, Shared::shipped(), &Policies::default()).unwrap();
    let small = Checklist::read(SMALL).unwrap();
    for list in [pattern.checklist, small] {
        assert_eq!(changes(&list, &list), []);
    }
}
