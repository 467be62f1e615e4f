//! A trip opened: each thing that is not as expected, to be looked at one by one; then the rest.

use crate::desk::{OpenedTrip, ReadingBeside, went};
use crate::record::counted;
use crate::review::{Glance, Weight};
use crate::tui::lookout::list::{stands, who};
use crate::tui::text::escaped;
use crate::tui::theme::Ink;
use crate::tui::{Action, Context};
use std::collections::BTreeSet;

/// A trip, opened.
#[derive(Clone, Debug)]
pub(super) struct Trip {
    pub(super) told: OpenedTrip,
    glance: Glance,
    /// What can be done about it, with the command.
    pub(super) next: String,
    pub(super) things: Vec<Thing>,
    /// Which of them have been looked at.
    looked: BTreeSet<usize>,
    pub(super) marked: usize,
    pub(super) shown: Shown,
}

/// What of it is on the screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Shown {
    /// The list of what is not as expected.
    Things,
    /// The marked one of them.
    Thing,
    /// How it went, what was read, who signed.
    Rest,
}

/// One thing to look at.
#[derive(Clone, Debug)]
pub(super) struct Thing {
    /// What kind of thing, or where in the record.
    pub(super) named: String,
    /// What it is, a line each; the first stands for it in the list.
    pub(super) told: Vec<String>,
}

impl Trip {
    pub(super) fn new(told: OpenedTrip, next: String, glance: Glance) -> Self {
        let things = things(&told, &glance);
        Self {
            told,
            glance,
            next,
            things,
            looked: BTreeSet::new(),
            marked: 0,
            shown: Shown::Things,
        }
    }

    pub(super) fn context(&self) -> Context {
        match self.shown {
            Shown::Things => Context::Exceptions,
            Shown::Thing => Context::Exception,
            Shown::Rest => Context::TripRest,
        }
    }

    pub(super) fn offers(&self, action: Action) -> bool {
        action != Action::Choose || !self.things.is_empty()
    }

    /// Marks another thing of the list.
    pub(super) fn mark(&mut self, to: usize) {
        self.marked = to.min(self.things.len().saturating_sub(1));
    }

    /// Looks at the marked thing.
    pub(super) fn look(&mut self) {
        if self.marked < self.things.len() {
            self.looked.insert(self.marked);
            self.shown = Shown::Thing;
        }
    }

    pub(super) fn is_looked_at(&self, place: usize) -> bool {
        self.looked.contains(&place)
    }

    /// What the trip is, and how much of what is not as expected was opened.
    pub(super) fn heading(&self) -> Vec<(Ink, String)> {
        let glance = &self.glance;
        let first = format!(
            "{}, {}, {}",
            glance.at.format("%a %-d %b %Y %H:%M"),
            escaped(&glance.rig),
            escaped(&glance.title)
        );
        let second = format!("{}; {}; {}", stands(glance), glance.ended_as(), who(glance));
        vec![
            (Ink::Strong, first),
            (Ink::Body, second),
            (Ink::Strong, self.count()),
        ]
    }

    fn count(&self) -> String {
        match (self.shown, self.things.len()) {
            (_, 0) if self.shown != Shown::Rest => "Nothing is otherwise than expected".to_owned(),
            (_, 0) => "How it went, what was read, who signed".to_owned(),
            (Shown::Rest, all) => format!(
                "How it went and what was read ({} of {all} opened)",
                self.looked.len()
            ),
            (Shown::Things, all) => {
                format!("Not as expected: {} of {all} opened", self.looked.len())
            }
            (Shown::Thing, all) => format!(
                "Not as expected: number {} of {all} ({} opened)",
                self.marked + 1,
                self.looked.len()
            ),
        }
    }

    /// The readings of the step that the marked thing is about, each beside its limit.
    pub(super) fn readings(&self) -> Vec<Vec<String>> {
        let named = self.things.get(self.marked).map(|thing| &thing.named);
        let step = named.and_then(|named| named.rsplit_once(", "));
        let Some((_, step)) = step else {
            return Vec::new();
        };
        let readings = self.told.readings.iter();
        let readings = readings.filter(|reading| reading.step == step);
        readings.map(ReadingBeside::told).collect()
    }

    /// How it went, a line each.
    pub(super) fn timeline(&self) -> impl Iterator<Item = String> {
        self.told.timeline.iter().map(went)
    }
}

/// What verification finds comes first, then the exceptions as they are ordered, then what there is
/// to ask.
fn things(told: &OpenedTrip, glance: &Glance) -> Vec<Thing> {
    let found = (glance.weight() == Weight::Doubtful).then(|| Thing {
        named: "what verification found".to_owned(),
        told: told.tale.findings.clone(),
    });
    let exceptions = told.exceptions.iter().map(|exception| Thing {
        named: exception.named.to_string(),
        told: exception.told.clone(),
    });
    let asked = told.asked.iter().map(|question| Thing {
        named: "a question, and no more than that".to_owned(),
        told: vec![question.clone()],
    });
    found.into_iter().chain(exceptions).chain(asked).collect()
}

/// `and 2 more lines`, where the list shows the first alone.
pub(super) fn and_more(thing: &Thing) -> String {
    match thing.told.len().saturating_sub(1) {
        0 => String::new(),
        more => format!(", and {} more", counted(more, "line")),
    }
}
