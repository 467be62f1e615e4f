//! The drill room drawn.

use crate::drill::{Tally, WELCOME};
use crate::text::capital;
use crate::tui::Model;
use crate::tui::page::{Listed, Page, Rank};
use crate::tui::room::lines::{families, front, titled};
use crate::tui::room::reached::{self, stage_word};
use crate::tui::room::{self, Drills, Room};
use crate::tui::start::label;
use crate::tui::text::escaped;
use crate::tui::theme::Ink;

/// Who learns, and at which stage a drill is played.
pub(in crate::tui) fn heading(room: &Room, drills: Option<&Drills>) -> Vec<(Ink, String)> {
    let learner = drills.and_then(|drills| drills.learner.as_deref());
    let first = match (&room.page, learner) {
        (room::Page::Reached, Some(name)) => format!("Drill room  how far {name} is"),
        (_, Some(name)) => format!("Drill room  {name} learns"),
        (_, None) => "Drill room".to_owned(),
    };
    let mut lines = vec![(Ink::Strong, escaped(&first))];
    if drills.is_some_and(Drills::is_ready) {
        let named = room.stage.map(stage_word);
        let reached = if learner.is_some() {
            "the one reached"
        } else {
            "guided, unless another is named"
        };
        let told = format!("Stage: {}", named.unwrap_or(reached));
        lines.push((Ink::Body, told));
    }
    lines
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
    }
}

fn front_page(room: &Room, drills: &Drills, page: &mut Page) {
    page.say(Rank::Useful, Ink::Body, WELCOME);
    if let Some(why) = &drills.room.unrecorded {
        page.say(Rank::Needed, Ink::Strong, &escaped(why));
    }
    let lines = front(drills);
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
