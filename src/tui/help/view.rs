//! The list of keys drawn.

use crate::tui::Model;
use crate::tui::help::listed;
use crate::tui::lookout::legend;
use crate::tui::model::Screen;
use crate::tui::page::{Page, Rank};
use crate::tui::theme::Ink;
use crate::tui::view::cap;
use crate::tui::walk::MARKS;

/// Writes the list.
pub(in crate::tui) fn body(model: &Model, page: &mut Page) {
    let Some(help) = &model.help else {
        return;
    };
    page.field("Keys valid now. Find:", help.filter.text(), "");
    let lines: Vec<(String, Ink, String)> = listed(model)
        .into_iter()
        .map(|row| {
            (
                format!("{:<5}", cap(model, row)),
                Ink::Body,
                format!("{}: {}", row.label, row.what),
            )
        })
        .collect();
    if lines.is_empty() {
        page.say(Rank::Needed, Ink::Body, "No key valid now has these words.");
    }
    page.choices(&lines, help.marked);
    if let Screen::Lookout(_) = &model.screen {
        let signs = legend().into_iter();
        let signs: Vec<_> = signs
            .map(|(sign, meaning)| (sign, Ink::Body, meaning))
            .collect();
        return page.items(Rank::Extra, &signs);
    }
    let marks: Vec<(String, Ink, String)> = MARKS
        .iter()
        .map(|(mark, meaning)| ((*mark).to_owned(), Ink::Body, (*meaning).to_owned()))
        .collect();
    page.items(Rank::Extra, &marks);
}
