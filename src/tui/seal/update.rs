//! What the keys of signing do.

use crate::desk::Errand;
use crate::record::Passphrase;
use crate::tui::keys::Key;
use crate::tui::model::Screen;
use crate::tui::start::{READING, Start};
use crate::tui::{Action, Model};

/// The word shown while the key is unlocked, which takes a while on purpose.
const CHECKING: &str = "checking the passphrase";

/// Does what a key means while signing.
pub(in crate::tui) fn act(model: &mut Model, action: Action, key: Key) -> Vec<Errand> {
    let picked = key.place().and_then(|place| model.crew().get(place));
    let picked = picked.map(|card| (card.id.clone(), card.name.clone()));
    let Screen::Seal(sealing) = &mut model.screen else {
        return Vec::new();
    };
    match (action, key) {
        (Action::Pick, _) => match picked {
            Some(person) => sealing.signer = Some(person),
            None => model.said = Some("Press the number of a person listed.".to_owned()),
        },
        (Action::Type, Key::Char(letter)) => sealing.passphrase.add(letter),
        (Action::Erase, _) if !sealing.passphrase.is_empty() => sealing.passphrase.erase(),
        (Action::Erase | Action::Back, _) if sealing.signer.is_some() => {
            sealing.signer = None;
            sealing.passphrase.take();
        }
        (Action::Back, _) => {
            model.screen = Screen::Start(Start::default());
            model.said = Some("The trip is kept. It is not signed.".to_owned());
            return vec![Errand::LookAround];
        }
        (Action::Submit, _) => return submit(model),
        (Action::OpenRecord, _) => {
            let trip = sealing.trip.clone();
            model.busy = Some(READING);
            return vec![Errand::Show { trip }];
        }
        (Action::Up, _) => sealing.scroll = sealing.scroll.saturating_sub(1),
        (Action::Down, _) => sealing.scroll += 1,
        _ => {}
    }
    Vec::new()
}

/// Hands the passphrase over; nothing of it stays here.
fn submit(model: &mut Model) -> Vec<Errand> {
    let Screen::Seal(sealing) = &mut model.screen else {
        return Vec::new();
    };
    let typed = sealing.passphrase.take();
    match (Passphrase::new(typed), &sealing.signer) {
        (Ok(passphrase), Some((signer, _))) => {
            model.busy = Some(CHECKING);
            vec![Errand::Seal {
                signer: signer.clone(),
                passphrase,
            }]
        }
        (Err(fault), _) => {
            model.said = Some(format!("Not signed: {fault}."));
            Vec::new()
        }
        (Ok(_), None) => Vec::new(),
    }
}
