//! What managers say of the histories of a fork. Of two who closed it without knowing of each other
//! neither is put above the other; a later word that stands on both counts in their place.

use crate::record::{Branch, Digest, ForkClosed, Id, Says, Stated, Statements};
use std::collections::HashSet;

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
