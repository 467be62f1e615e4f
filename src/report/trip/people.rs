//! Who took part, in which role of the crew, and what they were signed off for when the walk began.

use crate::record::{Revision, Role, Statements, Verified};
use crate::walk::{Event, Given, Walk};
use serde::Serialize;

/// Somebody who took part.
#[derive(Clone, Debug, Serialize)]
pub(super) struct PersonTold {
    pub(super) name: String,
    /// What they did on the walk.
    pub(super) parts: Vec<&'static str>,
    /// Their roles in the crew of that day; nothing where they were not in it.
    pub(super) roles: Vec<&'static str>,
    /// What they were signed off for; nothing where nothing was stated.
    pub(super) signed_off: Option<String>,
}

/// Everybody who is named, in the order they come up.
pub(super) fn people(trip: &Verified, walk: &Walk, statements: &Statements) -> Vec<PersonTold> {
    let begun = trip.begun();
    let crew = statements.in_force_for(&begun.crew, begun.manager);
    let mut people: Vec<PersonTold> = Vec::new();
    let mut take = |name: &str, part: &'static str| {
        let known = people.iter_mut().find(|one| one.name == name);
        match known {
            Some(one) if one.parts.contains(&part) => {}
            Some(one) => one.parts.push(part),
            None => people.push(PersonTold::new(name, part, crew)),
        }
    };
    take(begun.reader.as_str(), "reads and types");
    take(begun.doer.as_str(), "does the work");
    for entry in trip.entries() {
        match &entry.event {
            Event::HandedOver { reader, doer, .. } => {
                take(reader.as_str(), "reads and types");
                take(doer.as_str(), "does the work");
            }
            Event::Answered { doer, given, .. } => {
                take(doer.as_str(), "does the work");
                if let Given::Seen { by: Some(by), .. } = given {
                    take(by.as_str(), "looks as second person");
                }
            }
            _ => {}
        }
    }
    take(walk.doer().as_str(), "does the work");
    if let Some(sealed) = trip.sealed() {
        take(sealed.seal.name.as_str(), "signs");
    }
    people
}

impl PersonTold {
    fn new(name: &str, part: &'static str, crew: Option<&Revision>) -> Self {
        let signers = crew.map_or(&[][..], |crew| crew.crew.signers());
        let signer = signers.iter().find(|signer| {
            let is_person = !signer.roles.contains(&Role::Device);
            is_person && signer.name.as_str().eq_ignore_ascii_case(name)
        });
        let roles = signer.map_or_else(Vec::new, |signer| {
            signer.roles.iter().map(|role| role.word()).collect()
        });
        let signed_off = signer.zip(crew).and_then(|(signer, crew)| {
            let mut lines = crew.change.signed_off.iter();
            let line = lines.find(|line| line.person == signer.id);
            line.map(ToString::to_string)
        });
        Self {
            name: name.to_owned(),
            parts: vec![part],
            roles,
            signed_off,
        }
    }

    /// `driver; signed off for every rig; every checklist`.
    pub(super) fn standing(&self) -> String {
        let roles = if self.roles.is_empty() {
            "not in the crew file stated then".to_owned()
        } else {
            self.roles.join(", ")
        };
        match &self.signed_off {
            Some(line) => format!("{roles}; signed off for {line}"),
            None => format!("{roles}; no sign-off is stated"),
        }
    }
}
