//! `hames crew add`: a person or a laptop, and where their key comes from.

use crate::cli::args::{KeyFrom, PersonRole};
use crate::cli::clerk::{Clerk, NewKey, Trouble};
use crate::cli::crew::stated::Changing;
use crate::cli::crew::{Stopped, id, id_of, meant, name, roles};
use crate::cli::setup::passphrase;
use crate::cli::supply::text;
use crate::record::{CrewAct, Id, KeyFault, LockedKey, PrintedName, PublicKey, Request, Role};
use crate::store::Local;
use std::path::Path;
use zeroize::Zeroizing;

/// A person; a request says name and id itself.
pub(super) fn person(
    changing: &mut Changing<'_, '_>,
    named: (Option<&str>, Option<&str>),
    typed: &[PersonRole],
    from: &KeyFrom,
) -> Result<CrewAct, Stopped> {
    let request = from.public.as_deref().map(requested).transpose()?;
    let (id, name) = who(named, request.as_ref())?;
    let roles = roles(typed);
    // Refused before a key is made for it.
    changing.clerk.may_add(&id, &name, &roles)?;
    let key = match request {
        Some(request) => request.key,
        None => key(changing, &id, from)?,
    };
    Ok(CrewAct::Add {
        id,
        name,
        roles,
        key,
        words: None,
    })
}

/// A laptop: the one that made a request, else this one.
pub(super) fn device(
    changing: &mut Changing<'_, '_>,
    named: (Option<&str>, Option<&str>),
    public: Option<&Path>,
) -> Result<CrewAct, Stopped> {
    let request = if let Some(path) = public {
        requested(path)?
    } else {
        let name = named.0.map(name).transpose()?;
        let (request, new) = changing.clerk.device_request(name.as_ref())?;
        changing.new = Some(new);
        request
    };
    let (id, name) = who(named, Some(&request))?;
    Ok(CrewAct::Add {
        id,
        name,
        roles: vec![Role::Device],
        key: request.key,
        words: None,
    })
}

/// A key for someone who signs from now on.
pub(super) fn key(
    changing: &mut Changing<'_, '_>,
    person: &Id,
    from: &KeyFrom,
) -> Result<PublicKey, Stopped> {
    if let Some(path) = &from.public {
        return Ok(requested(path)?.key);
    }
    if let Some(path) = &from.import {
        let new = brought(changing.clerk, person, path)?;
        return Ok(changing.holds(new));
    }
    if let Some(fingerprint) = &from.agent {
        return held(changing, fingerprint);
    }
    changing
        .talk
        .head(&format!("A new key is made for {person}, who types:"))?;
    let passphrase = passphrase(changing.talk)?;
    let new = changing.clerk.make_key(person, &passphrase)?;
    Ok(changing.holds(new))
}

/// A key file under a passphrase, as it is brought.
pub(super) fn brought(clerk: &Clerk<Local>, person: &Id, path: &Path) -> Result<NewKey, Stopped> {
    let file = Zeroizing::new(text(path).map_err(Trouble::from)?);
    let key = LockedKey::read(&file).map_err(|fault| not_taken(path, &fault))?;
    Ok(clerk.bring_key(person, &key, file)?)
}

/// The key the agent holds that is nobody's yet; which, where there are several.
fn held(changing: &Changing<'_, '_>, fingerprint: &str) -> Result<PublicKey, Stopped> {
    let keys = changing.clerk.keys_to_take()?;
    let listed: Vec<String> = keys.iter().map(PublicKey::fingerprint).collect();
    let mut fits = keys
        .iter()
        .zip(&listed)
        .filter(|(_, print)| fingerprint.is_empty() || *print == fingerprint);
    match (fits.next(), fits.next()) {
        (Some((key, _)), None) => Ok(key.clone()),
        _ if keys.is_empty() => Err(meant(
            "The ssh-agent holds no key that could be taken: an Ed25519 key, of a file or of \
             hardware, that is nobody's in this logbook. Add it with ssh-add, then try again.",
        )),
        _ => Err(meant(format!(
            "Which of the keys in the ssh-agent? Name one with --agent FINGERPRINT:\n{}",
            listed.join("\n")
        ))),
    }
}

fn requested(path: &Path) -> Result<Request, Stopped> {
    let file = text(path).map_err(Trouble::from)?;
    Request::read(&file).map_err(|fault| meant(format!("{}: {fault}.", path.display())))
}

/// Id and name as typed, else as the request says them.
fn who(
    (named, given): (Option<&str>, Option<&str>),
    request: Option<&Request>,
) -> Result<(Id, PrintedName), Stopped> {
    let said = request.and_then(|request| request.who.clone());
    let typed = named.map(name).transpose()?;
    match (typed, said) {
        (typed, Some((id_said, name_said))) => {
            let id = given.map_or(Ok(id_said), id)?;
            Ok((id, typed.unwrap_or(name_said)))
        }
        (Some(name), None) => Ok((id_of(&name, given)?, name)),
        (None, None) => Err(meant(
            "What is the printed name? Write it behind add, such as hames crew add \"Wren \
             Ashdown\" --role driver.",
        )),
    }
}

fn not_taken(path: &Path, fault: &KeyFault) -> Stopped {
    let path = path.display();
    meant(match fault {
        KeyFault::NotLocked => format!(
            "{path}: this key has no passphrase, so anyone with the file could sign. Set one with \
             ssh-keygen -p -f {path}, then add it."
        ),
        other => format!("{path}: {other}."),
    })
}
