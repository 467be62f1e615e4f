//! The drill room: who learns, how far they are, and every way to begin a drill.

mod begin;
mod lines;
mod reached;
mod ride;
mod update;
mod view;

pub(super) use begin::seen;
pub(super) use update::{act, paste};
pub(super) use view::{body, heading};

use crate::desk::{CrewCard, DrillRoom, DrillWanted, Learner, WhichDrill};
use crate::tui::field::Field;
use crate::tui::{Action, Context};

/// The drill room on the screen.
#[derive(Clone, Debug, Default)]
pub(super) struct Room {
    pub(super) page: Page,
    /// The marked line. None at first, so that Enter alone does nothing.
    marked: Option<usize>,
    pub(super) scroll: usize,
    /// What was asked for where the program was started, and is not begun yet; and the stage and
    /// the seed of the next drill, where they are named.
    wanted: DrillWanted,
}

/// What of it is shown.
#[derive(Clone, Debug, Default)]
pub(super) enum Page {
    /// Who learns, and where to begin.
    #[default]
    Front,
    /// What drills are about.
    Families,
    /// The scenarios by title, found by their words; none is marked at first.
    Titles(Field, Option<usize>),
    /// How far the learner is, section by section.
    Reached,
    /// Which checklist is ridden.
    Rides,
    /// Who examines the ride of this checklist.
    Examiners(String),
    /// What a check ride is passed by, before it begins.
    BeforeRide { list: String, examiner: String },
}

/// Who learns.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) enum Who {
    /// It was not said yet.
    #[default]
    Unsaid,
    /// Nobody, so that nothing is recorded.
    Nobody,
    /// Who has this printed name.
    One(String),
}

/// What there is to drill with, as last looked at, and who learns.
#[derive(Clone, Debug)]
pub(super) struct Drills {
    pub(super) room: DrillRoom,
    /// Everyone whose drills are recorded here.
    pub(super) crew: Vec<CrewCard>,
    /// Who learns. Nobody is chosen beforehand.
    pub(super) who: Who,
}

impl Drills {
    /// The room as it is now; who was chosen before stays chosen.
    pub(super) fn seen(room: DrillRoom, before: Option<&Self>) -> Self {
        let crew: Vec<CrewCard> = room.learners.iter().map(|one| one.who.clone()).collect();
        let is_there = |who: &Who| match who {
            Who::One(name) => crew.iter().any(|card| card.name == *name),
            Who::Unsaid | Who::Nobody => true,
        };
        let who = before.map(|before| before.who.clone()).filter(is_there);
        let who = who.unwrap_or_default();
        Self { room, crew, who }
    }

    /// The printed name of who learns.
    pub(super) fn name(&self) -> Option<&str> {
        match &self.who {
            Who::One(name) => Some(name),
            Who::Unsaid | Who::Nobody => None,
        }
    }

    /// Who learns.
    pub(super) fn learner(&self) -> Option<&Learner> {
        let name = self.name()?;
        self.room.learners.iter().find(|one| one.who.name == name)
    }

    /// Whether a drill can begin: it is said who learns, or nobody can.
    pub(super) fn is_ready(&self) -> bool {
        self.room.learners.is_empty() || self.who != Who::Unsaid
    }
}

impl Room {
    /// The room in which this was asked for.
    pub(super) fn wanting(wanted: DrillWanted) -> Self {
        Self {
            wanted,
            ..Self::default()
        }
    }

    /// The drill that begins once it is said who learns.
    fn pending(&self) -> Option<&WhichDrill> {
        self.wanted.which.as_ref()
    }

    pub(super) fn context(&self) -> Context {
        match &self.page {
            Page::Front => Context::DrillRoom,
            Page::Families => Context::DrillFamilies,
            Page::Titles(..) => Context::DrillTitles,
            Page::Reached => Context::DrillReached,
            Page::Rides | Page::Examiners(_) => Context::RideChoice,
            Page::BeforeRide { .. } => Context::BeforeRide,
        }
    }

    pub(super) fn typed(&self) -> &str {
        match &self.page {
            Page::Titles(field, _) => field.text(),
            _ => "",
        }
    }

    /// Whether an action its context has in general is valid now.
    pub(super) fn offers(&self, action: Action, drills: Option<&Drills>) -> bool {
        let ready = drills.is_some_and(Drills::is_ready);
        match action {
            Action::OtherStage => ready,
            Action::Choose => self.marked.is_some(),
            Action::Pick => drills.is_some(),
            _ => true,
        }
    }
}
