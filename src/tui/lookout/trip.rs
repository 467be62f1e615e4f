//! A trip opened: each thing that is not as expected, to be looked at one by one; then the rest.

use crate::desk::{CrewCard, Exception, OpenedTrip, ReadingBeside, went};
use crate::record::{Opinion, counted};
use crate::review::Glance;
use crate::tui::lookout::list::{stands, who};
use crate::tui::lookout::sign::{self, Signing};
use crate::tui::text::escaped;
use crate::tui::theme::Ink;
use crate::tui::{Action, Context};
use crate::walk::{Moment, Words};
use std::collections::BTreeSet;

/// A trip, opened.
#[derive(Clone, Debug)]
pub(super) struct Trip {
    pub(super) told: OpenedTrip,
    glance: Glance,
    /// The name of its folder.
    pub(super) folder: String,
    /// What can be done about it, with the command.
    pub(super) next: String,
    /// The managers who can countersign it here.
    pub(super) managers: Vec<CrewCard>,
    /// Which of what is not as expected has been opened.
    looked: BTreeSet<usize>,
    /// When it was laid out.
    laid: Moment,
    /// Milliseconds it was looked at before it was left and opened again.
    before_ms: u64,
    pub(super) marked: usize,
    pub(super) shown: Shown,
    /// How far it is countersigned, where it is being so.
    pub(super) signing: Option<Signing>,
}

/// What is remembered of a trip that was left, while the program runs.
#[derive(Clone, Debug, Default)]
pub(super) struct Remembered {
    opened: Vec<Exception>,
    looked_ms: u64,
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

impl Trip {
    /// A trip laid out now, with what is remembered of it.
    pub(super) fn new(
        (told, next, managers): (OpenedTrip, String, Vec<CrewCard>),
        (glance, folder): (Glance, String),
        remembered: &Remembered,
        now: Moment,
    ) -> Self {
        let things = told.exceptions.iter().enumerate();
        let looked = things.filter(|(_, thing)| remembered.opened.contains(thing));
        Self {
            looked: looked.map(|(place, _)| place).collect(),
            told,
            glance,
            folder,
            next,
            managers,
            laid: now,
            before_ms: remembered.looked_ms,
            marked: 0,
            shown: Shown::Things,
            signing: None,
        }
    }

    /// What is not as expected.
    pub(super) fn things(&self) -> &[Exception] {
        &self.told.exceptions
    }

    /// What is remembered of it when it is left.
    pub(super) fn remembered(&self, now: &Moment) -> Remembered {
        let opened = self.looked.iter();
        let opened = opened.filter_map(|place| self.things().get(*place).cloned());
        Remembered {
            opened: opened.collect(),
            looked_ms: self.looked_for(now),
        }
    }

    /// Milliseconds for which it has been open.
    pub(super) fn looked_for(&self, now: &Moment) -> u64 {
        self.before_ms.saturating_add(now.since(&self.laid))
    }

    /// What was opened, by name.
    pub(super) fn opened(&self) -> Vec<Words> {
        let opened = self.looked.iter();
        let opened = opened.filter_map(|place| self.things().get(*place));
        opened.map(|thing| thing.named.clone()).collect()
    }

    /// Takes in how it stands now.
    pub(super) fn see(&mut self, glance: Glance) {
        self.glance = glance;
    }

    pub(super) fn context(&self) -> Context {
        if let Some(signing) = &self.signing {
            return signing.context();
        }
        match self.shown {
            Shown::Things => Context::Exceptions,
            Shown::Thing => Context::Exception,
            Shown::Rest => Context::TripRest,
        }
    }

    pub(super) fn offers(&self, action: Action) -> bool {
        let all = self.looked.len() == self.things().len();
        match action {
            Action::Choose => !self.things().is_empty(),
            Action::Agree => all && self.can_be_said(Opinion::Agreed),
            Action::Ask => self.can_be_said(Opinion::Asked),
            _ => true,
        }
    }

    /// Whether there is a manager here who would not be refused for it.
    fn can_be_said(&self, opinion: Opinion) -> bool {
        !self.managers.is_empty() && !self.told.refused.contains(&opinion)
    }

    /// Marks another thing of the list.
    pub(super) fn mark(&mut self, to: usize) {
        self.marked = to.min(self.things().len().saturating_sub(1));
    }

    /// Looks at the marked thing.
    pub(super) fn look(&mut self) {
        if self.marked < self.things().len() {
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
            (
                Ink::Strong,
                sign::heading(self).unwrap_or_else(|| self.count()),
            ),
        ]
    }

    /// `2 of 4 opened`.
    pub(super) fn count_opened(&self) -> String {
        match self.things().len() {
            0 => "nothing to open".to_owned(),
            all => format!("{} of {all} opened", self.looked.len()),
        }
    }

    fn count(&self) -> String {
        match (self.shown, self.things().len()) {
            (_, 0) if self.shown != Shown::Rest => {
                "Everything is as expected: nothing to open".to_owned()
            }
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
        let named = self.things().get(self.marked);
        let step = named.and_then(|thing| thing.named.as_str().rsplit_once(", "));
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

/// `and 2 more lines`, where the list shows the first alone.
pub(super) fn and_more(thing: &Exception) -> String {
    match thing.told.len().saturating_sub(1) {
        0 => String::new(),
        more => format!(", and {} more", counted(more, "line")),
    }
}
