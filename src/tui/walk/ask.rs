//! A step before its answer: warning first, then what to do, with what, and the field.

use crate::checklist::{PlannedAsk, PlannedStep, SightingAsk, Tool};
use crate::desk::earlier;
use crate::rig::Instrument;
use crate::tui::drill;
use crate::tui::keys::letter;
use crate::tui::page::{Page, Rank};
use crate::tui::text::escaped;
use crate::tui::theme::Ink;
use crate::tui::walk::outcome::limit_lines;
use crate::tui::walk::{Walking, mark};
use crate::tui::{Context, Model};
use crate::walk::{Round, Status};

/// Writes a step that waits to be begun.
pub(super) fn next(walking: &Walking, at: usize, page: &mut Page) {
    let Some((planned, state)) = walking.walk.step(at) else {
        return;
    };
    if walking
        .walk
        .steps()
        .iter()
        .all(|step| step.opened.is_none())
    {
        if let Some(drilling) = &walking.drill {
            drill::tale(drilling, page);
        }
        for caution in &walking.walk.plan().checklist().cautions {
            page.marked("CAUTION:", Ink::Warning, &escaped(caution));
        }
        if let Some(carried) = earlier::carried_in(walking.walk.plan()) {
            page.item(
                Rank::Needed,
                "Left open before:",
                Ink::Strong,
                &escaped(&carried),
            );
        }
    }
    section_line(walking, planned, page);
    page.say(
        Rank::Needed,
        Ink::Title,
        &format!("Next: {}", planned.name()),
    );
    if let Status::Deferred { words, .. } = &state.status {
        let text = format!("It was put off: {}. Now it is due.", words.as_str());
        page.say(Rank::Needed, Ink::Strong, &escaped(&text));
    }
    round_line(&state.status, page);
    page.say(Rank::Needed, Ink::Body, &escaped(&planned.step.act));
    page.say(Rank::Wanted, Ink::Body, "Enter begins the step.");
    rest_of_section(walking, at, page);
}

/// Writes a step that is begun.
pub(super) fn open(walking: &Walking, at: usize, model: &Model, page: &mut Page) {
    let Some((planned, state)) = walking.walk.step(at) else {
        return;
    };
    section_line(walking, planned, page);
    if let Some(warning) = &planned.step.warning {
        page.marked("WARNING:", Ink::Warning, &escaped(warning));
    }
    page.say(Rank::Needed, Ink::Title, &planned.name());
    round_line(&state.status, page);
    page.say(Rank::Needed, Ink::Strong, &escaped(&planned.step.act));
    if let Some(drilling) = &walking.drill {
        drill::above_the_answer(walking, drilling, planned, page);
    }
    match &planned.ask {
        PlannedAsk::Reading { ask, .. } if ask.second => match &walking.second {
            Some(who) => {
                page.item(Rank::Needed, "Reads:", Ink::Strong, &escaped(who));
                reading(walking, at, page);
            }
            None => second("A second person reads, alone. Who?", walking, model, page),
        },
        PlannedAsk::Reading { .. } => reading(walking, at, page),
        PlannedAsk::Sighting(ask) => states(ask, page),
        PlannedAsk::Independent(ask) => match &walking.second {
            Some(who) => {
                page.item(Rank::Needed, "Looks:", Ink::Strong, &escaped(who));
                states(ask, page);
            }
            None => second("A second person looks, alone. Who?", walking, model, page),
        },
    }
    if let Some(drilling) = &walking.drill {
        drill::at_the_end_of_a_step(walking, drilling, planned, page);
    }
    page.item(Rank::Useful, "Why:", Ink::Body, &escaped(&planned.step.why));
    page.item(
        Rank::Extra,
        "If skipped:",
        Ink::Body,
        &escaped(&planned.step.skipped),
    );
    rest_of_section(walking, at, page);
}

fn section_line(walking: &Walking, planned: &PlannedStep, page: &mut Page) {
    let Some(section) = walking.walk.plan().sections().get(planned.section) else {
        return;
    };
    let stop = if section.pause {
        "PAUSE, everything else stops: "
    } else {
        ""
    };
    let rank = if section.pause {
        Rank::Needed
    } else {
        Rank::Extra
    };
    page.say(
        rank,
        Ink::Body,
        &escaped(&format!("{stop}{}", section.title)),
    );
}

