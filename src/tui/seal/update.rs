//! What the keys of signing do.

use crate::desk::{Errand, KeyLies};
use crate::tui::keys::Key;
use crate::tui::model::Screen;
use crate::tui::seal::Signs;
use crate::tui::start::READING;
use crate::tui::{Action, Model};

/// Does what a key means while signing.
pub(in crate::tui) fn act(model: &mut Model, action: Action, key: Key) -> Vec<Errand> {
    let picked = key.place().and_then(|place| model.crew().get(place));
    let picked = picked.map(|card| card.id.clone());
    let Screen::Seal(sealing) = &mut model.screen else {
        return Vec::new();
    };
    match (action, key) {
        (Action::Pick, _) => match picked {
            Some(signer) => return vec![Errand::FindKey { signer }],
            None => model.said = Some("Press the number of a person listed.".to_owned()),
        },
        (Action::Type, Key::Char(letter)) => sealing.typed.add(letter),
        (Action::Erase, _) if !sealing.typed.is_empty() => sealing.typed.erase(),
        (Action::Erase | Action::Back, _) if sealing.signer.is_some() => {
            sealing.signer = None;
            sealing.typed.take();
        }
        (Action::Back, _) => {
            let what = if sealing.is_drill { "drill" } else { "trip" };
            model.said = Some(format!("The {what} is kept. It is not signed."));
            return model.go_home();
        }
        (Action::Submit, _) => return submit(model),
        (Action::OpenRecord, _) => {
            let trip = sealing.named();
            model.busy = Some(READING);
            return vec![Errand::Show { trip }];
        }
        (Action::Up, _) => sealing.scroll = sealing.scroll.saturating_sub(1),
        (Action::Down, _) => sealing.scroll += 1,
        _ => {}
    }
    Vec::new()
}

/// Hands over what was typed; nothing of it stays here.
fn submit(model: &mut Model) -> Vec<Errand> {
    let Screen::Seal(sealing) = &mut model.screen else {
        return Vec::new();
    };
    let typed = sealing.typed.take();
    let Some(signs) = &sealing.signer else {
        return Vec::new();
    };
    match signs.lies.consent(typed) {
        Ok(consent) => {
            let signer = signs.id.clone();
            model.busy = Some(signs.lies.waiting());
            vec![Errand::Seal { signer, consent }]
        }
        Err(sentence) => {
            model.said = Some(sentence);
            Vec::new()
        }
    }
}

/// The key of who is to sign was found: now the yes is asked for.
pub(in crate::tui) fn found(model: &mut Model, id: String, lies: KeyLies) {
    let card = model.crew().iter().find(|card| card.id == id);
    let name = card.map_or_else(|| id.clone(), |card| card.name.clone());
    if let Screen::Seal(sealing) = &mut model.screen {
        sealing.signer = Some(Signs { id, name, lies });
    }
}
