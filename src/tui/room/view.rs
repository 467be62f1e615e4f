//! The drill room drawn.

use crate::desk::DrillWanted;
use crate::drill::{Stage, Tally, WELCOME};
use crate::text::capital;
use crate::tui::Model;
use crate::tui::page::{Listed, Page, Rank};
use crate::tui::room::begin::in_words;
use crate::tui::room::lines::{families, front, titled};
use crate::tui::room::reached::{self, stage_word};
use crate::tui::room::{self, Drills, Room, Who, ride};
use crate::tui::start::label;
use crate::tui::text::escaped;
use crate::tui::theme::Ink;

/// Who learns, and at which stage a drill is played.
pub(in crate::tui) fn heading(room: &Room, drills: Option<&Drills>) -> Vec<(Ink, String)> {
    let who = drills.map(|drills| &drills.who);
    let first = match (&room.page, who) {
        (room::Page::Reached, Some(Who::One(name))) => format!("Drill room  how far {name} is"),
        (_, Some(Who::One(name))) => format!("Drill room  {name} learns"),
        (_, Some(Who::Nobody)) => "Drill room  nobody learns".to_owned(),
        (_, Some(Who::Unsaid) | None) => "Drill room".to_owned(),
    };
    let mut lines = vec![(Ink::Strong, escaped(&first))];
    if drills.is_some_and(Drills::is_ready) {
        lines.push((Ink::Body, next(room, matches!(who, Some(Who::One(_))))));
    }
    lines
}

/// The stage of what begins from here, and its seed where one is named.
fn next(room: &Room, learns: bool) -> String {
    use room::Page::{BeforeRide, Examiners, Rides};
    let DrillWanted { stage, seed, .. } = room.wanted;
    let rides = matches!(room.page, Rides | Examiners(_) | BeforeRide { .. });
    let stage = match stage {
        _ if rides => stage_word(Stage::CheckRide),
        Some(stage) => stage_word(stage),
        None if learns => "the one reached",
        None => "guided, unless another is named",
    };
    let seed = seed.map_or_else(String::new, |seed| format!("  Seed: {seed}"));
    format!("Stage: {stage}{seed}")
}

/// Writes the page.
pub(in crate::tui) fn body(room: &Room, model: &Model, page: &mut Page) {
    let Some(drills) = &model.drills else {
        let told = match &model.said {
            Some(_) => "The drill room could not be opened. Why stands below.",
            None => "Looking at what there is to drill with.",
        };
        return page.say(Rank::Needed, Ink::Body, told);
    };
    match &room.page {
        room::Page::Front => front_page(room, drills, page),
        room::Page::Families => family_page(room, drills, page),
        room::Page::Titles(field, marked) => {
            page.field("Find:", field.text(), "");
            title_page(field.text(), *marked, drills, page);
        }
        room::Page::Reached => reached::body(drills, page),
        room::Page::Rides => ride::lists(room, drills, page),
        room::Page::Examiners(_) => ride::people(room, drills, page),
        room::Page::BeforeRide { list, examiner } => ride::before(list, examiner, drills, page),
    }
}

fn front_page(room: &Room, drills: &Drills, page: &mut Page) {
    page.say(Rank::Useful, Ink::Body, WELCOME);
    if let Some(why) = &drills.room.unrecorded {
        page.say(Rank::Needed, Ink::Strong, &escaped(why));
    }
    if let Some(which) = room.pending() {
        let told = format!("Then it begins: {}.", in_words(which, drills));
        page.say(Rank::Needed, Ink::Body, &escaped(&told));
    }
    let lines = front(drills, room.pending());
    let mut number = 0_usize;
    for group in lines.chunk_by(|one, other| one.title() == other.title()) {
        let first = number;
        let items = group.iter().map(|line| {
            let head = label(number);
            number += 1;
            let (text, tail) = line.told();
            Listed {
                head,
                text: escaped(&text),
                tail: escaped(&tail),
            }
        });
        let items: Vec<Listed> = items.collect();
        page.together(|page| {
            if let Some(line) = group.first() {
                page.say(Rank::Wanted, Ink::Strong, line.title());
            }
            page.listed(&items, room.marked.and_then(|at| at.checked_sub(first)));
        });
    }
}

fn family_page(room: &Room, drills: &Drills, page: &mut Page) {
    page.say(Rank::Wanted, Ink::Strong, "A drill by the dice, about");
    let families = families(drills).into_iter().enumerate();
    let items = families.map(|(at, (family, tally))| {
        let name = capital(family.label());
        let (text, tail) = match tally {
            Some(tally) => (format!("{name}:"), counts(tally)),
            None => (name, String::new()),
        };
        let head = label(at);
        Listed { head, text, tail }
    });
    page.listed(&items.collect::<Vec<_>>(), room.marked);
}

/// Faults caught and missed, and what else went wrong.
fn counts(tally: Tally) -> String {
    let mut told = format!("caught {}, missed {}", tally.caught, tally.missed);
    for (count, what) in [
        (tally.false_alarms, "called wrong"),
        (tally.omissions, "not looked at"),
    ] {
        if count > 0 {
            told = format!("{told}, {what} {count}");
        }
    }
    told
}

fn title_page(words: &str, marked: Option<usize>, drills: &Drills, page: &mut Page) {
    let found = titled(drills, words);
    if found.is_empty() {
        return page.say(Rank::Needed, Ink::Body, "No title has these words.");
    }
    let items = found.into_iter().map(|card| Listed {
        head: "-".to_owned(),
        text: escaped(&card.title),
        tail: format!("({})", card.family.label()),
    });
    page.listed(&items.collect::<Vec<_>>(), marked);
}
