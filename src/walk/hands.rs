//! Whose hands a walk was in.

use crate::walk::{Entry, Event, Words};

/// Who read and typed or did the work, by name: as it began, and whom it was handed to. A second
/// look or reading at some of its steps is not among it.
pub fn hands<'w>(
    (reader, doer): (&'w Words, &'w Words),
    entries: &'w [Entry],
) -> impl Iterator<Item = &'w Words> {
    let handed = entries.iter().filter_map(|entry| match &entry.event {
        Event::HandedOver { reader, doer, .. } => Some([reader, doer]),
        _ => None,
    });
    [reader, doer].into_iter().chain(handed.flatten())
}
