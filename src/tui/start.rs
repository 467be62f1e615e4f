//! The first screen: what was begun, the rigs, what was ended; and the page of a rig, with what is
//! open and due for it and the lists that can be begun.

mod matters;
mod setup;
mod update;
mod view;

pub(super) use setup::people;
pub(super) use update::{READING, act, may_begin, may_not_begin};
pub(super) use view::{DIGITS, body, heading, label};

use crate::desk::{Answering, Barn, ChecklistCard, CrewCard, RigCard, TripCard};
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
    /// The rig whose page was opened, where there are several.
    pub(super) rig: Option<String>,
    /// How far everything that is open and due for it is scrolled, where that is read.
    pub(super) read: Option<usize>,
    pub(super) setup: Option<Setup>,
    /// A walk that was asked for, until it is known whether it may begin.
    asked: Option<Setup>,
}

/// A walk about to begin.
#[derive(Clone, Debug)]
pub(super) struct Setup {
    pub(super) rig: String,
    pub(super) checklist: String,
    pub(super) reader: Option<String>,
    pub(super) doer: Option<String>,
    pub(super) odometer: Field,
    /// What to know before it begins.
    pub(super) notices: Vec<String>,
    /// What managers asked who is named.
    pub(super) asked: Answering,
    /// What is typed as the answer to the one that is put.
    pub(super) answer: Field,
}

/// A line of the first screen.
#[derive(Clone, Copy, Debug)]
pub(super) enum Choice<'a> {
    TakeUp(&'a TripCard),
    Rig(&'a RigCard),
    Begin(&'a ChecklistCard, &'a RigCard),
    Read(&'a TripCard),
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
            notices: Vec::new(),
            asked: Answering::default(),
            answer: Field::default(),
        }
    }

    /// What is typed into: the answer to a question that is put, else the odometer.
    fn field(&self) -> &Field {
        match self.asked.now() {
            Some(_) => &self.answer,
            None => &self.odometer,
        }
    }

    fn field_mut(&mut self) -> &mut Field {
        match self.asked.now() {
            Some(_) => &mut self.answer,
            None => &mut self.odometer,
        }
    }

    /// Takes what was typed as the answer to the question that is put. Nothing typed leaves it for
    /// later.
    ///
    /// # Errors
    /// A sentence, where these are no words.
    fn answer(&mut self) -> Result<(), String> {
        let taken = self.asked.take(self.answer.text());
        taken.map_err(|fault| format!("Not taken: {fault}."))?;
        self.show_typed();
        Ok(())
    }

    /// Goes back to the question before; whether there was one. What was typed stays.
    fn back_to_question(&mut self) -> bool {
        self.asked.keep(self.answer.text());
        let went = self.asked.back();
        self.show_typed();
        went
    }

    /// What was typed to the question that is put stands in its field.
    fn show_typed(&mut self) {
        self.answer.take();
        self.answer.paste(self.asked.typed());
    }
}

impl Start {
    /// The lines there are to choose from: what is not finished first.
    pub(super) fn choices<'a>(&self, barn: &'a Barn) -> Vec<Choice<'a>> {
        let begin = self.page(barn).into_iter().flat_map(|rig| {
            let lists = barn.lists_for(rig).into_iter();
            lists.map(move |list| Choice::Begin(list, rig))
        });
        if self.is_opened(barn) {
            return begin.collect();
        }
        let unfinished = barn.unfinished.iter().map(Choice::TakeUp);
        let rigs = barn.rigs.iter().map(Choice::Rig);
        let rigs = rigs.filter(|_| barn.rigs.len() > 1);
        let ended = barn.finished.iter().take(MOST_ENDED).map(Choice::Read);
        unfinished.chain(rigs).chain(begin).chain(ended).collect()
    }

    /// The rig whose page this is: the only one there is, else the one that was chosen.
    pub(super) fn page<'a>(&self, barn: &'a Barn) -> Option<&'a RigCard> {
        if let [only] = barn.rigs.as_slice() {
            return Some(only);
        }
        let chosen = self.rig.as_ref()?;
        barn.rigs.iter().find(|rig| rig.id == *chosen)
    }

    /// Whether this page was opened from the first screen.
    pub(super) fn is_opened(&self, barn: &Barn) -> bool {
        barn.rigs.len() > 1 && self.page(barn).is_some()
    }

    pub(super) fn context(&self, barn: Option<&Barn>) -> Context {
        match &self.setup {
            Some(Setup { doer: None, .. }) => Context::Crew,
            Some(setup) if setup.asked.now().is_some() => Context::Question,
            Some(_) => Context::Odometer,
            None if self.read.is_some() => Context::Matters,
            None if barn.is_some_and(|barn| self.page(barn).is_some()) => Context::RigPage,
            None => Context::Start,
        }
    }

    pub(super) fn typed(&self) -> &str {
        self.setup.as_ref().map_or("", |setup| setup.field().text())
    }

    pub(super) fn offers(&self, action: Action, barn: Option<&Barn>) -> bool {
        let Some(barn) = barn else {
            // There is nothing to choose from.
            return matches!(
                action,
                Action::Quit | Action::Help | Action::Colours | Action::Big
            );
        };
        let marked = self.choices(barn).get(self.marked).copied();
        let page = self.page(barn);
        let above = self.setup.is_some() || self.read.is_some() || self.is_opened(barn);
        match action {
            Action::ChooseWho => {
                barn.mode == Mode::Demo && matches!(marked, Some(Choice::Begin(..)))
            }
            Action::TryRig => page.is_some() || matches!(marked, Some(Choice::Rig(_))),
            Action::Matters => page.is_some_and(|rig| !rig.matters().is_empty()),
            Action::Back => above,
            _ => true,
        }
    }

    pub(super) fn paste(&mut self, text: &str) {
        if let Some(setup) = self.setup.as_mut().filter(|setup| setup.doer.is_some()) {
            setup.field_mut().paste(text);
        }
    }
}
