//! The list of every key that is valid now: it filters as one types and does the marked line.

mod update;
mod view;

pub(super) use update::act;
pub(super) use view::body;

use crate::tui::Model;
use crate::tui::field::Field;
use crate::tui::keys::{Row, live_below};

/// The list of keys over a screen. The screen below keeps whatever was typed.
#[derive(Clone, Debug, Default)]
pub(super) struct Help {
    pub(super) filter: Field,
    /// The marked line. None at first, so that Enter alone does nothing.
    pub(super) marked: Option<usize>,
}

impl Help {
    pub(super) fn paste(&mut self, text: &str) {
        self.filter.paste(text);
        self.marked = Some(0);
    }
}

/// The rows the list shows.
pub(super) fn listed(model: &Model) -> Vec<&'static Row> {
    let filter = model
        .help
        .as_ref()
        .map(|help| help.filter.text().to_lowercase());
    let filter = filter.unwrap_or_default();
    let fits =
        |row: &&Row| row.label.contains(&filter) || row.what.to_lowercase().contains(&filter);
    live_below(model).into_iter().filter(fits).collect()
}
