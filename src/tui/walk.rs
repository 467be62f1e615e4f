//! The walk on the screen: the machine's own state, and what is typed and not yet handed in.

mod ask;
mod ending;
mod outcome;
mod panel;
mod place;
mod recorded;
mod standing;
mod steps;
mod update;
mod view;
mod why;

pub(super) use ask::lettered;
pub(super) use place::heading;
pub(super) use steps::{MARKS, list, mark};
pub(super) use update::{Done, act};
pub(super) use view::{body, choices, work};

use crate::barn::ForWalk;
use crate::checklist::{PlannedAsk, PlannedStep, StepKey, Tool, only_tool};
use crate::desk::{Approval, Asked};
use crate::record::Mode;
use crate::tui::drill::Drilling;
use crate::tui::field::Field;
use crate::tui::{Action, Context};
use crate::walk::{Act, Ended, Moment, Now, Walk};

/// A walk on the screen.
#[derive(Clone, Debug)]
pub(super) struct Walking {
    /// The walk as the journal tells it: it changes by recorded events only.
    pub(super) walk: Walk,
    pub(super) trip: String,
    pub(super) mode: Mode,
    pub(super) standing: Approval,
    /// What the barn has set for its walks.
    pub(super) barn: ForWalk,
    /// Whether it was just taken up after the program was closed, and nobody has read yet where
    /// it stands.
    pub(super) taken_up: bool,
    /// What is typed for the reading or the remark.
    pub(super) field: Field,
    /// The instrument chosen for the open step.
    pub(super) instrument: Option<String>,
    /// The second person named for the open step.
    pub(super) second: Option<String>,
    /// The step whose answer is shown.
    pub(super) answered: Option<usize>,
    /// What lies over the step.
    pub(super) panel: Option<Panel>,
    /// What lay over the step when the walk was held.
    pub(super) parked: Option<Panel>,
    pub(super) scroll: usize,
    /// The drill it is the walk of, where it is one.
    pub(super) drill: Option<Box<Drilling>>,
}

/// What lies over the step.
#[derive(Clone, Debug)]
pub(super) enum Panel {
    /// Words are typed.
    Words(Purpose, Field),
    /// A done step is chosen.
    TakeBack { marked: usize },
    /// What stands behind the limits of this step is read.
    Why(usize, Asked),
    /// The people who take over are chosen: who reads is known, or not yet.
    GiveOver { reader: Option<String> },
}

/// What words are for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Purpose {
    PutRight,
    PutOff,
    Note,
    Settle,
    TakeBack(StepKey),
    SecondName,
    /// The word that names how the walk ends.
    EndAs,
    /// Why it ends so.
    EndWhy(Ended),
    /// What a learner will do otherwise next time.
    Learn,
}

impl Walking {
    pub(super) fn new(walk: Walk, trip: String, mode: Mode, standing: Approval) -> Self {
        let mut walking = Self {
            walk,
            trip,
            mode,
            standing,
            barn: ForWalk::default(),
            taken_up: false,
            field: Field::default(),
            instrument: None,
            second: None,
            answered: None,
            panel: None,
            parked: None,
            scroll: 0,
            drill: None,
        };
        walking.take_only_instrument();
        walking
    }

    pub(super) fn typed(&self) -> &str {
        match &self.panel {
            Some(Panel::Words(_, field)) => field.text(),
            _ => self.field.text(),
        }
    }

    pub(super) fn context(&self) -> Context {
        match &self.panel {
            Some(Panel::Words(..)) => return Context::Words,
            Some(Panel::Why(..)) => return Context::Why,
            Some(Panel::TakeBack { .. }) => return Context::TakeBack,
            Some(Panel::GiveOver { .. }) => return Context::GiveOver,
            None => {}
        }
        if let Some(context) = self.drill_context() {
            return context;
        }
        match self.now() {
            Now::Held => Context::Held,
            Now::Unsure => Context::Unsure,
            Now::Branch(_) => Context::Branch,
            Now::Remark(_) => Context::Remark,
            _ if self.answered.is_some() => Context::Outcome,
            Now::Next(_) => Context::Next,
            Now::Open(at) => self.answer_context(at),
            Now::SectionEnd(_) => Context::SectionEnd,
            Now::Finished | Now::Ended(_) => Context::Finished,
        }
    }

