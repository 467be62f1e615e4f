//! What is drawn beside a step of a drill.

use crate::drill::Vantage;
use crate::tui::rig::{Seen, seen};
use crate::tui::walk::Walking;

impl Walking {
    /// The rig as far as it was looked at; nothing where no drill is under way, or no step at hand.
    pub(in crate::tui) fn seen(&self) -> Option<Seen> {
        let drilling = self.drill.as_deref()?;
        let at = self.here().filter(|_| self.panel.is_none())?;
        let looked: Vec<Vantage> = drilling.looked().collect();
        seen(&drilling.run, at, &looked)
    }
}
