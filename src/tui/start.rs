//! The first screen: what was begun, what can be begun, what was ended.

mod earlier;
mod update;
mod view;

pub(super) use update::{READING, act};
pub(super) use view::{body, heading, people};

use crate::desk::{Barn, ChecklistCard, CrewCard, RigCard, TripCard};
use crate::record::{Mode, Role};
use crate::tui::field::Field;
use crate::tui::{Action, Context};

/// The word shown while a trip is taken up.
pub(super) const TAKING_UP: &str = "reading the journal";

/// Most ended trips on the first screen.
const MOST_ENDED: usize = 5;

/// The first screen.
#[derive(Clone, Debug, Default)]
pub(super) struct Start {
    pub(super) marked: usize,
    pub(super) setup: Option<Setup>,
}

/// A walk about to begin.
#[derive(Clone, Debug)]
pub(super) struct Setup {
    pub(super) rig: String,
    pub(super) checklist: String,
    pub(super) reader: Option<String>,
    pub(super) doer: Option<String>,
    pub(super) odometer: Field,
}

/// A line of the first screen.
#[derive(Clone, Copy, Debug)]
pub(super) enum Choice<'a> {
    TakeUp(&'a TripCard),
    Begin(&'a ChecklistCard, &'a RigCard),
    Read(&'a TripCard),
}

/// The lines of the first screen: what is not finished first.
pub(super) fn choices(barn: &Barn) -> Vec<Choice<'_>> {
    let unfinished = barn.unfinished.iter().map(Choice::TakeUp);
    let begin = barn.rigs.iter().flat_map(|rig| {
        let fits = |list: &&ChecklistCard| list.rigs.contains(&rig.kind);
        barn.checklists
            .iter()
            .filter(fits)
            .map(move |list| Choice::Begin(list, rig))
    });
    let ended = barn.finished.iter().take(MOST_ENDED).map(Choice::Read);
    unfinished.chain(begin).chain(ended).collect()
}

/// Who reads and who does when nobody is asked: a driver and a groom, as in the demo barn.
fn usual_pair(crew: &[CrewCard]) -> Option<(String, String)> {
    let first = |role| crew.iter().find(move |card| card.roles.contains(&role));
    let reader = first(Role::Driver).or(crew.first())?;
    let doer = first(Role::Groom).unwrap_or(reader);
    Some((reader.name.clone(), doer.name.clone()))
}

impl Setup {
    fn new(checklist: &ChecklistCard, rig: &RigCard) -> Self {
        Self {
            rig: rig.id.clone(),
            checklist: checklist.id.clone(),
            reader: None,
            doer: None,
            odometer: Field::default(),
        }
    }
}

impl Start {
    pub(super) fn context(&self) -> Context {
        match &self.setup {
            None => Context::Start,
            Some(Setup { doer: None, .. }) => Context::Crew,
            Some(_) => Context::Odometer,
        }
    }

    pub(super) fn typed(&self) -> &str {
        self.setup
            .as_ref()
            .map_or("", |setup| setup.odometer.text())
    }

    pub(super) fn offers(&self, action: Action, barn: Option<&Barn>) -> bool {
        let marked = barn
            .map(choices)
            .unwrap_or_default()
            .get(self.marked)
            .copied();
        match action {
            Action::ChooseWho => {
                barn.is_some_and(|barn| barn.mode == Mode::Demo)
                    && matches!(marked, Some(Choice::Begin(..)))
            }
            Action::TryRig => matches!(marked, Some(Choice::Begin(..))),
            _ => true,
        }
    }

    pub(super) fn paste(&mut self, text: &str) {
        if let Some(setup) = self.setup.as_mut().filter(|setup| setup.doer.is_some()) {
            setup.odometer.paste(text);
        }
    }
}
