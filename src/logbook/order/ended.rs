//! The trips of histories that a manager's word ended: those it names, and what followed them.

use crate::logbook::order::closings::is_ended;
use crate::logbook::order::device::{History, is};
use crate::logbook::order::witness::{Knowledge, Witness};
use crate::record::{Branch, Digest, Previous, Receipt};
use std::collections::HashMap;
use std::fmt;

/// By which word a history ended.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ended {
    /// The number at which it parted from the one that goes on.
    pub fork: u64,
    /// How that one ends at this number.
    pub goes_on: Previous,
    /// Whose word.
    pub by: Witness,
}

impl History<'_> {
    /// Those trips, each by what it is told from every other by.
    pub(super) fn ended(&self, knowledge: &Knowledge<'_>) -> HashMap<Digest, Ended> {
        let mut ended: HashMap<Digest, Ended> = HashMap::new();
        for trip in self.trips() {
            let seq = trip.stub.seq;
            let behind = |hash: &Digest| knowledge.behind(hash);
            let word = is_ended(&self.closed, seq, |one| is(trip, one), behind);
            let before = self.before(trip);
            let words: Option<Vec<&Ended>> = before.map(|one| ended.get(&one.end())).collect();
            let follows = words.and_then(|words| words.first().copied().cloned());
            let found = match word {
                Some(true) => self.word_on(seq, |one| is(trip, one)),
                Some(false) => None,
                None => follows,
            };
            ended.extend(found.map(|found| (trip.end(), found)));
        }
        ended
    }

    /// The last word by which a history of this number ends.
    fn word_on(&self, seq: u64, is: impl Fn(&Branch) -> bool) -> Option<Ended> {
        let mut words = self.closed.iter().rev();
        let found = words.find(|(fork, _)| fork.seq == seq && fork.ended.iter().any(&is));
        found.map(|(fork, by)| Ended {
            fork: seq,
            goes_on: fork.goes_on.ends,
            by: Witness::of(by),
        })
    }
}

impl fmt::Display for Ended {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { fork, goes_on, by } = self;
        write!(
            f,
            "it is on a history that ended: {by} closed the fork at trip {fork}, and the trip {fork} "
        )?;
        match goes_on {
            Previous::Sealed(seal) => write!(f, "with the receipt {} goes on", Receipt::of(seal)),
            Previous::Unsealed(_) => f.write_str("that was not sealed goes on"),
        }
    }
}
