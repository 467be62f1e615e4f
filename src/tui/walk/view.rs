//! The walk drawn: one thing at a time, whatever the machine says is next.

use crate::checklist::{Ending, Plan, PlannedStep};
use crate::tui::Model;
use crate::tui::drill;
use crate::tui::keys::Context;
use crate::tui::page::{Page, Rank};
use crate::tui::text::escaped;
use crate::tui::theme::Ink;
use crate::tui::walk::{Walking, ask, outcome, panel, standing};
use crate::walk::{Now, Status};

/// Writes what is in the middle of the screen.
pub(in crate::tui) fn body(walking: &Walking, model: &Model, page: &mut Page) {
    if let Some(panel) = &walking.panel {
        return panel::body(walking, panel, model, page);
    }
    if drill::body(walking, model, page) {
        return;
    }
    let now = walking.now();
    if !matches!(now, Now::Held | Now::Unsure) {
        return work(walking, &now, model, page);
    }
    // The step stays where it was, so that who comes back finds it again.
    if !walking.hides_place() {
        work(walking, &walking.walk.at_work(), model, page);
        page.step_back();
    }
    page.together(|page| match now {
        Now::Held => standing::held(walking, model, page),
        _ => standing::unsure(walking, model, page),
    });
}

/// Writes what is worked on.
pub(in crate::tui) fn work(walking: &Walking, now: &Now, model: &Model, page: &mut Page) {
    match (now.clone(), walking.answered) {
        (Now::Branch(at), _) => {
            branch(walking, at, page);
            drill::feedback(walking, page);
        }
        (Now::Remark(at), _) => {
            drill::feedback(walking, page);
            remark(walking, at, page);
        }
        (_, Some(at)) => {
            outcome::body(walking, at, page);
            drill::feedback(walking, page);
        }
        (Now::Next(at), None) => ask::next(walking, at, page),
        (Now::Open(at), None) => ask::open(walking, at, model, page),
        (Now::SectionEnd(section), None) => section_end(walking, section, page),
        (Now::Finished, None) => finished(walking, page),
        (Now::Held | Now::Unsure | Now::Ended(_), None) => {}
    }
}

/// A bad answer: what was found, what to do now, how it ends.
fn branch(walking: &Walking, at: usize, page: &mut Page) {
    let Some((planned, state)) = walking.walk.step(at) else {
        return;
    };
    page.say(Rank::Needed, Ink::Title, &planned.name());
    if let Some(answer) = state.answers.last() {
        outcome::found(walking, planned, answer, page);
    }
    let Status::Bad { branch, .. } = &state.status else {
        return;
    };
    let Some(branch) = walking.walk.plan().branch(branch) else {
        return;
    };
    page.item(Rank::Needed, "Found:", Ink::Body, &escaped(&branch.found));
    let mut now: Vec<(String, Ink, String)> = branch
        .now
        .iter()
        .map(|line| ("  -".to_owned(), Ink::Strong, escaped(line)))
        .collect();
    now.insert(0, ("Do now:".to_owned(), Ink::Strong, String::new()));
    page.items(Rank::Needed, &now);
    page.item(
        Rank::Needed,
        "Ends:",
        Ink::Body,
        how_it_ends(branch.ends, walking),
    );
}

/// How a branch ends, by the keys of whoever walks; a worked run has none of them.
fn how_it_ends(ends: Ending, walking: &Walking) -> &'static str {
    match (ends, walking.drill.is_some()) {
        (Ending::AnswerAfresh, _) if walking.is_watched() => {
            "when it is put right; the step is then answered afresh."
        }
        (Ending::AnswerAfresh, _) => "r when it is put right; the step is then answered afresh.",
        (Ending::NotFitToGo, _) if walking.is_watched() => {
            "it cannot be put right here. The drill ends as not fit to go."
        }
        (Ending::NotFitToGo, true) => {
            "it cannot be put right here. e ends the drill as not fit to go."
        }
        (Ending::NotFitToGo, false) => {
            "it cannot be put right here. e ends the trip as not fit to go."
        }
    }
}

