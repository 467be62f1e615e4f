//! What the world answered, taken into the walk on the screen.

use crate::desk::told;
use crate::tui::field::Field;
use crate::tui::walk::Walking;
use crate::tui::{Context, text};
use crate::walk::{Entry, Event, Refusal};

impl Walking {
    /// Takes in what is now on disk, and tells it in a sentence.
    pub(in crate::tui) fn recorded(&mut self, entry: &Entry) -> Option<String> {
        self.walk.apply(entry);
        if let Some(drilling) = &mut self.drill {
            drilling.goes_on(entry);
        }
        self.scroll = 0;
        let parking = matches!(entry.event, Event::Held { .. } | Event::Unsure { .. });
        match self.panel.take() {
            Some(panel) if parking => self.parked = Some(panel),
            // Words about a hold are no reason to forget what was typed before it.
            _ if matches!(entry.event, Event::Noted { .. }) => {}
            _ if matches!(entry.event, Event::Resumed { .. } | Event::Settled { .. }) => {
                self.panel = self.parked.take();
            }
            _ => self.parked = None,
        }
        let time = text::time_of(&entry.at);
        match &entry.event {
            Event::Opened { .. } => {
                self.clear();
                self.take_only_instrument();
                return None;
            }
            Event::Doubted { doubt, .. } => {
                self.field = Field::default();
                return Some(doubt.to_string());
            }
            Event::Answered { step, .. } => {
                self.clear();
                self.answered = self.walk.plan().index(step);
            }
            Event::Resumed {
                look_again,
                stood_ms,
                ..
            }
            | Event::Settled {
                look_again,
                stood_ms,
                ..
            } => {
                self.taken_up = false;
                if !look_again.is_empty() {
                    // The step at hand is begun again, so nothing half typed belongs to it.
                    self.panel = None;
                    self.clear();
                }
                // Where a drill asks where the work goes on, the screen does not say it.
                let asks = self.context() == Context::Returning;
                return (!asks).then(|| back(*stood_ms, look_again.len()));
            }
            Event::Held { .. } | Event::Unsure { .. } | Event::Noted { .. } => {}
            _ => self.clear(),
        }
        // Of a drill that is not kept nothing is recorded.
        let is_kept = self.drill.as_ref().is_none_or(|drill| drill.trip.is_some());
        let done = if is_kept { "Recorded" } else { "Taken" };
        Some(format!("{done} {time}."))
    }

    /// Keeps what was typed. A person who cannot look is not kept: another is asked for.
    pub(in crate::tui) fn refused(&mut self, refusal: &Refusal) {
        if refusal.is_of_second() {
            self.second = None;
        }
    }

    fn clear(&mut self) {
        self.field = Field::default();
        self.instrument = None;
        self.second = None;
        self.answered = None;
    }
}

/// What is said on coming back.
fn back(stood_ms: u64, again: usize) -> String {
    let stood = told::span(stood_ms);
    if again == 0 {
        return format!("Taken up after {stood}. Go on where you were.");
    }
    let steps = if again == 1 { "step is" } else { "steps are" };
    format!("Taken up after {stood}. {again} {steps} looked at again.")
}
