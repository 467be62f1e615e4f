//! Countersigning drawn.

use super::{Stage, told};
use crate::record::{Mode, Opinion, Says};
use crate::tui::lookout::trip::Trip;
use crate::tui::page::{Page, Rank};
use crate::tui::start::people;
use crate::tui::text::escaped;
use crate::tui::theme::Ink;

/// What is being done, below the line that says which trip it is.
pub(in crate::tui::lookout) fn heading(trip: &Trip) -> Option<String> {
    let signing = trip.signing.as_ref()?;
    let opened = trip.count_opened();
    Some(match (&signing.stage, signing.opinion) {
        (Stage::Kept { .. }, opinion) => format!("Countersigned: {}", told(opinion)),
        // Where words are typed there is nothing yet that could be signed.
        (Stage::Words, Opinion::Agreed) => format!("To agree to it ({opened})"),
        (Stage::Words, Opinion::Asked) => format!("To ask about it ({opened})"),
        (_, Opinion::Agreed) => format!("Not signed yet: agreed ({opened})"),
        (_, Opinion::Asked) => format!("Not signed yet: asked ({opened})"),
    })
}

/// Writes the page.
pub(in crate::tui::lookout) fn body(trip: &Trip, mode: Mode, page: &mut Page) {
    let Some(signing) = &trip.signing else {
        return;
    };
    match &signing.stage {
        Stage::Words => {
            let (asked, field) = match signing.opinion {
                Opinion::Agreed => ("Remarks? Enter alone leaves them out.", "Remarks"),
                Opinion::Asked => (
                    "What is the question? It is put to whoever had a hand in the trip when they \
                     next begin a walk.",
                    "Question",
                ),
            };
            page.say(Rank::Needed, Ink::Strong, asked);
            page.field(field, signing.words.text(), "");
        }
        Stage::Manager(remarks) => {
            words(remarks.as_ref().map(ToString::to_string), page);
            page.say(Rank::Needed, Ink::Strong, "Which manager signs?");
            page.items(Rank::Needed, &people(&trip.managers));
        }
        Stage::Key {
            remarks,
            signs,
            first,
            typed,
        } => {
            words(remarks.as_ref().map(ToString::to_string), page);
            if let Some(first) = first {
                page.say(Rank::Wanted, Ink::Body, &escaped(first));
            }
            let states = format!("{} signs and states:", escaped(&signs.name));
            page.say(Rank::Needed, Ink::Strong, &states);
            page.say(Rank::Needed, Ink::Body, &meaning());
            if let Some(told) = signs.lies.told() {
                page.say(Rank::Needed, Ink::Body, told);
            }
            let shown = if signs.lies.is_secret() {
                "*".repeat(typed.text().chars().count())
            } else {
                typed.text().to_owned()
            };
            page.field(signs.lies.field(), &shown, "");
            if mode == Mode::Demo && signs.lies.is_secret() {
                page.say(Rank::Needed, Ink::Body, "In the demo it is the word demo.");
            }
        }
        Stage::Kept { by, at, folder } => {
            let when = at.wall.format("%Y-%m-%d %H:%M");
            let signed = format!("{}, {when}", escaped(by));
            page.item(Rank::Needed, "Signed by:", Ink::Body, &signed);
            page.item(Rank::Needed, "Stating:", Ink::Body, &meaning());
            page.item(Rank::Wanted, "Kept in:", Ink::Body, &escaped(folder));
            let next = match signing.opinion {
                Opinion::Agreed => "A later question can still be put.",
                Opinion::Asked => {
                    "The question stands until the same manager agrees to the trip. What is \
                     answered is the first thing to look at then."
                }
            };
            page.say(Rank::Useful, Ink::Body, next);
        }
    }
}

fn meaning() -> String {
    format!("“{}”", Says::COUNTERSIGNED)
}

/// What was typed before.
fn words(words: Option<String>, page: &mut Page) {
    if let Some(words) = words {
        let words = format!("“{}”", escaped(&words));
        page.item(Rank::Wanted, "With the words:", Ink::Body, &words);
    }
}
