//! A trip's record read back: what verification found, the exceptions, then every line.

mod view;

pub(super) use view::body;

use crate::desk::{Errand, Tale};
use crate::tui::model::Screen;
use crate::tui::text::escaped;
use crate::tui::theme::Ink;
use crate::tui::view::{most_scroll, rows};
use crate::tui::{Action, Model};

/// A record being read.
#[derive(Clone, Debug)]
pub(super) struct Reading {
    pub(super) tale: Tale,
    pub(super) scroll: usize,
}

impl Reading {
    pub(super) fn new(tale: Tale) -> Self {
        Self { tale, scroll: 0 }
    }

    /// The first two lines of the record's own heading; the page has all of them.
    pub(super) fn heading(&self) -> Vec<(Ink, String)> {
        let lines = self.tale.heading.iter().take(2);
        lines.map(|line| (Ink::Strong, escaped(line))).collect()
    }
}

/// Does what a key means in a record.
pub(super) fn act(model: &mut Model, action: Action) -> Vec<Errand> {
    let page = rows(model).saturating_sub(1);
    let end = most_scroll(model);
    let Screen::Record(reading) = &mut model.screen else {
        return Vec::new();
    };
    reading.scroll = match action {
        Action::Up => reading.scroll.saturating_sub(1),
        Action::Down => reading.scroll + 1,
        Action::PageUp => reading.scroll.saturating_sub(page),
        Action::PageDown => reading.scroll + page,
        Action::Top => 0,
        Action::Bottom => end,
        Action::Back => {
            return model.go_home();
        }
        _ => reading.scroll,
    };
    Vec::new()
}
