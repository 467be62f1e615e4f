//! The clock held to what the logbook knows, and time the laptop slept.
//!
//! Sleep is told to the person and not written into the journal: a line there is an act of whoever
//! is at the keys, in their name, and nobody did this one. The record shows it all the same, since
//! the count beside each line goes on while the laptop sleeps.

use crate::cli::clerk::{Books, Clerk};
use crate::logbook::{LookAtClock, Thresholds};
use crate::record::{Envelope, Id};
use crate::store::{Disk, JournalText};
use crate::walk::Moment;

/// A shorter nap is a lid that was bumped.
const NAP_MS: u64 = 60_000;

impl<D: Disk> Clerk<D> {
    /// What to tell of the clock before a walk is begun. The newest line of each laptop is read
    /// for it, and not verified: nothing rests on it but this sentence.
    pub(super) fn look_at_clock(&self, books: &Books<D>) -> Option<String> {
        let devices = books.logbook.devices().ok()?;
        let newest: Vec<(Id, Moment)> = devices
            .into_iter()
            .filter_map(|device| newest(books, &device).map(|moment| (device, moment)))
            .collect();
        let own = books.device().ok();
        let here = newest
            .iter()
            .find(|(device, _)| Some(device) == own.as_ref());
        let here = here.map(|(_, moment)| moment);
        let all = newest.iter().map(|(_, moment)| moment);
        let look = LookAtClock::of(&self.world.now(), here, all, &Thresholds::default());
        look.map(|look| look.to_string())
    }

    /// Takes note of how long the laptop has slept since it was last asked, and tells of more than
    /// a nap.
    pub(super) fn wake(&mut self) {
        let slept = self.world.slept_ms();
        let since = slept.saturating_sub(self.slept_ms);
        self.slept_ms = slept;
        if let Some(open) = self.open.as_ref().filter(|_| since > NAP_MS) {
            self.notices.push(format!(
                "The laptop slept for {} min in the midst of trip {}. Whether the rig was out of \
                 sight meanwhile is for you to say; a hold has the steps looked at again.",
                since / 60_000,
                super::around::trip_name(&open.folder)
            ));
        }
    }
}

/// The last moment in the newest journal of a laptop that has one.
fn newest<D: Disk>(books: &Books<D>, device: &Id) -> Option<Moment> {
    let trips = books.logbook.trips(device).ok()?.trips;
    trips.iter().rev().find_map(|folder| {
        let text = JournalText::read(books.logbook.disk(), &folder.journal()).ok()?;
        let last = text
            .lines
            .trim_ascii_end()
            .rsplit(|byte| *byte == b'\n')
            .next()?;
        Some(Envelope::read(last).ok()?.heading.at())
    })
}
