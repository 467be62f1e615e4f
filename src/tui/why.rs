//! What stands behind a verdict or a figure, as a page: whose word, how it is reckoned, from what.

use crate::desk::Line;
use crate::tui::page::{Page, Rank};
use crate::tui::text::escaped;
use crate::tui::theme::Ink;

/// Writes it. All of it is needed: what does not fit scrolls.
pub(super) fn body(groups: Vec<Vec<Line>>, page: &mut Page) {
    let ascii = page.look().ascii;
    let spelled = |text: &str| {
        let text = escaped(text);
        if ascii {
            text.replace('²', "^2").replace('³', "^3")
        } else {
            text
        }
    };
    for group in groups {
        let lines = group.into_iter().map(|(head, text)| {
            let ink = match head {
                "Limit:" | "Aim:" | "Figure:" => Ink::Strong,
                _ => Ink::Body,
            };
            (head.to_owned(), ink, spelled(&text))
        });
        let lines: Vec<(String, Ink, String)> = lines.collect();
        page.items(Rank::Needed, &lines);
    }
}
