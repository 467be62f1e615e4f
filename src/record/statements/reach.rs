//! Which crew statements each statement stands on: asked of every statement and every trip, so it is
//! reckoned once.

use crate::record::{Digest, Roster, Stated};
use std::collections::{HashMap, HashSet};

/// A bit for each crew file of the roster, for each statement in its order.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Reach(Vec<Vec<u64>>);

const BITS: usize = 64;

impl Reach {
    /// Of statements each of which comes behind those it names. Nothing where every crew file was put
    /// in force once: then nobody asks.
    pub(super) fn of(stated: &[Stated], places: &HashMap<Digest, usize>, roster: &Roster) -> Self {
        let revisions = roster.revisions();
        let files: HashSet<&Digest> = revisions.iter().map(|one| &one.change.file).collect();
        if files.len() == revisions.len() {
            return Self::default();
        }
        let crews = revisions.iter().enumerate();
        let crews: HashMap<Digest, usize> = crews.map(|(at, one)| (one.statement, at)).collect();
        let mut reach = Self(Vec::with_capacity(stated.len()));
        for one in stated {
            let mut own = vec![0; revisions.len().div_ceil(BITS)];
            for named in one.names() {
                let behind = places.get(&named).and_then(|at| reach.0.get(*at));
                for (word, behind) in own.iter_mut().zip(behind.into_iter().flatten()) {
                    *word |= *behind;
                }
            }
            let at = crews.get(&one.hash());
            if let Some((word, bit)) = at.and_then(|at| Some((own.get_mut(at / BITS)?, at % BITS)))
            {
                *word |= 1_u64 << bit;
            }
            reach.0.push(own);
        }
        reach
    }

    /// Whether the statement in this place is, or stands on, the one that put that crew file in force.
    pub(super) fn holds(&self, statement: usize, crew: usize) -> bool {
        let row = self.0.get(statement);
        let word = row.and_then(|row| row.get(crew / BITS));
        word.is_some_and(|word| word >> (crew % BITS) & 1 == 1)
    }
}
