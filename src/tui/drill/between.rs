//! Being called away in a drill, and coming back: the screen keeps to itself where the work stood.

use crate::desk::told;
use crate::tui::Model;
use crate::tui::drill::{Drilling, kind};
use crate::tui::page::{Page, Rank};
use crate::tui::text::{escaped, time_of};
use crate::tui::theme::Ink;
use crate::tui::walk::{Walking, lettered};

/// Writes what calls the learner away.
pub(super) fn called_away(walking: &Walking, drilling: &Drilling, _model: &Model, page: &mut Page) {
    if let Some(planned) = walking.at_hand().and_then(|at| walking.planned(at)) {
        page.say(Rank::Wanted, Ink::Dim, &escaped(&planned.name()));
    }
    if let Some(what) = drilling.run.calls() {
        page.say(Rank::Needed, Ink::Title, &escaped(what));
    }
    page.say(
        Rank::Needed,
        Ink::Strong,
        "It does not wait. The step is open; Tab holds the walk, so that you can see to it.",
    );
}

/// Writes the hold while the learner is away.
pub(super) fn away(walking: &Walking, drilling: &Drilling, model: &Model, page: &mut Page) {
    let title = match walking.walk.held() {
        Some((since, ..)) => {
            let stood = told::span(model.now.since(since));
            format!("On hold since {}, for {stood}", time_of(since))
        }
        None => "This is where the drill was left".to_owned(),
    };
    page.say(Rank::Needed, Ink::Title, &title);
    if walking.taken_up {
        kind(drilling, page);
    }
    if let Some(between) = &drilling.run.drill().scenario.between {
        page.item(Rank::Wanted, "Why:", Ink::Body, &escaped(&between.what));
    }
    page.say(
        Rank::Needed,
        Ink::Body,
        "You see to it, and come back. Enter takes the walk up; then it is asked where the work \
         goes on, and nothing here says it for you.",
    );
}

/// Writes the steps to choose from.
pub(super) fn returning(walking: &Walking, page: &mut Page) {
    page.say(
        Rank::Needed,
        Ink::Title,
        "You are back. Where does the work go on?",
    );
    let plan = walking.walk.plan();
    let steps = walking.may_return_to();
    let names = steps
        .iter()
        .map(|step| escaped(&told::step_name(plan, step)));
    page.items(Rank::Needed, &lettered(names));
}
