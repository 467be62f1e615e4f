//! A drill begun from the drill room, by a line of it or as the program was asked for it.

use crate::desk::{AskedDrill, DrillRoom, Errand, WhichDrill, told};
use crate::tui::Model;
use crate::tui::drill::THROWING;
use crate::tui::model::Screen;
use crate::tui::room::lines::titled;
use crate::tui::room::{Drills, Page, Who};

/// Takes in what there is to drill with. Where a drill was asked for and it is known who learns, it
/// begins.
pub(in crate::tui) fn seen(model: &mut Model, seen: DrillRoom) -> Vec<Errand> {
    let mut drills = Drills::seen(seen, model.drills.as_ref());
    if let Screen::Drills(room) = &mut model.screen
        && let Some(named) = room.wanted.learner.take()
    {
        match drills.room.named(&named) {
            Ok(learner) => drills.who = Who::One(learner.who.name.clone()),
            Err(why) => model.said = Some(why),
        }
    }
    model.drills = Some(drills);
    begin_wanted(model)
}

/// Begins the drill the program was asked for, as soon as it is known who learns.
pub(super) fn begin_wanted(model: &mut Model) -> Vec<Errand> {
    let (Screen::Drills(room), Some(drills)) = (&mut model.screen, &model.drills) else {
        return Vec::new();
    };
    if !drills.is_ready() {
        return Vec::new();
    }
    let wanted = room.wanted.which.take();
    wanted.map_or_else(Vec::new, |which| begin(model, which))
}

/// Begins the drill of the marked title.
pub(super) fn begin_titled(model: &mut Model) -> Vec<Errand> {
    let (Screen::Drills(room), Some(drills)) = (&model.screen, &model.drills) else {
        return Vec::new();
    };
    let Page::Titles(field, marked) = &room.page else {
        return Vec::new();
    };
    let found = titled(drills, field.text());
    let Some(card) = marked.and_then(|at| found.get(at)) else {
        model.said = Some("Mark a line with the arrows, or type a part of its words.".to_owned());
        return Vec::new();
    };
    let which = WhichDrill::Named(card.id.clone());
    begin(model, which)
}

/// Begins the check ride of which everything is said.
pub(super) fn begin_ride(model: &mut Model) -> Vec<Errand> {
    let Screen::Drills(room) = &model.screen else {
        return Vec::new();
    };
    let Page::BeforeRide { list, examiner } = &room.page else {
        return Vec::new();
    };
    let which = WhichDrill::CheckRide {
        list: list.clone(),
        examiner: examiner.clone(),
    };
    begin(model, which)
}

/// Asks the world for a drill.
pub(super) fn begin(model: &mut Model, which: WhichDrill) -> Vec<Errand> {
    let (Screen::Drills(room), Some(drills)) = (&model.screen, &model.drills) else {
        return Vec::new();
    };
    let asked = AskedDrill {
        which,
        learner: drills.name().unwrap_or_default().to_owned(),
        stage: room.wanted.stage,
        seed: room.wanted.seed,
    };
    model.busy = Some(THROWING);
    vec![Errand::BeginDrill(asked)]
}

/// What begins once it is said who learns, in words.
pub(super) fn in_words(which: &WhichDrill, drills: &Drills) -> String {
    match which {
        WhichDrill::Any => "a drill by the dice".to_owned(),
        WhichDrill::Named(id) => {
            let mut cards = drills.room.scenarios.iter();
            let card = cards.find(|card| card.id == *id);
            card.map_or(id.as_str(), |card| &card.title).to_owned()
        }
        WhichDrill::About(family) => format!("a drill about {}", family.label()),
        WhichDrill::OfStep { list, step } => told::listed_step(list, step),
        WhichDrill::CheckRide { list, examiner } => {
            let known = drills.room.named(examiner).ok();
            let examiner = known.map_or(examiner, |known| &known.who.name);
            let list = told::list_title(list);
            format!("the check ride of {list}, examined by {examiner}")
        }
    }
}
