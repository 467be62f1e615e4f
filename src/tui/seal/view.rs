//! Signing drawn.

use crate::desk::told;
use crate::record::{Mode, meaning_in};
use crate::tui::Model;
use crate::tui::large::large;
use crate::tui::page::{Page, Rank, inked};
use crate::tui::seal::Sealing;
use crate::tui::start::people;
use crate::tui::text::escaped;
use crate::tui::theme::Ink;
use crate::walk::Ended;

/// Writes the page.
pub(in crate::tui) fn body(sealing: &Sealing, model: &Model, page: &mut Page) {
    if sealing.sealed.is_some() {
        return sealed(sealing, model, page);
    }
    counts(sealing, page);
    not_fit(sealing, model, page);
    let Some(outcome) = sealing.walk.ended() else {
        return;
    };
    let meaning = format!("“{}”", meaning_in(sealing.mode, outcome));
    match &sealing.signer {
        None => {
            page.say(Rank::Wanted, Ink::Body, "Whoever signs states this:");
            page.say(Rank::Needed, Ink::Strong, &meaning);
            page.say(Rank::Needed, Ink::Strong, "Who signs?");
            page.items(Rank::Needed, &signers(sealing, model));
        }
        Some(signs) => {
            page.say(
                Rank::Needed,
                Ink::Strong,
                &format!("{} signs and states:", escaped(&signs.name)),
            );
            page.say(Rank::Needed, Ink::Body, &meaning);
            if let Some(told) = signs.lies.told() {
                page.say(Rank::Needed, Ink::Body, told);
            }
            let typed = sealing.typed.text();
            let shown = if signs.lies.is_secret() {
                "*".repeat(typed.chars().count())
            } else {
                typed.to_owned()
            };
            page.field(signs.lies.field(), &shown, "");
            let drills = model.drills.as_ref();
            let is_demo = drills.map_or(sealing.mode == Mode::Demo, |one| one.room.is_demo);
            if is_demo && signs.lies.is_secret() {
                page.say(Rank::Needed, Ink::Body, "In the demo it is the word demo.");
            }
        }
    }
}

/// The crew by number. Who had no part in the walk cannot sign it.
fn signers(sealing: &Sealing, model: &Model) -> Vec<(String, Ink, String)> {
    let mut people = people(model.crew());
    for (card, (_, ink, text)) in model.crew().iter().zip(&mut people) {
        if !sealing.walk.is_walked_by(&card.name) {
            *ink = Ink::Dim;
            text.push_str(": neither read nor did it");
        }
    }
    people
}

/// Answers by verdict, and what is open or was lived with.
fn counts(sealing: &Sealing, page: &mut Page) {
    let tally = sealing.walk.tally();
    let text = format!(
        "Answers: {} ok, {} note, {} fix, {} stop.",
        tally.ok, tally.note, tally.fix, tally.stop
    );
    // With the passphrase being typed, its field is what has to stay in sight.
    let rank = match &sealing.signer {
        None => Rank::Needed,
        Some(_) => Rank::Wanted,
    };
    page.say(rank, Ink::Body, &text);
    let walk = &sealing.walk;
    let mut findings: Vec<(String, Ink, String)> = Vec::new();
    for (planned, state) in walk.plan().steps().iter().zip(walk.steps()) {
        use crate::walk::Status;
        let (head, words) = match (&state.status, &state.remark) {
            (Status::Bad { .. }, _) => ("open:", String::new()),
            (Status::NoteOwed, _) => ("note without words:", String::new()),
            (Status::Deferred { words, .. }, _) => ("put off:", format!(", {words}")),
            (Status::Done(_), Some(words)) => ("note:", format!(", {words}")),
            _ => continue,
        };
        findings.push((
            head.to_owned(),
            Ink::Body,
            escaped(&format!("{}{words}", planned.name())),
        ));
    }
    if !findings.is_empty() {
        page.items(Rank::Wanted, &findings);
    }
}

/// A rig that is not fit to go stays, and somebody is told of it.
fn not_fit(sealing: &Sealing, model: &Model, page: &mut Page) {
    if sealing.walk.ended() == Some(Ended::NotFitToGo) {
        let call = told::whom_to_call(sealing.call.as_ref(), model.crew());
        page.say(Rank::Needed, Ink::Strong, told::NOT_FIT);
        // A line of its own, so that no number is broken in two.
        page.say(Rank::Needed, Ink::Strong, &escaped(&call));
    }
}

fn sealed(sealing: &Sealing, model: &Model, page: &mut Page) {
    let Some((sealed, at)) = &sealing.sealed else {
        return;
    };
    let receipt = sealed.receipt.to_string();
    page.say(
        Rank::Needed,
        Ink::Body,
        "Receipt, for the phone or the cab book:",
    );
    if let Some(rows) = large(&receipt, page.width(), page.look().ascii) {
        let strong = page.look().style(Ink::Strong);
        page.lines(
            Rank::Wanted,
            rows.into_iter().map(|row| inked(row, strong)).collect(),
        );
    }
    page.say(Rank::Needed, Ink::Title, &receipt);
    for line in sealing.ridden() {
        page.say(Rank::Needed, Ink::Body, &escaped(&line));
    }
    let when = at.wall.format("%Y-%m-%d %H:%M");
    let signed = format!("{}, {when}", escaped(&sealed.signed_by));
    not_fit(sealing, model, page);
    page.item(Rank::Needed, "Signed by:", Ink::Body, &signed);
    if let Some(outcome) = sealing.walk.ended() {
        page.item(
            Rank::Useful,
            "Stating:",
            Ink::Body,
            &format!("“{}”", meaning_in(sealing.mode, outcome)),
        );
    }
    page.item(
        Rank::Wanted,
        "Kept in:",
        Ink::Body,
        &escaped(&sealed.folder),
    );
    page.say(
        Rank::Needed,
        Ink::Body,
        "The record shows what was looked at and what was found. It does not show that anything \
         is without risk.",
    );
}
