//! What the keys of countersigning do. Enter alone agrees to nothing.

use super::{Signing, Stage};
use crate::desk::{Countersigning, Errand, KeyLies, SeenTrip};
use crate::record::Opinion;
use crate::tui::Action;
use crate::tui::field::Field;
use crate::tui::keys::Key;
use crate::tui::lookout::trip::Trip;
use crate::tui::seal::Signs;
use crate::walk::{Moment, NotWords, Words};

/// The word shown while it is looked at who may sign, and by which key.
const LOOKING: &str = "looking for the key";

/// What a key leads to.
pub(in crate::tui::lookout) enum Done {
    Nothing,
    Said(String),
    Asked(&'static str, Errand),
}

/// The opinion is chosen: words are asked for. The time of the review ends here.
pub(in crate::tui::lookout) fn begin(trip: &mut Trip, opinion: Opinion, now: &Moment) {
    trip.signing = Some(Signing {
        opinion,
        took_ms: trip.looked_for(now),
        words: Field::default(),
        stage: Stage::Words,
    });
}

/// Does what a key means.
pub(in crate::tui::lookout) fn act(trip: &mut Trip, action: Action, key: Key) -> Done {
    let Some(signing) = &mut trip.signing else {
        return Done::Nothing;
    };
    match (action, key) {
        (Action::Type, Key::Char(letter)) => {
            if let Some(field) = signing.field() {
                field.add(letter);
            }
        }
        (Action::Erase, _) if signing.field().is_some_and(|field| !field.is_empty()) => {
            if let Some(field) = signing.field() {
                field.erase();
            }
        }
        (Action::Erase | Action::Back, _) => back(trip),
        (Action::Submit, _) => return submit(trip),
        (Action::Pick, _) => {
            let picked = key.place().and_then(|place| trip.managers.get(place));
            return match picked {
                Some(card) => {
                    let (trip, manager) = (trip.folder.clone(), card.id.clone());
                    let opinion = signing.opinion;
                    let errand = Errand::MayCountersign {
                        trip,
                        manager,
                        opinion,
                    };
                    Done::Asked(LOOKING, errand)
                }
                None => Done::Said("Press the number of a manager listed.".to_owned()),
            };
        }
        _ => {}
    }
    Done::Nothing
}

/// One question back; from the first, to the trip.
fn back(trip: &mut Trip) {
    let Some(signing) = &mut trip.signing else {
        return;
    };
    match &signing.stage {
        Stage::Key { remarks, .. } => signing.stage = Stage::Manager(remarks.clone()),
        Stage::Manager(_) => signing.stage = Stage::Words,
        Stage::Words | Stage::Kept { .. } => trip.signing = None,
    }
}

/// Hands over what was typed.
fn submit(trip: &mut Trip) -> Done {
    let opened = trip.opened();
    let Some(signing) = &mut trip.signing else {
        return Done::Nothing;
    };
    match &mut signing.stage {
        Stage::Words => {
            let remarks = match (Words::read(signing.words.text()), signing.opinion) {
                (Ok(words), _) => Some(words),
                (Err(NotWords::Empty), Opinion::Agreed) => None,
                (Err(NotWords::Empty), Opinion::Asked) => {
                    return Done::Said("A question has words.".to_owned());
                }
                (Err(fault), _) => return Done::Said(format!("Not taken: {fault}.")),
            };
            signing.stage = Stage::Manager(remarks);
            Done::Nothing
        }
        Stage::Key {
            remarks,
            signs,
            typed,
            ..
        } => match signs.lies.consent(typed.take()) {
            Ok(consent) => {
                let what = Countersigning {
                    trip: trip.folder.clone(),
                    manager: signs.id.clone(),
                    opinion: signing.opinion,
                    opened,
                    remarks: remarks.clone(),
                    took_ms: signing.took_ms,
                };
                let what = Box::new(what);
                Done::Asked(signs.lies.waiting(), Errand::Countersign { what, consent })
            }
            Err(sentence) => Done::Said(sentence),
        },
        Stage::Manager(_) | Stage::Kept { .. } => Done::Nothing,
    }
}

/// The manager may sign so, and their key was found: now the yes is asked for.
pub(in crate::tui::lookout) fn may(
    trip: &mut Trip,
    id: String,
    lies: KeyLies,
    first: Option<String>,
) {
    let card = trip.managers.iter().find(|card| card.id == id);
    let name = card.map_or_else(|| id.clone(), |card| card.name.clone());
    if let Some(signing) = &mut trip.signing
        && let Stage::Manager(remarks) = &signing.stage
    {
        signing.stage = Stage::Key {
            remarks: remarks.clone(),
            signs: Signs { id, name, lies },
            first,
            typed: Field::default(),
        };
    }
}

/// It is signed and on the disk.
pub(in crate::tui::lookout) fn kept(trip: &mut Trip, seen: &SeenTrip, folder: String, at: Moment) {
    trip.see(seen.glance.clone());
    if let Some(signing) = &mut trip.signing
        && let Stage::Key { signs, .. } = &signing.stage
    {
        let by = signs.name.clone();
        signing.stage = Stage::Kept { by, at, folder };
    }
}
