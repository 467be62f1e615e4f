//! The roster: every crew file there was, each put in force by a manager of the one before it.

mod gone;
mod next;
mod settle;

pub use gone::Gone;
pub use next::{CrewAct, CrewNow, NextCrew, NotChanged};

use crate::record::{
    Crew, CrewChange, Digest, Id, PrintedName, PublicKey, Role, SignedOff, Signer,
};
use std::collections::{HashMap, HashSet};

/// The crew files, those before always first.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Roster {
    revisions: Vec<Revision>,
    /// Of forks that a later statement has settled: the statement they stand behind, and the one
    /// that goes on.
    settled: HashMap<Option<Digest>, Digest>,
    /// Where it forks: of each statement that put a crew file in force, the others it stands on,
    /// by whatever manager's log.
    stands_on: HashMap<Digest, HashSet<Digest>>,
}

fn holds(crew: &Crew, key: &PublicKey) -> bool {
    crew.signers().iter().any(|signer| signer.key == *key)
}

/// A crew file, and the statement that put it in force.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Revision {
    /// The crew.
    pub crew: Crew,
    /// The statement.
    pub statement: Digest,
    /// Who signed it.
    pub by: PrintedName,
    /// What it states.
    pub change: CrewChange,
}

impl Roster {
    /// Every crew file, those before always first.
    pub fn revisions(&self) -> &[Revision] {
        &self.revisions
    }

    /// The crew file in force: the last that everyone agrees on. Of a roster that forks, neither
    /// branch is chosen, until a statement that stands on both goes on with one.
    pub fn in_force(&self) -> Option<&Revision> {
        let mut last = self.only(None)?;
        while let Some(next) = self.only(Some(last.statement)) {
            last = next;
        }
        Some(last)
    }

    /// The crew file with this plain hash.
    pub fn crew(&self, file: &Digest) -> Option<&Revision> {
        self.revisions
            .iter()
            .find(|revision| revision.change.file == *file)
    }

    /// What a person is signed off for, by the crew file in force; nothing where nothing is said.
    pub fn signed_off(&self, person: &Id) -> Option<&SignedOff> {
        let mut lines = self.in_force()?.change.signed_off.iter();
        lines.find(|line| line.person == *person)
    }

    /// Whether any two crew files were put in the place of the same one.
    pub(super) fn forks(&self) -> Vec<u64> {
        let place = |revision: &Revision| revision.change.before;
        let twice = self.revisions.iter().enumerate().filter(|(at, revision)| {
            let mut before = self.revisions.iter().take(*at);
            !self.settled.contains_key(&place(revision))
                && before.any(|other| place(other) == place(revision))
        });
        twice.map(|(_, revision)| revision.change.number).collect()
    }

    /// Whether a manager of the crew file before may put this one in force; a reason where not.
    pub(super) fn refuses(&self, crew: &Crew, change: &CrewChange) -> Option<String> {
        let all = || self.revisions.iter().flat_map(|one| one.crew.signers());
        let other = |new: &Signer| {
            all().find(|old| {
                (old.key.is_one_with(&new.key) && old.id != new.id)
                    || (old.id == new.id && old.name != new.name)
            })
        };
        let clash = crew
            .signers()
            .iter()
            .find_map(|new| other(new).map(|old| (new, old)));
        if let Some((new, old)) = clash {
            return Some(format!(
                "{} has the key or the id that {} had; a key and an id are one person's for good",
                new.id, old.id
            ));
        }
        let managers = |one: &&Signer| one.roles.contains(&Role::Manager);
        if crew.signers().iter().filter(managers).count() == 0 {
            return Some("no manager is left in it".to_owned());
        }
        let strangers = change
            .signed_off
            .iter()
            .find(|line| crew.signer(&line.person).is_none());
        strangers.map(|line| format!("{} is signed off and not in it", line.person))
    }

    pub(super) fn push(&mut self, revision: Revision) {
        self.revisions.push(revision);
    }

    pub(super) fn put_in_force_by(&self, statement: &Digest) -> Option<&Revision> {
        self.revisions
            .iter()
            .find(|revision| revision.statement == *statement)
    }

    /// The crew file put in the place of this one, where there is one and no other, or a fork was
    /// settled.
    fn only(&self, before: Option<Digest>) -> Option<&Revision> {
        if let Some(settled) = self.settled.get(&before) {
            return self.put_in_force_by(settled);
        }
        let mut next = self
            .revisions
            .iter()
            .filter(|revision| revision.change.before == before);
        next.next().filter(|_| next.next().is_none())
    }

    /// Every crew file that came after the one this statement put in force: in its place, or by a
    /// statement that stands on this one, as what settles a fork stands on the branch that ends.
    fn after(&self, statement: Digest) -> impl Iterator<Item = &Revision> {
        let mut behind = vec![statement];
        self.revisions.iter().filter(move |revision| {
            let before = revision.change.before;
            let on = self.stands_on.get(&revision.statement);
            let follows = before.is_some_and(|before| behind.contains(&before))
                || on.is_some_and(|on| on.contains(&statement));
            if follows {
                behind.push(revision.statement);
            }
            follows
        })
    }
}
