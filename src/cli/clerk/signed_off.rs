//! Who is signed off for what, told when a walk begins. It bars nothing: who may walk what is for
//! the manager to decide.

use crate::cli::clerk::Books;
use crate::record::{Id, Roster, SignedOff};
use crate::store::Disk;

/// A walk as it begins: rig and checklist by id and as they are called.
pub(super) struct Begins<'a> {
    pub(super) rig: (&'a str, &'a str),
    pub(super) checklist: (&'a str, &'a str),
}

/// A sentence for each of these people who is not signed off for this walk. In a barn that signs
/// nobody off nothing is told.
pub(super) fn notices<D: Disk>(
    books: &Books<D>,
    roster: &Roster,
    people: &[&str],
    walk: &Begins<'_>,
) -> Vec<String> {
    let now = roster.in_force();
    let lines = now.map_or(&[][..], |now| &now.change.signed_off);
    if lines.is_empty() {
        return Vec::new();
    }
    let mut told: Vec<String> = Vec::new();
    for name in people {
        let line = books.person(name).and_then(|signer| {
            let mut lines = lines.iter();
            lines.find(|line| line.person == signer.id)
        });
        if line.is_some_and(|line| covers(line, walk)) {
            continue;
        }
        let sentence = format!(
            "{name} is not signed off for {} with “{}”. That bars nothing; the manager decides.",
            walk.rig.1, walk.checklist.1
        );
        if !told.contains(&sentence) {
            told.push(sentence);
        }
    }
    told
}

fn covers(line: &SignedOff, walk: &Begins<'_>) -> bool {
    let holds = |ids: &Option<Vec<Id>>, id: &str| {
        let every = ids.is_none();
        every || ids.iter().flatten().any(|one| one.as_str() == id)
    };
    holds(&line.rigs, walk.rig.0) && holds(&line.checklists, walk.checklist.0)
}
