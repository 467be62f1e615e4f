//! The first screen and the page of a rig drawn.

use crate::checklist::Haul;
use crate::desk::{Approval, Barn, ChecklistCard, RigCard, TripCard};
use crate::record::Mode;
use crate::tui::Model;
use crate::tui::keys::letter;
use crate::tui::page::{Listed, Page, Rank};
use crate::tui::start::{Choice, Start, matters, setup, usual_pair};
use crate::tui::text::escaped;
use crate::tui::theme::Ink;

/// How many lines have a digit; those after them have letters.
pub(in crate::tui) const DIGITS: usize = 9;

/// Stays in sight where the reason is scrolled away.
const NO_WALK: &str = "No walk can begin here: see below.";

/// From this many rows on there is room for gaps.
const ROOMY: usize = 30;

/// The barn, and its folder or the rig whose page it is.
pub(in crate::tui) fn heading(start: &Start, barn: Option<&Barn>) -> Vec<(Ink, String)> {
    let Some(barn) = barn else {
        return vec![(Ink::Title, "Hames".to_owned())];
    };
    let below = if let Some(rig) = start.page(barn).filter(|_| start.is_opened(barn)) {
        (Ink::Strong, escaped(&rig.name))
    } else {
        let text = format!("Everything is written to {}", escaped(&barn.folder));
        (Ink::Dim, text)
    };
    let no_walk = barn.no_walk.as_ref();
    let barn = format!("Hames  {}", escaped(&barn.name));
    let none = no_walk.map(|_| (Ink::Banner, NO_WALK.to_owned()));
    [(Ink::Strong, barn), below]
        .into_iter()
        .chain(none)
        .collect()
}

/// Writes the page, for a window with so many rows for it.
pub(in crate::tui) fn body(start: &Start, model: &Model, height: u16, page: &mut Page) {
    let Some(barn) = &model.barn else {
        let told = match &model.said {
            Some(_) => "The logbook could not be opened. Why stands below.",
            None => "Looking at the logbook.",
        };
        return page.say(Rank::Needed, Ink::Body, told);
    };
    if let Some(asked) = &start.setup {
        return setup::ask(asked, barn, page);
    }
    let opened = start.page(barn);
    if let Some(rig) = opened.filter(|_| start.read.is_some()) {
        return matters::all(rig, page);
    }
    let notices = barn.notices.iter().filter(|_| !start.is_opened(barn));
    let notices: Vec<&String> = barn.no_walk.iter().chain(notices).collect();
    for notice in &notices {
        page.say(Rank::Needed, Ink::Strong, &escaped(notice));
    }
    let lines = start.choices(barn);
    if let Some(rig) = opened {
        let height = usize::from(height);
        let above = notices.iter().map(|notice| page.rows_of("", notice));
        let above = above.sum::<usize>() + taken(&lines, height >= ROOMY);
        rig_page(start, rig, barn, height.saturating_sub(above), page);
    }
    let next = opened.and_then(|rig| barn.likely_next(rig));
    let mut number = 0_usize;
    for group in lines.chunk_by(|one, other| title(*one) == title(*other)) {
        let first = number;
        let items = group.iter().map(|choice| {
            let head = label(number);
            number += 1;
            let (text, tail) = told(*choice, next);
            Listed { head, text, tail }
        });
        let items: Vec<Listed> = items.collect();
        page.together(|page| {
            if let Some(choice) = group.first() {
                page.say(Rank::Wanted, Ink::Strong, title(*choice));
            }
            page.listed(&items, start.marked.checked_sub(first));
        });
    }
    let begins = opened.is_some_and(|rig| !barn.lists_for(rig).is_empty());
    let pair = usual_pair(&barn.crew).filter(|_| barn.mode == Mode::Demo && begins);
    if let Some((reader, doer)) = pair {
        let text = format!("{reader} reads and {doer} does the work; w chooses others.");
        page.say(Rank::Extra, Ink::Body, &escaped(&text));
    }
    if barn.rigs.is_empty() || opened.is_some() && !begins {
        page.say(
            Rank::Needed,
            Ink::Body,
            "No rig and checklist here fit each other yet.",
        );
    }
}

/// What stands above the lists of a rig.
fn rig_page(start: &Start, rig: &RigCard, barn: &Barn, mut rows: usize, page: &mut Page) {
    if !start.is_opened(barn) {
        page.say(Rank::Wanted, Ink::Strong, &escaped(&rig.name));
        rows = rows.saturating_sub(1);
    }
    if let Some(haul) = &rig.haul {
        let text = format!("Haul under way since {}.", haul.since);
        page.say(Rank::Wanted, Ink::Body, &text);
        rows = rows.saturating_sub(1);
    }
    matters::gravest(rig, rows, page);
}

/// Rows that the lines take with their titles, and with the gaps of the page where there is room.
fn taken(lines: &[Choice<'_>], roomy: bool) -> usize {
    let groups = lines.chunk_by(|one, other| title(*one) == title(*other));
    let groups = groups.count();
    let gaps = if roomy { groups + 2 } else { 0 };
    lines.len() + groups + gaps
}

/// What is pressed for the line at a place; blank where it is reached by the arrows alone.
pub(in crate::tui) fn label(place: usize) -> String {
    let digit = (place < DIGITS).then(|| (place + 1).to_string());
    let letter = || letter(place.checked_sub(DIGITS)?).map(String::from);
    digit.or_else(letter).unwrap_or_else(|| " ".to_owned())
}

/// The heading a line stands under.
fn title(choice: Choice<'_>) -> &'static str {
    match choice {
        Choice::TakeUp(card) if card.goes_on => "Not finished",
        Choice::TakeUp(_) => "To be ended or signed",
        Choice::Rig(_) => "Rigs",
        Choice::Begin(list, _) if list.haul == Haul::Apart => "Of the year",
        Choice::Begin(..) => "Of a haul, in order",
        Choice::Read(_) => "Ended, to be read",
    }
}

/// A line, and what stands small behind it.
fn told(choice: Choice<'_>, next: Option<&ChecklistCard>) -> (String, String) {
    let trip = |card: &TripCard| {
        format!(
            "{}, {}: {}, {}",
            card.rig, card.checklist, card.stands, card.last
        )
    };
    let (text, tail) = match choice {
        Choice::TakeUp(card) | Choice::Read(card) => (trip(card), String::new()),
        Choice::Rig(rig) => (format!("{}: {}", rig.name, rig.in_short()), String::new()),
        Choice::Begin(list, _) => {
            let revision = format!("revision {}", list.revision);
            let unapproved = match &list.standing {
                Approval::Unapproved => ", UNAPPROVED",
                Approval::Shipped | Approval::Approved { .. } => "",
            };
            let next = next.filter(|next| next.id == list.id);
            let next = next.map_or("", |_| ", likely next");
            (list.title.clone(), format!("{revision}{unapproved}{next}"))
        }
    };
    (escaped(&text), tail)
}
