//! A check ride begun from the drill room: which checklist, who examines, and what it is passed by.

use crate::desk::told;
use crate::drill::Grading;
use crate::tui::page::{Listed, Page, Rank};
use crate::tui::room::{self, Drills, Room};
use crate::tui::start::label;
use crate::tui::text::escaped;
use crate::tui::theme::Ink;

/// Who may examine the learner; nobody where nobody learns.
pub(super) fn examiners(drills: &Drills) -> &[String] {
    let learner = drills.learner();
    let examiners = learner.and_then(|learner| learner.examiners.as_ref().ok());
    examiners.map_or(&[], Vec::as_slice)
}

/// Writes the checklists that can be ridden.
pub(super) fn lists(room: &Room, drills: &Drills, page: &mut Page) {
    page.say(Rank::Wanted, Ink::Strong, "A check ride of the whole of");
    let titles = drills.room.rides.iter().map(|id| told::list_title(id));
    choices(titles, room.marked, page);
}

/// Writes who may examine.
pub(super) fn people(room: &Room, drills: &Drills, page: &mut Page) {
    page.say(Rank::Wanted, Ink::Strong, "Who examines?");
    choices(examiners(drills).iter().cloned(), room.marked, page);
}

fn choices(lines: impl Iterator<Item = String>, marked: Option<usize>, page: &mut Page) {
    let items = lines.enumerate().map(|(at, line)| Listed {
        head: label(at),
        text: escaped(&line),
        tail: String::new(),
    });
    page.listed(&items.collect::<Vec<_>>(), marked);
}

/// Writes what is to be known before it begins.
pub(super) fn before(list: &str, examiner: &str, drills: &Drills, page: &mut Page) {
    let rider = drills.learner().map_or("", |learner| &learner.who.name);
    let told = format!("{rider} rides the whole of {}.", told::list_title(list));
    page.say(Rank::Needed, Ink::Strong, &escaped(&told));
    let told = escaped(&told::beside_the_rider(examiner));
    page.say(Rank::Needed, Ink::Body, &told);
    page.say(Rank::Needed, Ink::Body, Grading::NEWEST.pass_rule());
    page.say(Rank::Needed, Ink::Strong, "r begins the check ride.");
}

impl Room {
    /// The page before this one.
    pub(super) fn page_before(&self) -> room::Page {
        match &self.page {
            room::Page::Examiners(_) => room::Page::Rides,
            room::Page::BeforeRide { list, .. } => room::Page::Examiners(list.clone()),
            _ => room::Page::Front,
        }
    }
}
