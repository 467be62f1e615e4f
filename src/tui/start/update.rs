//! What the keys of the first screen do.

use crate::desk::{Errand, PutQuestion, RigCard};
use crate::record::Mode;
use crate::tui::keys::Key;
use crate::tui::model::Screen;
use crate::tui::start::{Choice, DIGITS, Setup, Start, TAKING_UP, usual_pair};
use crate::tui::view::{most_scroll, rows};
use crate::tui::{Action, Model};

/// The word shown while a walk is begun.
const BEGINNING: &str = "laying the checklist on the rig";

/// The word shown while a record is read.
pub(in crate::tui) const READING: &str = "checking the record";

/// Does what a key means on the first screen.
pub(in crate::tui) fn act(model: &mut Model, action: Action, key: Key) -> Vec<Errand> {
    if matches!(&model.screen, Screen::Start(start) if start.read.is_some()) {
        read(model, action);
        return Vec::new();
    }
    let Screen::Start(start) = &mut model.screen else {
        return Vec::new();
    };
    let barn = model.barn.as_ref();
    let lines = barn.map_or(0, |barn| start.choices(barn).len());
    match action {
        Action::Up => start.marked = start.marked.saturating_sub(1),
        Action::Down => start.marked = (start.marked + 1).min(lines.saturating_sub(1)),
        Action::Choose => {
            let marked = start.marked;
            return choose(model, marked, false);
        }
        Action::ChooseWho => {
            let marked = start.marked;
            return choose(model, marked, true);
        }
        Action::Pick => {
            let place = key.place().unwrap_or(usize::MAX);
            return if start.setup.is_some() {
                person(model, place)
            } else if matches!(key, Key::Char('1'..='9')) {
                choose(model, place, false)
            } else {
                choose(model, place.saturating_add(DIGITS), false)
            };
        }
        Action::TryRig => {
            let marked = start.marked;
            return look_at_rig(model, marked);
        }
        Action::Matters => start.read = Some(0),
        Action::Back if start.setup.is_none() => shut(model),
        Action::Back => back(&mut start.setup),
        Action::Type => {
            if let (Some(setup), Key::Char(letter)) = (&mut start.setup, key) {
                setup.field_mut().add(letter);
            }
        }
        Action::Erase => match &mut start.setup {
            Some(setup) if !setup.field().is_empty() => setup.field_mut().erase(),
            setup => back(setup),
        },
        Action::Submit => {
            if let Some(setup) = &mut start.setup
                && setup.asked.now().is_some()
            {
                model.said = setup.answer().err();
                return Vec::new();
            }
            // The setup stays on the screen until the walk is there.
            return start
                .setup
                .clone()
                .map_or_else(Vec::new, |setup| begin(model, &setup));
        }
        _ => {}
    }
    Vec::new()
}

/// Does what a line says.
fn choose(model: &mut Model, place: usize, ask_who: bool) -> Vec<Errand> {
    let (Some(barn), Screen::Start(start)) = (&model.barn, &mut model.screen) else {
        return Vec::new();
    };
    let lines = start.choices(barn);
    let Some(choice) = lines.get(place) else {
        model.said = Some(format!(
            "There are {} lines. Press the number or letter of one.",
            lines.len()
        ));
        return Vec::new();
    };
    start.marked = place;
    match choice {
        Choice::TakeUp(card) => {
            model.busy = Some(TAKING_UP);
            vec![Errand::TakeUp {
                trip: card.trip.clone(),
            }]
        }
        Choice::Read(card) => {
            model.busy = Some(READING);
            vec![Errand::Show {
                trip: card.trip.clone(),
            }]
        }
        Choice::Rig(rig) => {
            (start.rig, start.marked) = (Some(rig.id.clone()), 0);
            Vec::new()
        }
        Choice::Begin(list, rig) => {
            if let Some(why) = &barn.no_walk {
                model.said = Some(why.clone());
                return Vec::new();
            }
            let mut setup = Setup::new(list, rig);
            // The demo begins with one key; a real walk asks who is there.
            let pair = usual_pair(&barn.crew).filter(|_| barn.mode == Mode::Demo && !ask_who);
            if let Some((reader, doer)) = pair {
                (setup.reader, setup.doer) = (Some(reader), Some(doer));
                return begin(model, &setup);
            }
            let errand = asks(&setup);
            start.asked = Some(setup);
            vec![errand]
        }
    }
}