    /// Where the walk stands; taken up and not yet looked at counts as held.
    pub(super) fn now(&self) -> Now {
        match self.walk.now() {
            Now::Ended(outcome) => Now::Ended(outcome),
            Now::Unsure => Now::Unsure,
            _ if self.taken_up => Now::Held,
            now => now,
        }
    }

    pub(super) fn answer_context(&self, at: usize) -> Context {
        match self.walk.step(at).map(|(planned, _)| &planned.ask) {
            Some(PlannedAsk::Reading { ask, .. }) if ask.second && self.second.is_none() => {
                Context::Second
            }
            Some(PlannedAsk::Reading { .. }) if self.instrument.is_none() => Context::Instrument,
            Some(PlannedAsk::Reading { .. }) => Context::Reading,
            Some(PlannedAsk::Independent(_)) if self.second.is_none() => Context::Second,
            _ => Context::Sighting,
        }
    }

    /// Whether an action its context has in general is valid at this very place.
    pub(super) fn offers(&self, action: Action, now: &Moment) -> bool {
        let allowed = |act: &Act| self.walk.decide(act, now).is_ok();
        let words = || "words".to_owned();
        if let Some(offered) = self.drill_offers(action) {
            return offered;
        }
        match action {
            Action::Hold => allowed(&Act::Hold {
                why: String::new(),
                next: String::new(),
            }),
            Action::Unsure => allowed(&Act::Unsure {
                words: String::new(),
            }),
            Action::PutRight => allowed(&Act::PutRight { words: words() }),
            Action::PutOff => !self.pausing() && allowed(&Act::Defer { words: words() }),
            Action::TakeBack => !self.done_here().is_empty(),
            Action::End => !self.pausing() || matches!(self.context(), Context::Branch),
            Action::Back => match self.context() {
                Context::Sighting | Context::Instrument => self.second.is_some(),
                Context::Reading => self.tools().len() > 1 || self.second.is_some(),
                _ => true,
            },
            _ => true,
        }
    }

    /// Whether the section at hand is one in which everything else stops.
    pub(super) fn pausing(&self) -> bool {
        let running = !matches!(self.now(), Now::Held | Now::Unsure);
        let section = self
            .walk
            .section()
            .and_then(|at| self.walk.plan().sections().get(at));
        running && section.is_some_and(|section| section.pause)
    }

    /// The step at hand: the one answered, else the open or next one.
    pub(super) fn at_hand(&self) -> Option<usize> {
        self.answered.or(match self.walk.now() {
            Now::Next(at) | Now::Open(at) | Now::Branch(at) | Now::Remark(at) => Some(at),
            _ => None,
        })
    }

    pub(super) fn planned(&self, at: usize) -> Option<&PlannedStep> {
        self.walk.plan().steps().get(at)
    }

    /// The instruments of the kind the step at hand asks for, those refused among them.
    pub(super) fn tools(&self) -> Vec<Tool<'_>> {
        let asked = self.at_hand().and_then(|at| self.walk.asked(at));
        asked.map_or_else(Vec::new, |asked| asked.tools(self.walk.plan().rig()))
    }

    /// Done steps of the section at hand whose answer can be taken back.
    pub(super) fn done_here(&self) -> Vec<usize> {
        let section = match self.answered {
            Some(at) => self.planned(at).map(|planned| planned.section),
            None => self.walk.section(),
        };
        let steps = self
            .walk
            .steps()
            .iter()
            .zip(self.walk.plan().steps())
            .enumerate();
        steps
            .filter(|(_, (state, planned))| {
                state.done.is_some()
                    && matches!(state.status, crate::walk::Status::Done(_))
                    && Some(planned.section) == section
            })
            .map(|(at, _)| at)
            .collect()
    }

    /// Takes the identity of the instrument there is no choice about; never a value.
    pub(super) fn take_only_instrument(&mut self) {
        self.instrument = only_tool(&self.tools()).map(|only| only.id.clone());
    }

    pub(super) fn paste(&mut self, text: &str) {
        let context = self.context();
        match (&mut self.panel, context) {
            (Some(Panel::Words(_, field)), _) => field.paste(text),
            (None, Context::Reading | Context::Remark) => self.field.paste(text),
            _ => {}
        }
    }
}
