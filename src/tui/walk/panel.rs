//! What lies over a step: words being typed, a step or a person being chosen.

use crate::desk::told;
use crate::tui::Model;
use crate::tui::page::{Page, Rank};
use crate::tui::text::escaped;
use crate::tui::theme::Ink;
use crate::tui::walk::ask::lettered;
use crate::tui::walk::ending::WORDS;
use crate::tui::walk::{Panel, Purpose, Walking, why};
use crate::walk::Ended;

/// Writes the panel. The step it is about is named first.
pub(super) fn body(walking: &Walking, panel: &Panel, model: &Model, page: &mut Page) {
    let at = walking.stopped_at().filter(|_| !walking.hides_place());
    if let Some(name) = at.and_then(|at| walking.planned(at)) {
        page.say(Rank::Wanted, Ink::Body, &escaped(&name.name()));
    }
    match panel {
        Panel::Words(purpose, field) => words(walking, purpose, field.text(), page),
        Panel::Why(at, asked) => why::body(walking, *at, *asked, page),
        Panel::TakeBack { marked } => take_back(walking, *marked, page),
        Panel::GiveOver { reader } => give_over(reader.as_deref(), model, page),
    }
}

fn words(walking: &Walking, purpose: &Purpose, typed: &str, page: &mut Page) {
    let (title, help) = match purpose {
        Purpose::PutRight => (
            "What was put right?".to_owned(),
            "After a stop it has to be said; after a fix it may be left empty.",
        ),
        Purpose::PutOff => (
            "Why is this step put off?".to_owned(),
            "It comes back before the section that needs it.",
        ),
        Purpose::Note => (
            "What is to be written down?".to_owned(),
            "It stands in the record with the time.",
        ),
        Purpose::Settle => (
            "How was it settled, and with whom?".to_owned(),
            "After more than two minutes some steps are looked at again.",
        ),
        Purpose::TakeBack(step) => (
            format!(
                "Why is the answer to “{}” taken back?",
                told::step_name(walking.walk.plan(), step)
            ),
            "The old answer stays in the record beside the new one.",
        ),
        Purpose::SecondName => (
            "Who looks?".to_owned(),
            "The whole name, as it would be signed.",
        ),
        Purpose::Learn => (
            "What will you do otherwise next time?".to_owned(),
            "One line, for yourself. It stands with the drill where that is recorded.",
        ),
        Purpose::EndAs => {
            page.say(Rank::Needed, Ink::Title, "End the walk early?");
            let lines: Vec<_> = WORDS
                .iter()
                .map(|(word, outcome)| ending(word, *outcome))
                .collect();
            page.items(Rank::Needed, &lines);
            page.field("Type the word:", typed, "");
            page.say(Rank::Wanted, Ink::Body, "Esc goes back; the walk goes on.");
            return;
        }
        Purpose::EndWhy(outcome) => (
            format!(
                "Why does the trip end as {}?",
                outcome.word().replace('-', " ")
            ),
            "Enter ends it. Esc goes back; the walk goes on.",
        ),
    };
    page.say(Rank::Needed, Ink::Title, &escaped(&title));
    page.field(">", typed, "");
    page.say(Rank::Wanted, Ink::Body, help);
}

fn ending(word: &str, outcome: Ended) -> (String, Ink, String) {
    let meaning = match outcome {
        Ended::NotFitToGo => "something was found that cannot be put right here",
        Ended::Incomplete => "it is left before the end",
        Ended::Abandoned => "it is given up",
        Ended::Complete => "every step answered",
    };
    (format!("{word}:"), Ink::Body, meaning.to_owned())
}

fn take_back(walking: &Walking, marked: usize, page: &mut Page) {
    page.say(Rank::Needed, Ink::Title, "Which answer is taken back?");
    let names = walking
        .done_here()
        .into_iter()
        .filter_map(|at| walking.planned(at));
    let names = names.map(|planned| escaped(&planned.name()));
    page.choices(&lettered(names), Some(marked));
}

fn give_over(reader: Option<&str>, model: &Model, page: &mut Page) {
    let question = match reader {
        None => "Who reads and types from now on?".to_owned(),
        Some(reader) => format!("{} reads. Who does the work from now on?", escaped(reader)),
    };
    page.say(Rank::Needed, Ink::Title, &question);
    let names = model.crew().iter().map(|card| escaped(&card.name));
    page.items(Rank::Needed, &lettered(names));
    page.say(
        Rank::Wanted,
        Ink::Body,
        "What may have changed unseen is then looked at again.",
    );
}
