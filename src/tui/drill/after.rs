//! What a learner is told: of a step at once, of the whole once it is through.

use crate::tui::Context;
use crate::tui::drill::Drilling;
use crate::tui::page::{Page, Rank};
use crate::tui::text::escaped;
use crate::tui::theme::Ink;
use crate::tui::walk::Walking;

/// Writes what is said at once of the answer that is shown.
pub(in crate::tui) fn feedback(walking: &Walking, page: &mut Page) {
    let Some(drilling) = &walking.drill else {
        return;
    };
    for line in drilling.feedback.iter().chain(&drilling.disclosed) {
        page.say(Rank::Needed, Ink::Strong, &escaped(line));
    }
    if !drilling.feedback.is_empty() && walking.context() == Context::Outcome {
        page.say(Rank::Needed, Ink::Body, "t takes the answer back.");
    }
}

/// Writes how it went, once every section is complete, and asks for one line.
pub(super) fn debrief(drilling: &Drilling, page: &mut Page) {
    page.say(Rank::Needed, Ink::Title, "Every section is complete");
    if drilling.tells_before_signing() {
        told(drilling, page);
    } else {
        let told = "It is told how it went once it is signed.";
        page.say(Rank::Needed, Ink::Body, told);
    }
    match drilling.run.learned() {
        Some(learned) => {
            let learned = escaped(learned.as_str());
            page.item(Rank::Needed, "Next time:", Ink::Strong, &learned);
        }
        None => page.say(
            Rank::Needed,
            Ink::Strong,
            "What will you do otherwise next time? l writes one line.",
        ),
    }
    page.say(Rank::Needed, Ink::Strong, "f ends the drill.");
}

/// Writes how it went once the drill has ended, and what can be done next.
pub(super) fn over(drilling: &Drilling, page: &mut Page) {
    page.say(Rank::Needed, Ink::Title, "The drill has ended");
    // An examination that nobody signs here is told at once.
    let signs = drilling.trip.is_some();
    if !drilling.debriefed && (drilling.tells_before_signing() || !signs) {
        told(drilling, page);
    }
    let key = |head: &str, text: &str| (head.to_owned(), Ink::Body, text.to_owned());
    if signs {
        page.items(Rank::Needed, &[key("s", "go on to signing it")]);
        return;
    }
    page.say(
        Rank::Needed,
        Ink::Strong,
        "Nothing of this drill was recorded.",
    );
    page.items(
        Rank::Needed,
        &[
            key("a", "the same again, to the last digit"),
            key("o", "another one, by the dice"),
            key("q", "leave it"),
        ],
    );
}

fn told(drilling: &Drilling, page: &mut Page) {
    for line in drilling.run.debrief() {
        page.say(Rank::Needed, Ink::Body, &escaped(&line));
    }
}