fn remark(walking: &Walking, at: usize, page: &mut Page) {
    let Some((planned, state)) = walking.walk.step(at) else {
        return;
    };
    page.say(Rank::Needed, Ink::Title, &planned.name());
    if let Some(answer) = state.answers.last() {
        outcome::found(walking, planned, answer, page);
    }
    page.say(
        Rank::Needed,
        Ink::Strong,
        "Why can this be lived with, and by when is it closed?",
    );
    page.field(">", walking.field.text(), "");
}

fn section_end(walking: &Walking, section: usize, page: &mut Page) {
    let Some(section) = walking.walk.plan().sections().get(section) else {
        return;
    };
    page.say(
        Rank::Needed,
        Ink::Title,
        &escaped(&format!("End of section: {}", section.title)),
    );
    page.say(Rank::Needed, Ink::Strong, &escaped(&section.complete));
    let asked = if walking.is_watched() {
        "Is that so? Whoever reads states it; it stands in the record."
    } else {
        "Is that so? c states it; it stands in the record."
    };
    page.say(Rank::Needed, Ink::Body, asked);
}

fn finished(walking: &Walking, page: &mut Page) {
    page.say(Rank::Needed, Ink::Title, "Every section is complete");
    let tally = walking.walk.tally();
    let text = format!(
        "Answers: {} ok, {} note, {} fix, {} stop, counting those that were put right.",
        tally.ok, tally.note, tally.fix, tally.stop
    );
    page.say(Rank::Needed, Ink::Body, &text);
    // A run that is watched is ended as it is played.
    if walking.drill.is_none() {
        page.say(
            Rank::Needed,
            Ink::Strong,
            "f ends the walk as complete; then it is signed.",
        );
    }
}

/// How many numbered or lettered lines the screen has.
pub(in crate::tui) fn choices(walking: &Walking, model: &Model) -> usize {
    use crate::checklist::PlannedAsk;
    use crate::rules::Verdict;
    let planned = walking.at_hand().and_then(|at| walking.planned(at));
    match (walking.context(), planned.map(|planned| &planned.ask)) {
        (
            Context::Sighting | Context::Looking,
            Some(PlannedAsk::Sighting(ask) | PlannedAsk::Independent(ask)),
        ) => ask.states.len(),
        (Context::Instrument, _) => walking.tools().len(),
        (Context::Measuring, _) => Verdict::WORDS.len(),
        (Context::Returning, _) => walking.may_return_to().len(),
        (Context::Second, _) => {
            let names: Vec<String> = model.crew().iter().map(|card| card.name.clone()).collect();
            walking.others(&names).len()
        }
        (Context::TakeBack, _) => walking.done_here().len(),
        _ => model.crew().len(),
    }
}

impl Walking {
    /// The step whose part a drawing marks; none while a panel lies over it.
    pub(in crate::tui) fn drawn_step(&self) -> Option<(&Plan, &PlannedStep)> {
        let at = self.here().filter(|_| self.panel.is_none())?;
        Some((self.walk.plan(), self.planned(at)?))
    }

    /// The step the heading names: the one at hand, or the one the walk stands still at.
    pub(in crate::tui) fn here(&self) -> Option<usize> {
        match self.walk.now() {
            _ if self.hides_place() => None,
            Now::Held | Now::Unsure => self.stopped_at(),
            _ => self.at_hand(),
        }
    }

    /// Whether the screen keeps to itself where the work stands, because a drill asks it.
    pub(in crate::tui) fn hides_place(&self) -> bool {
        self.drill.as_ref().is_some_and(|drill| drill.is_away())
    }

    /// The step at hand, also while the walk stands still.
    pub(super) fn stopped_at(&self) -> Option<usize> {
        self.at_hand()
            .or_else(|| self.begun())
            .or_else(|| self.first_waiting())
    }

    /// The step being worked on.
    fn begun(&self) -> Option<usize> {
        self.walk.steps().iter().position(|step| {
            matches!(
                step.status,
                Status::Open(_) | Status::Doubted(..) | Status::Bad { .. } | Status::NoteOwed
            )
        })
    }

    fn first_waiting(&self) -> Option<usize> {
        let waits = |(at, step): &(usize, &crate::walk::StepState)| {
            matches!(step.status, Status::Waiting(_)) && self.walk.left_out(*at).is_none()
        };
        self.walk
            .steps()
            .iter()
            .enumerate()
            .find(waits)
            .map(|(at, _)| at)
    }
}
