//! What the keys of the drill room do.

use crate::desk::{Errand, WhichDrill};
use crate::drill::Stage;
use crate::tui::field::Field;
use crate::tui::keys::Key;
use crate::tui::model::Screen;
use crate::tui::room::begin::{begin, begin_ride, begin_titled, begin_wanted};
use crate::tui::room::lines::{Line, families, front, titled};
use crate::tui::room::ride::examiners;
use crate::tui::room::{Drills, Page, Room, Who};
use crate::tui::start::{DIGITS, TAKING_UP};
use crate::tui::view::{most_scroll, rows};
use crate::tui::{Action, Model};

/// Lines that a page of titles is moved by.
const PAGE: usize = 10;

/// The stages a drill can be asked for at; a check ride is somebody else's to begin.
const STAGES: [Stage; 5] = [
    Stage::Watch,
    Stage::Guided,
    Stage::Faded,
    Stage::Solo,
    Stage::Faults,
];

/// Does what a key means in the drill room.
pub(in crate::tui) fn act(model: &mut Model, action: Action, key: Key) -> Vec<Errand> {
    let (page, end) = (rows(model).saturating_sub(1), most_scroll(model));
    let (Screen::Drills(room), Some(drills)) = (&mut model.screen, &mut model.drills) else {
        return Vec::new();
    };
    let lines = room.lines(drills);
    let place = match action {
        Action::Pick => place(key),
        _ => room.marked,
    };
    match (action, &mut room.page) {
        (Action::Back, _) => room.turn(room.page_before()),
        (Action::Begin, _) => return begin_ride(model),
        (Action::OtherStage, _) => room.other_stage(),
        (_, Page::Titles(field, marked)) => match (action, key) {
            (Action::Type, Key::Char(letter)) => {
                field.add(letter);
                *marked = Some(0);
            }
            (Action::Erase, _) if field.is_empty() => room.turn(Page::Front),
            (Action::Erase, _) => field.erase(),
            (Action::Submit, _) => return begin_titled(model),
            _ => *marked = moved(*marked, action, lines),
        },
        (_, Page::Reached | Page::BeforeRide { .. }) => {
            room.scroll = match action {
                Action::Up => room.scroll.saturating_sub(1),
                Action::Down => room.scroll + 1,
                Action::PageUp => room.scroll.saturating_sub(page),
                Action::PageDown => room.scroll + page,
                Action::Top => 0,
                Action::Bottom => end,
                _ => room.scroll,
            };
        }
        (Action::Up | Action::Down, _) => room.marked = moved(room.marked, action, lines),
        (Action::Pick | Action::Choose, _) => {
            let Some(place) = place.filter(|place| *place < lines) else {
                model.said = Some(format!(
                    "There are {lines} lines. Press the number or letter of one."
                ));
                return Vec::new();
            };
            room.marked = Some(place);
            return choose(model, place);
        }
        _ => {}
    }
    Vec::new()
}

/// Puts what was pasted where words are typed.
pub(in crate::tui) fn paste(room: &mut Room, text: &str) {
    if let Page::Titles(field, marked) = &mut room.page {
        field.paste(text);
        *marked = Some(0);
    }
}

/// The place of the line that a digit or letter means.
fn place(key: Key) -> Option<usize> {
    let place = key.place()?;
    match key {
        Key::Char('1'..='9') => Some(place),
        _ => place.checked_add(DIGITS),
    }
}

/// Does what a line says.
fn choose(model: &mut Model, place: usize) -> Vec<Errand> {
    let (Screen::Drills(room), Some(drills)) = (&mut model.screen, &mut model.drills) else {
        return Vec::new();
    };
    match &room.page {
        Page::Families => {
            let family = families(drills).get(place).map(|(family, _)| *family);
            return family.map_or_else(Vec::new, |family| begin(model, WhichDrill::About(family)));
        }
        Page::Rides => {
            if let Some(list) = drills.room.rides.get(place).cloned() {
                room.turn(Page::Examiners(list));
            }
            return Vec::new();
        }
        Page::Examiners(list) => {
            if let Some(examiner) = examiners(drills).get(place).cloned() {
                let list = list.clone();
                room.turn(Page::BeforeRide { list, examiner });
            }
            return Vec::new();
        }
        Page::Front | Page::Titles(..) | Page::Reached | Page::BeforeRide { .. } => {}
    }
    let line = front(drills, room.pending()).into_iter().nth(place);
    let Some(line) = line else {
        return Vec::new();
    };
    if let Some(which) = line.begins() {
        return begin(model, which);
    }
    match line {
        Line::TakeUp(card) => {
            let trip = card.trip.clone();
            model.busy = Some(TAKING_UP);
            return vec![Errand::TakeUp { trip }];
        }
        Line::Learner(learner) => {
            drills.who = Who::One(learner.who.name.clone());
            room.marked = None;
            return begin_wanted(model);
        }
        Line::Nobody => {
            drills.who = Who::Nobody;
            room.marked = None;
            return begin_wanted(model);
        }
        Line::OtherLearner | Line::SomebodyLearns => {
            drills.who = Who::Unsaid;
            room.marked = None;
        }
        Line::CheckRide(learner) => match &learner.examiners {
            Ok(_) => room.turn(Page::Rides),
            Err(why) => model.said = Some(why.clone()),
        },
        Line::Families => room.turn(Page::Families),
        Line::Titles => room.turn(Page::Titles(Field::default(), None)),
        Line::Reached => room.turn(Page::Reached),
        Line::Different(_) | Line::Weak(_) | Line::Due(..) | Line::Dice => {}
    }
    Vec::new()
}

/// Where the mark of a list is that has none at first.
fn moved(marked: Option<usize>, action: Action, lines: usize) -> Option<usize> {
    let last = lines.saturating_sub(1);
    match action {
        Action::Up => marked.map(|at| at.saturating_sub(1)),
        Action::Down => Some(marked.map_or(0, |at| at + 1).min(last)),
        Action::PageUp => marked.map(|at| at.saturating_sub(PAGE)),
        Action::PageDown => Some(marked.map_or(0, |at| at + PAGE).min(last)),
        _ => marked,
    }
}

impl Room {
    /// How many lines there are to choose from.
    pub(in crate::tui) fn lines(&self, drills: &Drills) -> usize {
        match &self.page {
            Page::Front => front(drills, self.pending()).len(),
            Page::Families => families(drills).len(),
            Page::Titles(field, _) => titled(drills, field.text()).len(),
            Page::Rides => drills.room.rides.len(),
            Page::Examiners(_) => examiners(drills).len(),
            Page::Reached | Page::BeforeRide { .. } => 0,
        }
    }

    fn turn(&mut self, page: Page) {
        (self.page, self.marked, self.scroll) = (page, None, 0);
    }

    /// The next stage; after the last one, the one that is reached.
    fn other_stage(&mut self) {
        let at = STAGES
            .iter()
            .position(|stage| Some(*stage) == self.wanted.stage);
        let next = at.map_or(0, |at| at + 1);
        self.wanted.stage = STAGES.get(next).copied();
    }
}