/// Asks whether a walk may begin, with whoever is named so far.
fn asks(setup: &Setup) -> Errand {
    let people = [&setup.reader, &setup.doer];
    Errand::MayBegin {
        rig: setup.rig.clone(),
        checklist: setup.checklist.clone(),
        people: people.into_iter().flatten().cloned().collect(),
    }
}

/// The walk may begin: the next question is asked, and what to know stands above it.
pub(in crate::tui) fn may_begin(
    model: &mut Model,
    notices: Vec<String>,
    questions: Vec<PutQuestion>,
) {
    if let Screen::Start(start) = &mut model.screen {
        let asked = start.asked.take().or(start.setup.take());
        start.setup = asked.map(|mut setup| {
            setup.notices = notices;
            setup.asked.put(questions);
            setup.show_typed();
            setup
        });
    }
}

/// It may not, which is said: nothing more is asked for it.
pub(in crate::tui) fn may_not_begin(model: &mut Model) {
    if let Screen::Start(start) = &mut model.screen {
        start.asked = None;
    }
}

/// Asks for the rig of a line.
fn look_at_rig(model: &Model, place: usize) -> Vec<Errand> {
    let (Some(barn), Screen::Start(start)) = (&model.barn, &model.screen) else {
        return Vec::new();
    };
    let rig = match start.choices(barn).get(place) {
        Some(Choice::Rig(rig)) => Some(*rig),
        _ => start.page(barn),
    };
    let look = |rig: &RigCard| Errand::LookAtRig {
        rig: rig.id.clone(),
    };
    rig.map(look).into_iter().collect()
}

/// Moves in everything that is open and due, or leaves it.
fn read(model: &mut Model, action: Action) {
    let page = rows(model).saturating_sub(1);
    let end = most_scroll(model);
    let Screen::Start(Start { read, .. }) = &mut model.screen else {
        return;
    };
    let at = read.unwrap_or_default();
    *read = match action {
        Action::Up => Some(at.saturating_sub(1)),
        Action::Down => Some(at + 1),
        Action::PageUp => Some(at.saturating_sub(page)),
        Action::PageDown => Some(at + page),
        Action::Top => Some(0),
        Action::Bottom => Some(end),
        Action::Back => None,
        _ => Some(at),
    };
}

/// From the page of a rig back to the first screen, with its line marked.
fn shut(model: &mut Model) {
    let (Some(barn), Screen::Start(start)) = (&model.barn, &mut model.screen) else {
        return;
    };
    let shut = start.rig.take();
    let lines = start.choices(barn);
    let its =
        |choice: &Choice<'_>| matches!(choice, Choice::Rig(rig) if Some(&rig.id) == shut.as_ref());
    start.marked = lines.iter().position(its).unwrap_or(0);
}

/// Takes a person, first as reader, then as doer. One person may be both.
fn person(model: &mut Model, place: usize) -> Vec<Errand> {
    let name = model.crew().get(place).map(|card| card.name.clone());
    let Screen::Start(start) = &mut model.screen else {
        return Vec::new();
    };
    match (name, &mut start.setup) {
        (Some(name), Some(setup)) if setup.reader.is_none() => setup.reader = Some(name),
        (Some(name), Some(setup)) => setup.doer = Some(name),
        _ => {
            model.said = Some("Press the number of a person listed.".to_owned());
            return Vec::new();
        }
    }
    start.setup.iter().map(asks).collect()
}

/// One question back.
fn back(setup: &mut Option<Setup>) {
    match setup {
        Some(open) if open.doer.is_some() => {
            if !open.back_to_question() {
                open.doer = None;
                open.asked.put(Vec::new());
            }
        }
        Some(open) if open.reader.is_some() => open.reader = None,
        _ => *setup = None,
    }
}

/// Asks the world for the walk.
fn begin(model: &mut Model, setup: &Setup) -> Vec<Errand> {
    let (Some(reader), Some(doer)) = (&setup.reader, &setup.doer) else {
        return Vec::new();
    };
    model.busy = Some(BEGINNING);
    vec![Errand::Begin {
        rig: setup.rig.clone(),
        checklist: setup.checklist.clone(),
        reader: reader.clone(),
        doer: doer.clone(),
        odometer: setup.odometer.text().trim().to_owned(),
        walked: String::new(),
        answers: setup.asked.answers(),
    }]
}
