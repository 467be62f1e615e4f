//! What stands behind the limits of a step, opened over it: whose word, how it is reckoned, from
//! what.

use crate::desk::{Asked, why};
use crate::tui::page::{Page, Rank};
use crate::tui::text::escaped;
use crate::tui::theme::Ink;
use crate::tui::walk::update::Done;
use crate::tui::walk::{Panel, Walking};
use crate::walk::Now;

/// Writes it. All of it is needed: what does not fit scrolls.
pub(super) fn body(walking: &Walking, at: usize, asked: Asked, page: &mut Page) {
    let spelled = |text: &str| {
        let text = escaped(text);
        if page.look().ascii {
            text.replace('²', "^2").replace('³', "^3")
        } else {
            text
        }
    };
    let groups: Vec<Vec<(String, Ink, String)>> = why(&walking.walk, at, asked)
        .into_iter()
        .map(|lines| {
            let line = |(head, text): (&str, String)| {
                let ink = match head {
                    "Limit:" | "Aim:" => Ink::Strong,
                    _ => Ink::Body,
                };
                (head.to_owned(), ink, spelled(&text))
            };
            lines.into_iter().map(line).collect()
        })
        .collect();
    for lines in groups {
        page.items(Rank::Needed, &lines);
    }
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
