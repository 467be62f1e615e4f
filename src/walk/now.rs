//! Where a walk stands: the one thing that can be done next.

use crate::walk::state::Standing;
use crate::walk::{Ended, Status, Walk};

/// What is next. One thing at a time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Now {
    /// This step can be begun.
    Next(usize),
    /// This step is begun and wants an answer.
    Open(usize),
    /// This step was answered badly; its branch is worked through.
    Branch(usize),
    /// This step's note wants words.
    Remark(usize),
    /// Every step of this section is answered; it can be stated to be complete.
    SectionEnd(usize),
    /// The walk is left for a while.
    Held,
    /// Something is not clear.
    Unsure,
    /// Every section is complete; the walk can end.
    Finished,
    /// The walk has ended.
    Ended(Ended),
}

impl Walk {
    /// What is next.
    pub fn now(&self) -> Now {
        if let Some(outcome) = self.ended {
            return Now::Ended(outcome);
        }
        match &self.standing {
            Some(Standing::Held { .. }) => Now::Held,
            Some(Standing::Unsure { .. }) => Now::Unsure,
            None => self.at_work(),
        }
    }

    /// The same of a walk that goes on: what a hold or a stop keeps waiting.
    pub fn at_work(&self) -> Now {
        if let Some(active) = self.active {
            return match self.steps.get(active).map(|step| &step.status) {
                Some(Status::Bad { .. }) => Now::Branch(active),
                Some(Status::NoteOwed) => Now::Remark(active),
                _ => Now::Open(active),
            };
        }
        self.next_step()
    }

    /// The section the walk is in: that of the step at hand, else the first not closed.
    pub fn section(&self) -> Option<usize> {
        let at = self.active.or(match self.next_step() {
            Now::Next(index) => Some(index),
            _ => None,
        });
        match at {
            Some(index) => self.plan.steps().get(index).map(|step| step.section),
            None => self.closed.iter().position(|closed| !closed),
        }
    }

    /// What is next when no step is being worked on: first whatever was reopened, then the open
    /// section's own steps; what was put off comes due before the section it was put off to.
    fn next_step(&self) -> Now {
        if let Some(reopened) = self.first_reopened() {
            return Now::Next(reopened);
        }
        for (at, section) in self.plan.sections().iter().enumerate() {
            if self.is_closed(at) {
                continue;
            }
            if let Some(due) = self.deferred_to(&section.id) {
                return Now::Next(due);
            }
            let waiting = (section.first..section.first + section.count)
                .find(|index| self.is_waiting(*index));
            return waiting.map_or(Now::SectionEnd(at), Now::Next);
        }
        // A step may have been put off to a section that was complete by then.
        self.deferred().next().map_or(Now::Finished, Now::Next)
    }

    /// A step asked again, or one of a complete section that came to apply or was laid down.
    fn first_reopened(&self) -> Option<usize> {
        self.steps
            .iter()
            .zip(self.plan.steps())
            .enumerate()
            .position(|(index, (step, planned))| {
                matches!(step.status, Status::Waiting(_))
                    && (!step.answers.is_empty() || self.is_closed(planned.section))
                    && self.left_out(index).is_none()
            })
    }

    fn deferred_to(&self, section: &str) -> Option<usize> {
        self.steps.iter().position(
            |step| matches!(&step.status, Status::Deferred { before, .. } if before == section),
        )
    }

    fn is_waiting(&self, index: usize) -> bool {
        let waits = self
            .steps
            .get(index)
            .is_some_and(|step| matches!(step.status, Status::Waiting(_)));
        waits && self.left_out(index).is_none()
    }
}
