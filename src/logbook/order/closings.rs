//! What managers say of the histories of a fork. Of two who closed it without knowing of each other
//! neither is put above the other; a later word that stands on both counts in their place.

use crate::logbook::order::fault::Ends;
use crate::logbook::order::witness::Witness;
use crate::record::{Branch, Digest, ForkClosed, Id, Says, Stated, Statements};
use std::collections::HashSet;
use std::fmt;

/// A fork that a manager closed, and by which statement.
pub type Closing<'s> = (&'s ForkClosed, &'s Stated);

/// The forks of a device that managers closed whose word counts.
pub fn closings<'s>(statements: &'s Statements, device: &Id) -> Vec<Closing<'s>> {
    let closed = statements
        .counting()
        .filter_map(|stated| match &stated.statement().says {
            Says::ForkClosed(fork) if fork.device == *device => Some((fork, stated)),
            _ => None,
        });
    closed.collect()
}

/// A manager's word that a history goes on, where another says otherwise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GoesOn {
    /// Whose word.
    pub by: Witness,
    /// The history.
    pub history: Branch,
}

/// The last words on this number, those that no other stands on.
pub fn last_closings<'c, 's>(
    closings: &'c [Closing<'s>],
    seq: u64,
    behind: impl Fn(&Digest) -> HashSet<Digest>,
) -> Vec<&'c Closing<'s>> {
    let of_number = || closings.iter().filter(|(fork, _)| fork.seq == seq);
    let stood_on = |one: &Stated| {
        let mut others = of_number().filter(|(_, other)| other.hash() != one.hash());
        others.any(|(_, other)| behind(&other.hash()).contains(&one.hash()))
    };
    of_number().filter(|(_, one)| !stood_on(one)).collect()
}

/// What managers say of a fork, where their last words go on with different histories.
pub(super) fn at_odds(last: &[&Closing<'_>]) -> Vec<GoesOn> {
    let mut goes_on = last.iter().map(|(fork, _)| &fork.goes_on);
    let first = goes_on.next();
    if goes_on.all(|other| Some(other) == first) {
        return Vec::new();
    }
    let said = last.iter().map(|(fork, by)| GoesOn {
        by: Witness::of(by),
        history: fork.goes_on.clone(),
    });
    said.collect()
}

impl fmt::Display for GoesOn {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { by, history } = self;
        let said = by.clock.moment().format("%Y-%m-%d %H:%M %:z");
        let (trip, ends) = (&history.trip, Ends(history.ends));
        write!(f, "{} said on {said} that {trip} ({ends}) goes on", by.name)
    }
}

/// Whether managers say that a history of this number ends; nothing where none names it. `is`
/// tells it among those they name. The last words count, which none other that names it stands on;
/// where one of these goes on with it, it does not end.
pub fn is_ended(
    closings: &[Closing<'_>],
    seq: u64,
    is: impl Fn(&Branch) -> bool,
    behind: impl Fn(&Digest) -> HashSet<Digest>,
) -> Option<bool> {
    let of_number = closings.iter().filter(|(fork, _)| fork.seq == seq);
    let naming: Vec<&Closing<'_>> = of_number
        .filter(|(fork, _)| is(&fork.goes_on) || fork.ended.iter().any(&is))
        .collect();
    let stands_on = |later: &Stated, one: &Stated| {
        later.hash() != one.hash() && behind(&later.hash()).contains(&one.hash())
    };
    let last = naming
        .iter()
        .filter(|(_, one)| !naming.iter().any(|(_, other)| stands_on(other, one)));
    let goes_on = last.map(|(fork, _)| is(&fork.goes_on));
    goes_on.reduce(|one, other| one || other).map(|goes| !goes)
}
