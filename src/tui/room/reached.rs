//! How far a learner is, section by section.

use crate::desk::ScenarioCard;
use crate::desk::told::list_title;
use crate::drill::{Progress, Reached, Stage};
use crate::tui::page::{Page, Rank};
use crate::tui::room::Drills;
use crate::tui::room::lines::section;
use crate::tui::text::escaped;
use crate::tui::theme::Ink;

/// Writes it: each checklist that is drilled here, with its sections.
pub(super) fn body(drills: &Drills, page: &mut Page) {
    let Some(learner) = drills.learner() else {
        return;
    };
    let resumed = learner.progress.resumed();
    if resumed.right + resumed.wrong > 0 {
        let told = format!(
            "Called away, the work went on at the right step {} of {} times.",
            resumed.right,
            resumed.right + resumed.wrong
        );
        page.say(Rank::Needed, Ink::Body, &told);
    }
    for (list, sections) in drilled(&drills.room.scenarios) {
        page.together(|page| {
            page.say(Rank::Needed, Ink::Strong, &escaped(&list_title(list)));
            let lines = sections.iter().map(|id| line(&learner.progress, list, id));
            let lines: Vec<_> = lines.collect();
            page.items(Rank::Needed, &lines);
        });
    }
}

/// Every checklist of which a passage is drilled, with those sections, in the order of scenarios.
fn drilled(scenarios: &[ScenarioCard]) -> Vec<(&str, Vec<&str>)> {
    let mut lists: Vec<(&str, Vec<&str>)> = Vec::new();
    for card in scenarios {
        let at = lists.iter().position(|(list, _)| *list == card.list);
        let at = at.unwrap_or_else(|| {
            lists.push((&card.list, Vec::new()));
            lists.len() - 1
        });
        let Some((_, sections)) = lists.get_mut(at) else {
            continue;
        };
        for id in &card.sections {
            if !sections.contains(&id.as_str()) {
                sections.push(id);
            }
        }
    }
    lists
}

fn line(progress: &Progress, list: &str, id: &str) -> (String, Ink, String) {
    let reached = progress.reached(list, id);
    let title = section(list, id).map_or_else(|| id.to_owned(), |found| found.title.clone());
    let text = format!("{}: {}", title, stands(reached));
    ("  -".to_owned(), Ink::Body, escaped(&text))
}

/// The stage that is next to be played, and what counts towards the one after it.
fn stands(reached: Reached) -> String {
    let word = stage_word(reached.stage);
    match reached.in_a_row {
        0 => word.to_owned(),
        1 => format!("{word}, one drill without a slip"),
        more => format!("{word}, {more} drills in a row without a slip"),
    }
}

/// A stage as it is said.
pub(super) fn stage_word(stage: Stage) -> &'static str {
    match stage {
        Stage::CheckRide => "check ride",
        other => other.word(),
    }
}
