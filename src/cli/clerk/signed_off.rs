//! Who is signed off for what and who has not walked it for long, told when a walk begins. It bars nothing: who may walk what is for
//! the manager to decide.

use crate::cli::clerk::Books;
use crate::drill::Currency;
use crate::record::{Id, RideSignedOff, Roster, SignedOff};
use crate::rig::HitchKind;
use crate::store::Disk;
use chrono::NaiveDate;
use std::collections::BTreeMap;

/// A walk as it begins: rig and checklist by id and as they are called.
pub(super) struct Begins<'a> {
    pub(super) rig: (&'a str, &'a str),
    /// Bumper pull or gooseneck.
    pub(super) kind: HitchKind,
    pub(super) checklist: (&'a str, &'a str),
    pub(super) revision: u32,
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
            let rode = line.and_then(|line| rode(line, walk));
            told.extend(rode.filter(|ride| ride.revision < walk.revision).map(|ride| {
                format!(
                    "{name} rode revision {} of “{}”, and this is revision {}. See whether a \
                     critical step is to be drilled since: hames drill",
                    ride.revision, walk.checklist.1, walk.revision
                )
            }));
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

/// A sentence for each of these people who has not walked the rig for long: who never has is new
/// to it and knows that.
pub(super) fn currency<'a>(
    people: &'a [&str],
    (walked, today): (&'a BTreeMap<String, NaiveDate>, NaiveDate),
    walk: &'a Begins<'_>,
) -> impl Iterator<Item = String> + 'a {
    people.iter().filter_map(move |name| {
        let last = *walked.get(*name)?;
        let due = match Currency::on(today, last) {
            Currency::Current => return None,
            Currency::Refresher => "a refresher is due",
            Currency::Lapsed => "begin again as a new driver does",
        };
        let days = (today - last).num_days();
        Some(format!(
            "{name} last walked {} on {}, {days} days ago: {due}. That bars nothing; the manager \
             decides.",
            walk.rig.1,
            last.format("%Y-%m-%d")
        ))
    })
}

fn covers(line: &SignedOff, walk: &Begins<'_>) -> bool {
    let holds = |ids: &Option<Vec<Id>>, id: &str| {
        let every = ids.is_none();
        every || ids.iter().flatten().any(|one| one.as_str() == id)
    };
    rode(line, walk).is_some()
        || holds(&line.rigs, walk.rig.0) && holds(&line.checklists, walk.checklist.0)
}

/// The check ride of this checklist with this kind of rig.
fn rode<'l>(line: &'l SignedOff, walk: &Begins<'_>) -> Option<&'l RideSignedOff> {
    let mut rides = line.rides.iter();
    rides.find(|ride| {
        ride.checklist.as_str() == walk.checklist.0 && ride.rigs.as_str() == walk.kind.word()
    })
}
