//! The drill room: who learns, how far they are, and every way to begin a drill.

mod lines;
mod reached;
mod update;
mod view;

pub(super) use update::{act, paste};
pub(super) use view::{body, heading};

use crate::desk::{CrewCard, DrillRoom, Learner};
use crate::drill::Stage;
use crate::tui::field::Field;
use crate::tui::{Action, Context};

/// The drill room on the screen.
#[derive(Clone, Debug, Default)]
pub(super) struct Room {
    pub(super) page: Page,
    /// The marked line. None at first, so that Enter alone does nothing.
    marked: Option<usize>,
    pub(super) scroll: usize,
    /// The stage a drill is played at, where one is named.
    stage: Option<Stage>,
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
}

/// What there is to drill with, as last looked at, and who learns.
#[derive(Clone, Debug)]
pub(super) struct Drills {
    pub(super) room: DrillRoom,
    /// Everyone whose drills are recorded here.
    pub(super) crew: Vec<CrewCard>,
    /// Who learns, by printed name. Nobody is chosen beforehand.
    pub(super) learner: Option<String>,
}

impl Drills {
    /// The room as it is now; who was chosen before stays chosen.
    pub(super) fn seen(room: DrillRoom, before: Option<&Self>) -> Self {
        let crew: Vec<CrewCard> = room.learners.iter().map(|one| one.who.clone()).collect();
        let learner = before.and_then(|before| before.learner.clone());
        let learner = learner.filter(|name| crew.iter().any(|card| card.name == *name));
        Self {
            room,
            crew,
            learner,
        }
    }

    /// Who learns.
    pub(super) fn learner(&self) -> Option<&Learner> {
        let name = self.learner.as_ref()?;
        self.room.learners.iter().find(|one| one.who.name == *name)
    }

    /// Whether a drill can begin: nobody has to be named, or somebody is.
    pub(super) fn is_ready(&self) -> bool {
        self.room.learners.is_empty() || self.learner().is_some()
    }
}

impl Room {
    pub(super) fn context(&self) -> Context {
        match &self.page {
            Page::Front => Context::DrillRoom,
            Page::Families => Context::DrillFamilies,
            Page::Titles(..) => Context::DrillTitles,
            Page::Reached => Context::DrillReached,
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
