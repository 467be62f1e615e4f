//! A fork of the roster, and how it ends: two managers who were both out of reach changed the same
//! crew file. A later crew statement that stands on every branch, and goes on with one, settles it.

use crate::record::{Digest, Revision, Roster};
use std::collections::{HashMap, HashSet};

/// A crew statement that stands on every branch of a fork.
struct Word {
    statement: Digest,
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
        ends.filter(|end| from.is_none_or(|from| self.row(end).any(|one| one == from)))
            .collect()
    }

    /// Settles every fork that a later statement has a word on. Of several words those count that
    /// stand behind no other; where they disagree, nothing is chosen.
    pub(in crate::record) fn settle(&mut self, behind: impl Fn(&Digest) -> HashSet<Digest>) {
        let mut branches: HashMap<Option<Digest>, Vec<Digest>> = HashMap::new();
        for one in self.revisions() {
            let branches = branches.entry(one.change.before).or_default();
            branches.push(one.statement);
        }
        for (before, branches) in branches {
            if branches.len() < 2 {
                continue;
            }
            let words = self.revisions().iter().filter_map(|one| {
                let behind = behind(&one.statement);
                let goes_on = self.row(one).find(|row| branches.contains(row))?;
                let on_all = branches.iter().all(|branch| behind.contains(branch));
                on_all.then_some(Word {
                    statement: one.statement,
                    goes_on,
                    behind,
                })
            });
            let words: Vec<Word> = words.collect();
            let last = |word: &&Word| {
                let mut others = words.iter();
                !others.any(|other| {
                    other.statement != word.statement && other.behind.contains(&word.statement)
                })
            };
            let mut last = words.iter().filter(last).map(|word| word.goes_on);
            if let Some(goes_on) = last.next()
                && last.all(|other| other == goes_on)
            {
                self.settled.insert(before, goes_on);
            }
        }
    }

    /// This crew file's statement and those it was put in the place of, the newest first.
    fn row<'a>(&'a self, from: &'a Revision) -> impl Iterator<Item = Digest> + 'a {
        let before = |one: &&'a Revision| self.put_in_force_by(&one.change.before?);
        std::iter::successors(Some(from), before).map(|one| one.statement)
    }
}
