//! `hames crew retire`, `revoke`, `roles` and `sign-off`, as meant.

use crate::cli::args::{KeyFrom, PersonRole};
use crate::cli::clerk::Place;
use crate::cli::crew::stated::Changing;
use crate::cli::crew::{Stopped, add, id, meant, words};
use crate::cli::{crew, supply};
use crate::record::{CrewAct, Id, Mode, SignedOff};

pub(super) fn retire(who: &str, why: &str) -> Result<CrewAct, Stopped> {
    Ok(CrewAct::Retire(id(who)?, words(why)?))
}

/// With a new key, where one is wanted: of a key file, the agent, or made here.
pub(super) fn revoke(
    changing: &mut Changing<'_, '_>,
    (who, why): (&str, &str),
    new_key: bool,
    from: &KeyFrom,
) -> Result<CrewAct, Stopped> {
    let (who, why) = (id(who)?, words(why)?);
    let named = *from != KeyFrom::default();
    let key = if new_key || named {
        // Refused before a key is made for it.
        let (books, _) = changing.clerk.crew()?;
        if books.crew.signer(&who).is_none() {
            return Err(meant(crate::record::NotChanged::Unknown(who).to_string()));
        }
        Some(add::key(changing, &who, from)?)
    } else {
        None
    };
    Ok(CrewAct::Revoke(who, why, key))
}

pub(super) fn roles(who: &str, typed: &[PersonRole]) -> Result<CrewAct, Stopped> {
    Ok(CrewAct::Roles(id(who)?, crew::roles(typed)))
}

/// Rigs and checklists have to be some that the logbook offers, so that no slip of the fingers
/// signs anybody off for nothing.
pub(super) fn sign_off(
    changing: &Changing<'_, '_>,
    who: &str,
    rigs: &[String],
    checklists: &[String],
) -> Result<CrewAct, Stopped> {
    let demo = changing.clerk.mode() == Mode::Demo;
    let stock = supply::all(&Place {
        root: changing.about.place.clone(),
        mode: if demo { Mode::Demo } else { Mode::Real },
    });
    let known_rigs: Vec<&str> = stock.rigs.iter().map(|one| one.read.id.as_str()).collect();
    let lists = stock.checklists.iter();
    let known_lists: Vec<&str> = lists.map(|one| one.read.id.as_str()).collect();
    Ok(CrewAct::SignOff(SignedOff {
        person: id(who)?,
        rigs: known("rig", rigs, &known_rigs)?,
        checklists: known("checklist", checklists, &known_lists)?,
    }))
}

/// The ids named, once each; nothing where none is, which means every one.
fn known(what: &str, named: &[String], known: &[&str]) -> Result<Option<Vec<Id>>, Stopped> {
    let mut ids = Vec::new();
    for name in named {
        if !known.contains(&name.as_str()) {
            return Err(meant(format!(
                "There is no {what} “{}” here. There are: {}.",
                name.escape_debug(),
                known.join(", ")
            )));
        }
        ids.push(id(name)?);
    }
    ids.sort();
    ids.dedup();
    Ok((!ids.is_empty()).then_some(ids))
}