/// Why a step is asked again.
fn round_line(status: &Status, page: &mut Page) {
    let (Status::Waiting(round) | Status::Open(round) | Status::Doubted(round, _)) = status else {
        return;
    };
    let text = match round {
        Round::First => return,
        Round::MeasuredAgain => "Measured again: a limit lay inside the instrument's error.",
        Round::PutRight => "Answered afresh, because something was put right.",
        Round::ReLook => "Looked at again, because time or people came between.",
        Round::Correction => "Answered afresh, because the answer was taken back.",
    };
    page.say(Rank::Wanted, Ink::Body, text);
}

fn reading(walking: &Walking, at: usize, page: &mut Page) {
    let Some(planned) = walking.walk.asked(at) else {
        return;
    };
    let PlannedAsk::Reading { ask, limits, .. } = &planned.ask else {
        return;
    };
    let Some(id) = &walking.instrument else {
        page.say(Rank::Needed, Ink::Strong, "Which instrument is in hand?");
        page.items(Rank::Needed, &lettered(walking.tools().iter().map(tool)));
        return;
    };
    if let Some(instrument) = walking.walk.plan().rig().instrument(id) {
        page.item(Rank::Needed, "With:", Ink::Body, &told(instrument));
    }
    let typing = walking.context() != Context::Measuring;
    if let Some(drilling) = &walking.drill {
        drill::measuring(walking, drilling, typing, page);
    }
    if typing {
        // The unit is typed with the number: no field says for a person what they read off.
        let tail = match walking.barn.units.unit_for(ask.unit).symbol() {
            "" => String::new(),
            unit => format!("with its unit ({unit})"),
        };
        page.field("Reading:", walking.field.text(), &tail);
    }
    if planned.step.blind {
        page.say(
            Rank::Extra,
            Ink::Body,
            "The limits are shown after the reading.",
        );
        return;
    }
    limit_lines(limits.iter(), walking.barn.units, page);
}

/// An instrument with its range, as it lies in the box.
fn told(instrument: &Instrument) -> String {
    let span = instrument
        .span
        .as_ref()
        .map(|(low, high)| format!(", {low} to {high}"));
    escaped(&format!("{}{}", instrument.name, span.unwrap_or_default()))
}

/// The same for the choice, with why it is refused where it is.
fn tool(tool: &Tool<'_>) -> String {
    match &tool.unfit {
        Some(unfit) => escaped(&format!("{}: {}", tool.instrument.name, unfit.reason())),
        None => told(tool.instrument),
    }
}

/// The states by number. None is marked beforehand.
fn states(ask: &SightingAsk, page: &mut Page) {
    let states = (1..).zip(&ask.states);
    let lines: Vec<(String, Ink, String)> = states
        .map(|(number, state): (usize, _)| (number.to_string(), Ink::Body, escaped(&state.seen)))
        .collect();
    page.items(Rank::Needed, &lines);
}

fn second(question: &str, walking: &Walking, model: &Model, page: &mut Page) {
    page.say(Rank::Needed, Ink::Strong, question);
    let names: Vec<String> = model.crew().iter().map(|card| card.name.clone()).collect();
    let others = walking.others(&names).into_iter().map(|name| escaped(name));
    page.items(Rank::Needed, &lettered(others));
    page.items(
        Rank::Needed,
        &[("o".to_owned(), Ink::Body, "another person".to_owned())],
    );
}

/// Lines by letter.
pub(in crate::tui) fn lettered(lines: impl Iterator<Item = String>) -> Vec<(String, Ink, String)> {
    let head = |at| letter(at).map_or(" ".to_owned(), |letter| letter.to_string());
    lines
        .enumerate()
        .map(|(at, text)| (head(at), Ink::Body, text))
        .collect()
}

/// Steps that follow in the section: the next one where steps are read and then done, all of them
/// where they are done from memory and then confirmed.
fn rest_of_section(walking: &Walking, at: usize, page: &mut Page) {
    use crate::checklist::Style;
    let plan = walking.walk.plan();
    let section = plan
        .steps()
        .get(at)
        .and_then(|step| plan.sections().get(step.section));
    let Some(section) = section else {
        return;
    };
    let all = section.first..section.first + section.count;
    let (rank, steps): (Rank, Vec<usize>) = match section.style {
        Style::ReadDo => (Rank::Extra, (at + 1..all.end).take(1).collect()),
        Style::DoConfirm => (Rank::Useful, all.collect()),
    };
    let lines: Vec<(String, Ink, String)> = steps
        .into_iter()
        .filter_map(|step| Some((step, plan.steps().get(step)?.name())))
        .map(|(step, name)| (mark(walking, step).to_owned(), Ink::Dim, escaped(&name)))
        .collect();
    if !lines.is_empty() {
        page.items(rank, &lines);
    }
}
