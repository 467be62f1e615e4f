//! What stands behind the limits of a step, opened over it: whose word, how it is reckoned, from
//! what.

use crate::desk::{Asked, why};
use crate::tui::page::Page;
use crate::tui::walk::update::Done;
use crate::tui::walk::{Panel, Walking};
use crate::tui::why as why_page;
use crate::walk::Now;

/// Writes it.
pub(super) fn body(walking: &Walking, at: usize, asked: Asked, page: &mut Page) {
    why_page::body(why(&walking.walk, at, asked, walking.barn.units), page);
}

impl Walking {
    /// Opens what stands behind the limits of the step at hand; of a blind step, only with its
    /// answer.
    pub(super) fn explain(&mut self) -> Done {
        let (at, asked) = match (self.now(), self.answered) {
            (Now::Branch(at) | Now::Remark(at), _) | (_, Some(at)) => (at, Asked::After),
            (Now::Open(at), None) => (at, Asked::Before),
            _ => return Done::Nothing,
        };
        let blind = self.planned(at).is_some_and(|planned| planned.step.blind);
        if blind && asked == Asked::Before {
            return Done::Said("The limits are shown after the reading.".to_owned());
        }
        self.panel = Some(Panel::Why(at, asked));
        self.scroll = 0;
        Done::Nothing
    }
}
