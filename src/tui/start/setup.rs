//! The questions before a walk begins, drawn: who reads, who does, the odometer.

use crate::desk::{Barn, CrewCard, PutQuestion};
use crate::tui::page::{Page, Rank};
use crate::tui::start::{Setup, matters};
use crate::tui::text::escaped;
use crate::tui::theme::Ink;

/// Writes the question that is asked.
pub(super) fn ask(setup: &Setup, barn: &Barn, page: &mut Page) {
    if let Some(put) = setup.asked.now() {
        return question(setup, put, page);
    }
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
        matters::earlier(rig, page);
    }
    for notice in &setup.notices {
        page.say(Rank::Wanted, Ink::Strong, &escaped(notice));
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

/// Writes the question that is put, and where it is answered.
fn question(setup: &Setup, put: &PutQuestion, page: &mut Page) {
    let head = match setup.asked.left() {
        0 => "A manager asked about an earlier trip.".to_owned(),
        left => format!("Managers asked about earlier trips; {left} more after this."),
    };
    page.say(Rank::Wanted, Ink::Strong, &head);
    page.say(Rank::Needed, Ink::Body, &escaped(&put.told()));
    page.say(Rank::Wanted, Ink::Strong, &escaped(&put.prompt()));
    page.field("Answer", setup.answer.text(), "");
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
