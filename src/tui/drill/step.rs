//! A step of a drill before its answer: from where it can be looked at and what was seen from
//! there, what its instrument showed, and what the reading is called.

use crate::checklist::PlannedStep;
use crate::drill::{Vantage, WELCOME};
use crate::rules::Verdict;
use crate::text::capital;
use crate::tui::Context;
use crate::tui::drill::Drilling;
use crate::tui::keys::letter;
use crate::tui::page::{Page, Rank};
use crate::tui::text::escaped;
use crate::tui::theme::Ink;
use crate::tui::walk::{Walking, lettered};

/// Writes what the learner is told before the first step.
pub(in crate::tui) fn tale(drilling: &Drilling, page: &mut Page) {
    let scenario = &drilling.run.drill().scenario;
    page.say(Rank::Needed, Ink::Title, &escaped(&scenario.title));
    kind(drilling, page);
    page.say(Rank::Wanted, Ink::Body, WELCOME);
    page.say(Rank::Needed, Ink::Body, &escaped(&scenario.tale));
    if let Some(hurry) = &scenario.hurry {
        let told = format!("Somebody says: “{}”", escaped(hurry));
        page.say(Rank::Needed, Ink::Strong, &told);
    }
}

/// Writes how much help there is, and of a check ride who examines and what passes it.
pub(in crate::tui) fn kind(drilling: &Drilling, page: &mut Page) {
    let stage = format!("Stage: {}.", drilling.run.stage().label());
    page.say(Rank::Needed, Ink::Body, &stage);
    if let Some(examiner) = drilling.run.examiner() {
        let rule = drilling.run.grading().pass_rule();
        let told = format!("Examined by {examiner}. {rule}");
        page.say(Rank::Needed, Ink::Body, &escaped(&told));
    }
}

/// Writes what stands above the answer: what the program says of the step, and the places it can
/// be looked at from, each with what was seen from there.
pub(in crate::tui) fn above_the_answer(
    walking: &Walking,
    drilling: &Drilling,
    planned: &PlannedStep,
    page: &mut Page,
) {
    let scenario = &drilling.run.drill().scenario;
    if let Some(hint) = scenario.hint.as_ref().filter(|hint| hint.at == planned.key) {
        page.say(Rank::Needed, Ink::Strong, &escaped(&hint.says));
    }
    let places = drilling.run.drill().vantages(planned);
    // Until it is said who looks nobody does, and the letters are those of the people.
    if places.is_empty() || is_unnamed(walking) {
        return;
    }
    let told = places.into_iter().map(|from| drilling.from(from));
    page.items(Rank::Needed, &lettered(told));
}

/// Writes the help a learner still has with the step, and what comes of skipping it.
pub(in crate::tui) fn at_the_end_of_a_step(
    walking: &Walking,
    drilling: &Drilling,
    planned: &PlannedStep,
    page: &mut Page,
) {
    // Whoever watches is told what is looked at, and presses none of these letters.
    let is_hinted = drilling.run.gives_hint(&planned.key) && !drilling.is_watched();
    if !is_hinted || is_unnamed(walking) {
        return;
    }
    if let Some(hint) = hint(drilling, planned) {
        page.say(Rank::Wanted, Ink::Body, &hint);
    }
}

/// From where the step shows itself, by the letters and words of the choices above it.
fn hint(drilling: &Drilling, planned: &PlannedStep) -> Option<String> {
    let drill = drilling.run.drill();
    let places = drill.vantages(planned);
    let choice = |from: Vantage| {
        let at = places.iter().position(|place| *place == from);
        let key = at.and_then(letter).unwrap_or_default();
        format!("{} ({key})", from.label())
    };
    drill.shows_from_as(planned, &choice)
}

/// Whether a second person looks or reads, and it is not said yet who.
fn is_unnamed(walking: &Walking) -> bool {
    let open = walking.at_hand();
    open.is_some_and(|at| walking.answer_context(at) == Context::Second)
}

/// Writes an instrument in hand: what it showed, and what the reading is called.
pub(in crate::tui) fn measuring(
    walking: &Walking,
    drilling: &Drilling,
    typing: bool,
    page: &mut Page,
) {
    for showed in &drilling.measured {
        page.say(Rank::Needed, Ink::Strong, &escaped(showed));
    }
    if typing {
        if let Some(called) = &drilling.called {
            page.say(Rank::Wanted, Ink::Body, &escaped(called));
        }
        return;
    }
    let again = if drilling.measured.is_empty() {
        "put it to this step"
    } else {
        "put it there again"
    };
    let key = |head: &str, text: &str| (head.to_owned(), Ink::Body, text.to_owned());
    page.items(Rank::Needed, &[key("m", again)]);
    if !walking.is_called() {
        page.say(
            Rank::Needed,
            Ink::Body,
            "Enter goes on to typing what it shows.",
        );
        return;
    }
    page.say(
        Rank::Needed,
        Ink::Strong,
        "What does the reading come to? It is called before it is typed.",
    );
    let verdicts = (1..).zip(Verdict::WORDS);
    let lines: Vec<(String, Ink, String)> = verdicts
        .map(|(number, (word, verdict))| {
            let number: usize = number;
            key(&number.to_string(), &format!("{word}: {}", means(verdict)))
        })
        .collect();
    page.items(Rank::Needed, &lines);
}

/// What a call means for the work.
fn means(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Ok => "inside every limit",
        Verdict::Note => "goes on, with words beside it",
        Verdict::Fix => "put right now",
        Verdict::Stop => "the rig does not move",
    }
}

impl Drilling {
    /// A place to look from: what was seen from there, or what it is.
    fn from(&self, from: Vantage) -> String {
        let seen = self.seen.iter().find(|(known, _)| *known == from);
        seen.map_or_else(|| capital(from.label()), |(_, told)| escaped(told))
    }
}
