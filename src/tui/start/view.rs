//! The first screen drawn.

use crate::desk::{Approval, Barn, CrewCard};
use crate::record::Mode;
use crate::tui::Model;
use crate::tui::page::{Page, Rank};
use crate::tui::start::{Choice, Setup, Start, choices, earlier, usual_pair};
use crate::tui::text::escaped;
use crate::tui::theme::Ink;

/// The barn and its folder.
pub(in crate::tui) fn heading(barn: Option<&Barn>) -> Vec<(Ink, String)> {
    let Some(barn) = barn else {
        return vec![(Ink::Title, "Hames".to_owned())];
    };
    vec![
        (Ink::Strong, format!("Hames  {}", escaped(&barn.name))),
        (
            Ink::Dim,
            format!("Everything is written to {}", escaped(&barn.folder)),
        ),
    ]
}

/// Writes the page.
pub(in crate::tui) fn body(start: &Start, model: &Model, page: &mut Page) {
    match (&model.barn, &start.setup) {
        (None, _) => page.say(Rank::Needed, Ink::Body, "Looking at the logbook."),
        (Some(barn), Some(setup)) => setup_page(setup, barn, page),
        (Some(barn), None) => lines_page(start, barn, page),
    }
}

fn lines_page(start: &Start, barn: &Barn, page: &mut Page) {
    for notice in &barn.notices {
        page.say(Rank::Needed, Ink::Strong, &escaped(notice));
    }
    for rig in &barn.rigs {
        earlier::in_short(rig, page);
    }
    let lines: Vec<(&str, String)> = choices(barn).into_iter().map(told).collect();
    let mut number = 0_usize;
    for group in lines.chunk_by(|(one, _), (other, _)| one == other) {
        let first = number;
        let items: Vec<(String, Ink, String)> = group
            .iter()
            .map(|(_, text)| {
                number += 1;
                let head = if number <= 9 {
                    number.to_string()
                } else {
                    " ".to_owned()
                };
                (head, Ink::Body, text.clone())
            })
            .collect();
        if let Some((title, _)) = group.first() {
            page.say(Rank::Wanted, Ink::Strong, title);
        }
        page.choices(&items, start.marked.checked_sub(first));
    }
    if let Some((reader, doer)) = usual_pair(&barn.crew).filter(|_| barn.mode == Mode::Demo) {
        let text = format!("{reader} reads and {doer} does the work; w chooses others.");
        page.say(Rank::Extra, Ink::Body, &escaped(&text));
    }
    if lines.is_empty() {
        page.say(
            Rank::Needed,
            Ink::Body,
            "No rig and checklist here fit each other yet.",
        );
    }
}

/// The heading a line stands under, and the line.
fn told(choice: Choice<'_>) -> (&'static str, String) {
    let (title, text) = match choice {
        Choice::TakeUp(card) => (
            "Not finished",
            format!(
                "{}, {}: {}, last {}",
                card.rig, card.checklist, card.stands, card.last
            ),
        ),
        Choice::Begin(list, rig) => {
            let mark = match &list.standing {
                Approval::Unapproved => " (UNAPPROVED)",
                Approval::Shipped | Approval::Approved { .. } => "",
            };
            let text = format!(
                "{}, revision {}{mark}, with {}",
                list.title, list.revision, rig.name
            );
            ("Begin", text)
        }
        Choice::Read(card) => (
            "Ended, to be read",
            format!(
                "{}, {}: {}, {}",
                card.rig, card.checklist, card.stands, card.last
            ),
        ),
    };
    (title, escaped(&text))
}

fn setup_page(setup: &Setup, barn: &Barn, page: &mut Page) {
    let rig = barn.rigs.iter().find(|rig| rig.id == setup.rig);
    let list = barn
        .checklists
        .iter()
        .find(|list| list.id == setup.checklist);
    if let (Some(rig), Some(list)) = (rig, list) {
        let text = format!(
            "{}, revision {}, with {}",
            list.title, list.revision, rig.name
        );
        page.say(Rank::Needed, Ink::Strong, &escaped(&text));
    }
    if let Some(rig) = rig {
        earlier::in_full(rig, page);
    }
    let known = [
        ("Reads and types:", &setup.reader),
        ("Does the work:", &setup.doer),
    ];
    for (what, name) in known {
        if let Some(name) = name {
            page.item(Rank::Wanted, what, Ink::Body, &escaped(name));
        }
    }
    match (&setup.reader, &setup.doer) {
        (None, _) => {
            page.say(Rank::Needed, Ink::Strong, "Who reads the steps and types?");
            page.items(Rank::Needed, &people(&barn.crew));
        }
        (_, None) => {
            page.say(
                Rank::Needed,
                Ink::Strong,
                "Who does the work? One person may do both.",
            );
            page.items(Rank::Needed, &people(&barn.crew));
        }
        _ => {
            page.say(
                Rank::Needed,
                Ink::Strong,
                "What does the odometer show? It may be left empty.",
            );
            page.field("Odometer", setup.odometer.text(), "mi or km");
            page.say(
                Rank::Extra,
                Ink::Dim,
                "It ties this trip to the one before: a gap between two trips shows.",
            );
        }
    }
}

/// People by number.
pub(in crate::tui) fn people(crew: &[CrewCard]) -> Vec<(String, Ink, String)> {
    let lines = (1..).zip(crew).map(|(number, card): (usize, _)| {
        let roles: Vec<&str> = card.roles.iter().map(|role| role.word()).collect();
        let text = format!("{} ({})", escaped(&card.name), roles.join(", "));
        (format!("  {number}"), Ink::Body, text)
    });
    lines.collect()
}
