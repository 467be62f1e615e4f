//! What the keys of the list of keys do.

use crate::desk::Errand;
use crate::tui::help::{Help, listed};
use crate::tui::keys::Key;
use crate::tui::{Action, Model, update};

/// Does what a key means in the list.
pub(in crate::tui) fn act(model: &mut Model, action: Action, key: Key) -> Vec<Errand> {
    let lines = listed(model).len();
    let Some(help) = &mut model.help else {
        return Vec::new();
    };
    match (action, key) {
        // Never by Esc alone; no line is found by its first letter q or by a question mark.
        (Action::Type, Key::Char('q' | '?')) | (Action::Erase, _) if help.filter.is_empty() => {
            model.help = None;
        }
        (Action::Back, _) => model.help = None,
        (Action::Type, Key::Char(letter)) => {
            help.filter.add(letter);
            help.marked = Some(0);
        }
        (Action::Erase, _) => help.filter.erase(),
        (Action::Up, _) => help.marked = help.marked.map(|at| at.saturating_sub(1)),
        (Action::Down, _) => help.marked = Some(down(help, lines)),
        (Action::Submit, _) => return submit(model),
        _ => {}
    }
    Vec::new()
}

fn down(help: &Help, lines: usize) -> usize {
    help.marked
        .map_or(0, |at| (at + 1).min(lines.saturating_sub(1)))
}

/// Does the marked line, on the screen below.
fn submit(model: &mut Model) -> Vec<Errand> {
    let marked = model.help.as_ref().and_then(|help| help.marked);
    let Some(row) = marked.and_then(|at| listed(model).get(at).copied()) else {
        model.said = Some("Mark a line with the arrows, or type a part of its words.".to_owned());
        return Vec::new();
    };
    match row.action {
        // These need to know which digit or letter was meant.
        Action::Pick | Action::Type | Action::LookFrom | Action::Call => {
            model.said = Some("This one is done by pressing the key itself.".to_owned());
            Vec::new()
        }
        action => {
            model.help = None;
            if action == Action::Help {
                return Vec::new();
            }
            update::act(model, action, Key::Other)
        }
    }
}
