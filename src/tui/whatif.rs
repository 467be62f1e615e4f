//! A rig to look at, and to change in thought: what a trainer would draw in the dust.

mod draw;
mod lists;
mod update;

pub(super) use draw::{body, draw};
pub(super) use update::act;

use crate::figures::{Dial, Facts, Picture, Settles, WhatIf};
use crate::record::Mode;
use crate::rig::Rig;
use crate::tui::field::Field;
use crate::tui::rig::View;
use crate::tui::text::escaped;
use crate::tui::theme::Ink;
use crate::tui::{Action, Context};

/// A rig being looked at.
#[derive(Clone, Debug)]
pub(super) struct Trying {
    pub(super) whatif: WhatIf,
    /// The figures as described, and as changed.
    before: Picture,
    now: Picture,
    /// Whether a swing dies out sooner or later than as described.
    settles: Option<Result<Settles, String>>,
    dials: Vec<Dial>,
    pub(super) mode: Mode,
    /// Whether the program ends with this screen, having begun with it.
    pub(super) alone: bool,
    view: View,
    list: List,
    /// The marked line of each list.
    marked: [usize; 3],
    /// A value being typed.
    field: Option<Field>,
    /// Whether the page of the marked figure is open.
    opened: bool,
    pub(super) scroll: usize,
}

/// The lists beside the drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum List {
    /// What can be changed.
    Values,
    /// What moves.
    Moves,
    /// The ratings chain.
    Links,
}

impl List {
    fn next(self) -> Self {
        match self {
            Self::Values => Self::Moves,
            Self::Moves => Self::Links,
            Self::Links => Self::Values,
        }
    }

    fn index(self) -> usize {
        match self {
            Self::Values => 0,
            Self::Moves => 1,
            Self::Links => 2,
        }
    }
}

impl Trying {
    pub(super) fn new(rig: Rig, facts: Facts, mode: Mode, alone: bool) -> Self {
        let whatif = WhatIf::new(rig, facts);
        let before = Picture::of(whatif.before());
        Self {
            now: before.clone(),
            before,
            settles: None,
            dials: whatif.dials(),
            whatif,
            mode,
            alone,
            view: View::Side,
            list: List::Values,
            marked: [0; 3],
            field: None,
            opened: false,
            scroll: 0,
        }
    }

    pub(super) fn context(&self) -> Context {
        match (&self.field, self.opened, self.list) {
            (Some(_), _, _) => Context::RigValue,
            (None, true, _) => Context::Why,
            (None, false, List::Values) => Context::RigValues,
            (None, false, List::Moves | List::Links) => Context::RigFigures,
        }
    }

    pub(super) fn typed(&self) -> &str {
        self.field.as_ref().map_or("", Field::text)
    }

    pub(super) fn offers(&self, action: Action) -> bool {
        match action {
            Action::PutBack => self.dial().is_some_and(|dial| self.whatif.is_changed(dial)),
            Action::PutAllBack => self.whatif.changes() > 0,
            // Here is no walk to stop.
            Action::Hold | Action::Unsure => false,
            _ => true,
        }
    }

    pub(super) fn paste(&mut self, text: &str) {
        if let Some(field) = &mut self.field {
            field.paste(text);
        }
    }

    /// Whether a page lies over the drawing.
    pub(super) fn is_open(&self) -> bool {
        self.opened
    }

    /// Which rig it is, and how much of it is thought.
    pub(super) fn heading(&self) -> Vec<(Ink, String)> {
        let rig = &self.whatif.before().rig;
        let changes = match self.whatif.changes() {
            0 => "as described".to_owned(),
            1 => "1 value changed".to_owned(),
            more => format!("{more} values changed"),
        };
        vec![(Ink::Strong, format!("{}: {changes}", escaped(&rig.name)))]
    }

    /// Whether anything is changed: every frame then says so.
    pub(super) fn is_thought(&self) -> bool {
        self.whatif.changes() > 0
    }

    /// What can be changed that is marked.
    fn dial(&self) -> Option<Dial> {
        self.dials.get(self.mark(List::Values)).copied()
    }

    fn mark(&self, list: List) -> usize {
        self.marked.get(list.index()).copied().unwrap_or(0)
    }
}
