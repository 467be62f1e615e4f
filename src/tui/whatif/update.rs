//! What the keys do to a rig in thought.

use crate::desk::Errand;
use crate::figures::{Picture, Toward};
use crate::tui::field::Field;
use crate::tui::keys::Key;
use crate::tui::model::Screen;
use crate::tui::rig::View;
use crate::tui::start::Start;
use crate::tui::view::{most_scroll, rows};
use crate::tui::whatif::Trying;
use crate::tui::{Action, Model};

/// Does what a key means.
pub(in crate::tui) fn act(model: &mut Model, action: Action, key: Key) -> Vec<Errand> {
    let (page, end) = (rows(model).saturating_sub(1), most_scroll(model));
    let Screen::WhatIf(trying) = &mut model.screen else {
        return Vec::new();
    };
    if trying.opened && action != Action::Back {
        trying.scroll = match action {
            Action::Up => trying.scroll.saturating_sub(1),
            Action::Down => trying.scroll + 1,
            Action::PageUp => trying.scroll.saturating_sub(page),
            Action::PageDown => trying.scroll + page,
            Action::Top => 0,
            Action::Bottom => end,
            _ => trying.scroll,
        };
        return Vec::new();
    }
    if action == Action::Back && trying.field.is_none() && !trying.opened {
        if trying.alone {
            model.over = true;
            return Vec::new();
        }
        model.screen = Screen::Start(Start::default());
        return vec![Errand::LookAround];
    }
    if !matches!(action, Action::Type | Action::Erase) {
        model.said = None;
    }
    if let Err(refusal) = trying.act(action, key) {
        model.said = Some(refusal);
    }
    Vec::new()
}

impl Trying {
    fn act(&mut self, action: Action, key: Key) -> Result<(), String> {
        match (action, key) {
            (Action::Up, _) => self.go(|at| at.saturating_sub(1)),
            (Action::Down, _) => self.go(|at| at + 1),
            (Action::Less, _) => return self.step(Toward::Less),
            (Action::More, _) => return self.step(Toward::More),
            (Action::Choose, _) => return self.open_field(),
            (Action::Type, Key::Char(letter)) => {
                if let Some(field) = &mut self.field {
                    field.add(letter);
                }
            }
            (Action::Erase, _) => match &mut self.field {
                Some(field) if !field.is_empty() => field.erase(),
                _ => self.field = None,
            },
            (Action::Submit, _) => return self.type_in(),
            (Action::Back, _) => (self.field, self.opened) = (None, false),
            (Action::PutBack, _) => {
                if let Some(dial) = self.dial() {
                    self.whatif.put_back(dial);
                }
                self.look_again();
            }
            (Action::PutAllBack, _) => {
                self.whatif.put_all_back();
                self.look_again();
            }
            (Action::OtherView, _) => {
                self.view = match self.view {
                    View::Side => View::Above,
                    View::Above => View::Hitch,
                    View::Hitch => View::Side,
                };
            }
            (Action::OtherList, _) => self.list = self.list.next(),
            (Action::Why, _) => (self.opened, self.scroll) = (true, 0),
            _ => {}
        }
        Ok(())
    }

    /// Moves the mark of the list in hand.
    fn go(&mut self, to: impl Fn(usize) -> usize) {
        let last = self.count(self.list).saturating_sub(1);
        if let Some(marked) = self.marked.get_mut(self.list.index()) {
            *marked = to(*marked).min(last);
        }
    }

    fn step(&mut self, toward: Toward) -> Result<(), String> {
        let Some(dial) = self.dial() else {
            return Ok(());
        };
        let stepped = self.whatif.step(dial, toward);
        self.look_again();
        stepped.map_err(|not| not.to_string())
    }

    fn open_field(&mut self) -> Result<(), String> {
        match self.dial() {
            Some(dial) if dial.dimension().is_none() => {
                let label = self.whatif.now().label(dial);
                Err(format!("{label}: Left and Right choose."))
            }
            _ => {
                self.field = Some(Field::default());
                Ok(())
            }
        }
    }

    fn type_in(&mut self) -> Result<(), String> {
        let (Some(dial), Some(field)) = (self.dial(), &self.field) else {
            return Ok(());
        };
        let typed = self.whatif.type_in(dial, field.text());
        typed.map_err(|not| not.to_string())?;
        self.field = None;
        self.look_again();
        Ok(())
    }

    /// Computes afresh what moved.
    fn look_again(&mut self) {
        self.now = Picture::of(self.whatif.now());
        self.settles = self.whatif.settles();
    }
}
