//! Waiting for a long logbook: what only all of its trips together can tell is asked for once they
//! were read, and until then every key is heard.

use crate::desk::Errand;
use crate::tui::lookout::Looking;
use crate::tui::{Action, Model};

impl Looking {
    /// Asks for something at once where all trips were read, else as soon as they are.
    pub(super) fn once_read(&mut self, errand: Errand) -> Option<Errand> {
        if self.unread() == 0 {
            return Some(errand);
        }
        self.wanted = Some(errand);
        None
    }

    /// What was waited for, once all trips were read. A trip that turns out to be one that cannot be
    /// looked at is in no list any more, and is not asked for.
    pub(super) fn wanted(&mut self) -> Option<Errand> {
        if self.unread() > 0 {
            return None;
        }
        let marked = self.marked_trip().map(|trip| trip.folder.clone());
        self.wanted.take().filter(|errand| match errand {
            Errand::OpenTrip { trip } => Some(trip) == marked.as_ref(),
            _ => true,
        })
    }

    /// What a key does while something is waited for; nothing where nothing is.
    pub(super) fn act_waiting(&mut self, action: Action) -> Option<String> {
        if action == Action::Back && self.wanted.take().is_some() {
            return Some("Not waited for any more.".to_owned());
        }
        self.waits()
    }

    /// What is waited for and how much of it there is, in words; nothing where nothing is.
    pub(super) fn waits(&self) -> Option<String> {
        let what = match self.wanted.as_ref()? {
            Errand::OpenTrip { .. } => "The trip is opened",
            _ => "Trends are told",
        };
        let unread = self.unread();
        Some(format!(
            "{what} once all trips were read, {unread} to go. Esc leaves it; other keys do nothing."
        ))
    }

    fn unread(&self) -> usize {
        self.lookout.as_ref().map_or(0, |lookout| lookout.unread)
    }
}

/// Tells that something is waited for, where it is.
pub(super) fn tell(model: &mut Model, waits: Option<String>) {
    model.said = waits.or(model.said.take());
}
