//! `hames crew retire`, `revoke`, `roles` and `sign-off`, as meant.

use crate::cli::args::{KeyFrom, PersonRole};
use crate::cli::clerk::{Books, Place};
use crate::cli::crew::stated::Changing;
use crate::cli::crew::{Stopped, add, id, meant, words};
use crate::cli::{crew, supply};
use crate::record::{CrewAct, Id, Mode, SignedOff};
use crate::store::Local;
use std::collections::BTreeSet;
use std::path::Path;

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
        changing.clerk.may_replace_key(&who, &changing.by.id)?;
        Some(add::key(changing, &who, from)?)
    } else {
        None
    };
    Ok(CrewAct::Revoke(who, why, key))
}

pub(super) fn roles(who: &str, typed: &[PersonRole]) -> Result<CrewAct, Stopped> {
    Ok(CrewAct::Roles(id(who)?, crew::roles(typed)))
}

/// Rigs and checklists have to be some that the logbook offers, or some that were walked here from
/// a file of elsewhere, so that no slip of the fingers signs anybody off for nothing.
pub(super) fn sign_off(
    changing: &Changing<'_, '_>,
    who: &str,
    rigs: &[String],
    checklists: &[String],
) -> Result<CrewAct, Stopped> {
    let root = &changing.about.place;
    let demo = changing.clerk.mode() == Mode::Demo;
    let stock = supply::all(&Place {
        root: root.clone(),
        mode: if demo { Mode::Demo } else { Mode::Real },
    });
    let offered = stock.rigs.iter().map(|one| one.read.id.clone());
    let mut known_rigs: BTreeSet<String> = offered.collect();
    let offered = stock.checklists.iter().map(|one| one.heading.id.clone());
    let mut known_lists: BTreeSet<String> = offered.collect();
    let mut named = rigs.iter().map(|id| (id, &known_rigs));
    let mut lists = checklists.iter().map(|id| (id, &known_lists));
    let new = |(id, known): (&String, &BTreeSet<String>)| !known.contains(id);
    if named.any(new) || lists.any(new) {
        let walked = Books::open(&Local, root).and_then(|books| Ok(books.walked()?))?;
        known_rigs.extend(walked.rigs);
        known_lists.extend(walked.checklists);
    }
    Ok(CrewAct::SignOff(SignedOff {
        person: id(who)?,
        rigs: known("rig", rigs, &known_rigs, &root.join("rigs"))?,
        checklists: known(
            "checklist",
            checklists,
            &known_lists,
            &root.join("checklists"),
        )?,
        rides: Vec::new(),
    }))
}

/// The ids named, once each; nothing where none is, which means every one.
fn known(
    what: &str,
    named: &[String],
    known: &BTreeSet<String>,
    folder: &Path,
) -> Result<Option<Vec<Id>>, Stopped> {
    let mut ids = Vec::new();
    for name in named {
        if !known.contains(name) {
            let shown = name.escape_debug();
            let known: Vec<&str> = known.iter().map(String::as_str).collect();
            let folder = folder.display();
            let known = match known.as_slice() {
                [] => format!("No {what} file lies in {folder}, and none was walked."),
                some => format!("There are: {}.", some.join(", ")),
            };
            return Err(meant(format!(
                "There is no {what} “{shown}” here. {known} Put its file into {folder}, or walk it \
                 once, and name it by the id that stands in the file.",
            )));
        }
        ids.push(id(name)?);
    }
    ids.sort();
    ids.dedup();
    Ok((!ids.is_empty()).then_some(ids))
}
