//! The walk standing still: on hold, or stopped because something is not clear.

use crate::checklist::PlannedStep;
use crate::desk::told;
use crate::tui::Model;
use crate::tui::drill;
use crate::tui::page::{Page, Rank};
use crate::tui::text::{escaped, time_of};
use crate::tui::theme::Ink;
use crate::tui::walk::Walking;
use crate::tui::walk::place::last_done;
use crate::walk::{Act, Event};

/// Most names of steps in one sentence.
const MOST_NAMES: usize = 4;

/// Writes the way back: what was last, what is next, how long it stood, what is looked at again.
pub(super) fn held(walking: &Walking, model: &Model, page: &mut Page) {
    let walk = &walking.walk;
    let what = walking.drill.as_ref().map_or("walk", |_| "drill");
    let title = match walk.held() {
        Some((since, ..)) => {
            let stood = told::span(model.now.since(since));
            format!("On hold since {}, for {stood}", time_of(since))
        }
        None => format!("This is where the {what} was left"),
    };
    page.say(Rank::Needed, Ink::Title, &title);
    if let Some(drilling) = walking.drill.as_deref().filter(|_| walking.taken_up) {
        drill::kind(drilling, page);
    }
    if let Some((_, why, _)) = walk.held()
        && let Some(why) = why
    {
        page.item(Rank::Wanted, "Why:", Ink::Body, &escaped(why.as_str()));
    }
    if let Some((name, time)) = last_done(walking) {
        page.item(
            Rank::Needed,
            "Last done:",
            Ink::Strong,
            &format!("{time} {}", escaped(&name)),
        );
    }
    if let Some(next) = about_to(walking) {
        page.item(Rank::Needed, "Next:", Ink::Strong, &escaped(&next));
    }
    page.say(Rank::Needed, Ink::Body, &look_again(walking, model));
    for (at, words) in walk.notes().iter().rev().take(2) {
        let text = format!("{} {}", time_of(at), escaped(words.as_str()));
        page.item(Rank::Useful, "Note:", Ink::Body, &text);
    }
    page.say(
        Rank::Wanted,
        Ink::Body,
        "Enter takes the walk up. n writes down why it stands.",
    );
}

/// Writes whom to call, and what stays as it is.
pub(super) fn unsure(walking: &Walking, model: &Model, page: &mut Page) {
    let since = walking.walk.unsure();
    let time = since
        .map(|(at, _)| format!(" at {}", time_of(at)))
        .unwrap_or_default();
    page.say(
        Rank::Needed,
        Ink::Title,
        &format!("Stopped{time}: something is not clear"),
    );
    if let Some(Some(words)) = since.map(|(_, words)| words) {
        page.say(Rank::Needed, Ink::Body, &escaped(words.as_str()));
    }
    let call = told::whom_to_call(walking.barn.call.as_ref(), model.crew());
    page.say(Rank::Needed, Ink::Strong, &escaped(&call));
    page.say(
        Rank::Needed,
        Ink::Body,
        "The rig stays where it is. No step can be answered until somebody says how this was \
         settled. Stopping is right whenever you are not sure.",
    );
    if let Some(next) = about_to(walking) {
        page.item(Rank::Wanted, "Next:", Ink::Body, &escaped(&next));
    }
    page.say(
        Rank::Wanted,
        Ink::Body,
        "s says how it was settled. n writes down what is unclear.",
    );
}

/// What was about to be done: as written at the hold, else the step at hand.
fn about_to(walking: &Walking) -> Option<String> {
    if walking.hides_place() {
        return None;
    }
    if let Some((_, _, Some(next))) = walking.walk.held() {
        return Some(next.as_str().to_owned());
    }
    walking
        .stopped_at()
        .and_then(|at| walking.planned(at))
        .map(PlannedStep::name)
}

/// What coming back would reopen, told before it does.
fn look_again(walking: &Walking, model: &Model) -> String {
    let walk = &walking.walk;
    let resumed = walk.decide(&Act::Resume, &model.now);
    let steps: Vec<String> = if let Ok(Event::Resumed { look_again, .. }) = &resumed {
        let name = |key| told::step_name(walk.plan(), key);
        look_again.iter().map(name).collect()
    } else {
        let again = walk.to_look_at_again();
        again
            .filter_map(|at| Some(walking.planned(at)?.name()))
            .collect()
    };
    let names: Vec<&str> = steps.iter().take(MOST_NAMES).map(String::as_str).collect();
    let more = match steps.len().saturating_sub(MOST_NAMES) {
        0 => String::new(),
        more => format!(" and {more} more"),
    };
    match steps.len() {
        0 => "Nothing has to be looked at again.".to_owned(),
        _ => escaped(&format!("To look at again: {}{more}.", names.join("; "))),
    }
}
