//! Who had a hand in a walk: nobody countersigns their own work.

use crate::record::{Id, PrintedName, Verified};
use crate::walk::{Event, Given, Words};
use std::collections::BTreeSet;
use std::fmt;

/// What somebody had to do with a walk.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hand {
    /// Read and typed.
    Read,
    /// Did the work, or read an instrument a second time.
    Did,
    /// Looked a second time.
    SecondLook,
    /// Signed for it.
    Signed,
}

/// Whether this person signed, read, did, or checked any of it.
pub fn took_part(trip: &Verified, who: &Id, name: &PrintedName) -> bool {
    hand_in(trip, who, name).is_some()
}

/// What this person had to do with the walk, by id and by name, from its first line to its seal;
/// nothing where that is nothing.
pub fn hand_in(trip: &Verified, who: &Id, name: &PrintedName) -> Option<Hand> {
    let is_named =
        |words: &Words| words.names_whom(name.as_str()) || words.as_str() == who.as_str();
    let signed = trip
        .sealed()
        .is_some_and(|sealed| sealed.person.id == *who || sealed.person.name == *name);
    let begun = trip.begun();
    if signed {
        return Some(Hand::Signed);
    }
    if is_named(trip.actor()) || is_named(&begun.reader) {
        return Some(Hand::Read);
    }
    if is_named(&begun.doer) {
        return Some(Hand::Did);
    }
    trip.entries().iter().find_map(|entry| {
        let named = |names: &[(&Words, Hand)]| {
            let hand = names.iter().find(|(name, _)| is_named(name));
            hand.map(|(_, hand)| *hand)
        };
        let in_event = match &entry.event {
            Event::Answered { doer, given, .. } => match given {
                Given::Seen { by: Some(by), .. } => {
                    named(&[(doer, Hand::Did), (by, Hand::SecondLook)])
                }
                // A second reading has its reader as who did it.
                Given::Read { .. } | Given::Seen { .. } => named(&[(doer, Hand::Did)]),
            },
            Event::HandedOver { reader, doer, .. } => {
                named(&[(reader, Hand::Read), (doer, Hand::Did)])
            }
            _ => None,
        };
        in_event.or_else(|| named(&[(&entry.actor, Hand::Read)]))
    })
}

/// The first name in the walk that `picks`, of whoever read, did or checked any of it.
pub fn first_named(trip: &Verified, picks: impl Fn(&Words) -> bool) -> Option<Words> {
    names(trip).into_iter().find(|name| picks(name)).cloned()
}

/// The names of whoever read, did, checked or signed any of the walk.
pub(super) fn named_in(trip: &Verified) -> BTreeSet<String> {
    let named = names(trip).into_iter().map(ToString::to_string);
    let signed = trip.sealed().map(|sealed| sealed.person.name.to_string());
    named.chain(signed).collect()
}

fn names(trip: &Verified) -> Vec<&Words> {
    let begun = trip.begun();
    let mut names = vec![trip.actor(), &begun.reader, &begun.doer];
    for entry in trip.entries() {
        names.push(&entry.actor);
        match &entry.event {
            Event::Answered { doer, given, .. } => {
                names.push(doer);
                if let Given::Seen { by: Some(by), .. } = given {
                    names.push(by);
                }
            }
            Event::HandedOver { reader, doer, .. } => names.extend([reader, doer]),
            _ => {}
        }
    }
    names
}

impl fmt::Display for Hand {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Read => "read and typed in it",
            Self::Did => "did or checked some of it",
            Self::SecondLook => "looked a second time in it",
            Self::Signed => "signed it",
        })
    }
}
