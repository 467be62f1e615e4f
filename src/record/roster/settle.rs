//! A fork of the roster, and how it ends: two managers who were both out of reach changed the same
//! crew file. A later crew statement that stands on every branch, and goes on with one, settles it.

use crate::record::{Crew, Digest, Id, Revision, Role, Roster};
use std::collections::{HashMap, HashSet};

/// A crew statement that stands on every branch of a fork.
struct Word<'r> {
    statement: Digest,
    by: Id,
    crew: &'r Crew,
    /// The branch it goes on with.
    goes_on: Digest,
    behind: HashSet<Digest>,
}

impl Roster {
    /// The last crew file of each branch, where the roster forks and nothing has settled it.
    pub fn branches(&self) -> Vec<&Revision> {
        if self.forks().is_empty() {
            return Vec::new();
        }
        let from = self.in_force().map(|now| now.statement);
        let named = |one: &Revision| {
            let mut all = self.revisions().iter();
            all.any(|other| other.change.before == Some(one.statement))
        };
        let ends = self.revisions().iter().filter(|one| !named(one));
        ends.filter(|end| from.is_none_or(|from| self.row(end).any(|one| one.statement == from)))
            .collect()
    }

    /// Settles every fork that a later statement has a word on. Of several words those count that
    /// stand behind no other; where they disagree, nothing is chosen. A word counts for nothing
    /// whose manager was none any more by another it stands on: whoever was put out by what was
    /// settled does not settle it anew.
    pub(in crate::record) fn settle(
        &mut self,
        by: impl Fn(&Digest) -> Option<Id>,
        behind: impl Fn(&Digest) -> HashSet<Digest>,
    ) {
        let mut branches: HashMap<Option<Digest>, Vec<Digest>> = HashMap::new();
        for one in self.revisions() {
            let branches = branches.entry(one.change.before).or_default();
            branches.push(one.statement);
        }
        branches.retain(|_, branches| branches.len() > 1);
        if branches.is_empty() {
            return;
        }
        let all: HashSet<Digest> = self.revisions().iter().map(|one| one.statement).collect();
        let others = |one: &Digest| {
            let behind = behind(one);
            let others = behind.intersection(&all).filter(|other| *other != one);
            (*one, others.copied().collect::<HashSet<_>>())
        };
        let stands_on = all.iter().map(others).collect();
        let mut settled = HashMap::new();
        for (before, branches) in branches {
            let words = self.revisions().iter().filter_map(|one| {
                let behind = behind(&one.statement);
                let mut row = self.row(one).map(|one| one.statement);
                let goes_on = row.find(|row| branches.contains(row))?;
                let on_all = branches.iter().all(|branch| behind.contains(branch));
                let by = by(&one.statement).filter(|_| on_all)?;
                Some(Word {
                    statement: one.statement,
                    by,
                    crew: &one.crew,
                    goes_on,
                    behind,
                })
            });
            let all: Vec<Word<'_>> = words.collect();
            let counts = |word: &&Word<'_>| word.is_by_a_manager_of(&all);
            let words: Vec<&Word<'_>> = all.iter().filter(counts).collect();
            let last = |word: &&&Word<'_>| !words.iter().any(|other| other.stands_on(word));
            let mut last = words.iter().filter(last).map(|word| word.goes_on);
            if let Some(goes_on) = last.next()
                && last.all(|other| other == goes_on)
            {
                settled.insert(before, goes_on);
            }
        }
        (self.settled, self.stands_on) = (settled, stands_on);
    }

    /// This crew file and those it was put in the place of, the newest first.
    pub(super) fn row<'a>(&'a self, from: &'a Revision) -> impl Iterator<Item = &'a Revision> {
        let before = |one: &&'a Revision| self.put_in_force_by(&one.change.before?);
        std::iter::successors(Some(from), before)
    }
}

impl Word<'_> {
    fn stands_on(&self, other: &Self) -> bool {
        self.statement != other.statement && self.behind.contains(&other.statement)
    }

    /// Whether its manager is one by each of these that it stands on.
    fn is_by_a_manager_of(&self, all: &[Self]) -> bool {
        let manages = |crew: &Crew| {
            let own = crew.signer(&self.by);
            own.is_some_and(|own| own.roles.contains(&Role::Manager))
        };
        let mut before = all.iter().filter(|other| self.stands_on(other));
        before.all(|other| manages(other.crew))
    }
}
