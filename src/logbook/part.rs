//! Who took part in a walk.

use crate::record::{Id, PrintedName, Verified};
use crate::walk::{Event, Given, Words};

/// Whether this person signed, read, did, or checked any of it: nobody countersigns their own.
pub fn took_part(trip: &Verified, who: &Id, name: &PrintedName) -> bool {
    let signed = trip
        .sealed()
        .is_some_and(|sealed| sealed.person.id == *who || sealed.person.name == *name);
    let begun = trip.begun();
    let named = |words: &Words| words.names_whom(name.as_str());
    let first = [&begun.reader, &begun.doer, trip.actor()];
    signed
        || first.into_iter().any(named)
        || trip.entries().iter().any(|entry| {
            named(&entry.actor)
                || match &entry.event {
                    Event::Answered { doer, given, .. } => {
                        let by = match given {
                            Given::Seen { by, .. } => by.as_ref(),
                            Given::Read { .. } => None,
                        };
                        named(doer) || by.is_some_and(named)
                    }
                    Event::HandedOver { reader, doer, .. } => named(reader) || named(doer),
                    _ => false,
                }
        })
}
