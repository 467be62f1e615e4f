//! `hames crew request`: on a laptop where somebody cannot sign yet, a key is made or brought. Who is
//! in the crew brings the key they have; for anybody else there is a line to carry to a manager.

use crate::cli::Status;
use crate::cli::clerk::{Clerk, Trouble, is_founded};
use crate::cli::crew::{AboutCrew, Stopped, add, id_of, meant, name};
use crate::cli::setup::passphrase;
use crate::cli::sitting::options;
use crate::plain::Talk;
use crate::record::{Id, PrintedName, Request, Role, Signer};
use crate::store::{Local, Mode as For, write_once};
use std::io::{self, Write};
use std::path::Path;

/// What is asked for, as typed.
pub(super) struct Asked<'a> {
    pub(super) name: Option<&'a str>,
    pub(super) id: Option<&'a str>,
    pub(super) import: Option<&'a Path>,
    pub(super) to: Option<&'a Path>,
}

pub(super) fn request(
    about: &AboutCrew,
    asked: &Asked<'_>,
    out: &mut dyn Write,
) -> Result<Status, Stopped> {
    if !is_founded(&Local, &about.place)? {
        return Err(Trouble::Unusable(format!(
            "There is no logbook in {}. Copy the barn's logbook there from another laptop, all of \
             it but the folder keys, then ask to be let in.",
            about.place.display()
        ))
        .into());
    }
    let clerk = about.clerk();
    let input = io::stdin();
    let mut input = input.lock();
    let mut talk = Talk::new(&mut input, out, options(about.look, false));
    let (request, new, add) = match asked.name {
        None => {
            let (request, new) = clerk.device_request(None)?;
            (request, new, "--device")
        }
        Some(typed) => {
            let name = name(typed)?;
            let id = id_of(&name, asked.id)?;
            if let Some(signer) = clerk.in_crew(&id, &name)? {
                return bring(&clerk, &signer, asked.import, &mut talk);
            }
            let new = match asked.import {
                Some(path) => add::brought(&clerk, &id, path)?,
                None => clerk.make_key(&id, &passphrase(&mut talk)?)?,
            };
            (asking(id, name, &new), new, "--role ROLE")
        }
    };
    let kept = clerk.keep_key(&new)?;
    if let Some(path) = &kept {
        talk.head(&format!("The key is kept in {}", path.display()))?;
    }
    talk.head("The line to carry to a manager:")?;
    talk.say(&request.to_string())?;
    if let Some(path) = asked.to {
        let line = format!("{request}\n");
        write_once(&Local, path, line.as_bytes(), For::Shared).map_err(Trouble::from)?;
        talk.say(&format!("It is in {} as well.", path.display()))?;
    }
    talk.say(&format!(
        "Its fingerprint, to be compared over the phone: {}",
        request.key.fingerprint()
    ))?;
    talk.say(&format!(
        "The manager puts the line into a file and says: hames crew add {add} --public FILE"
    ))?;
    talk.say("Then the manager's logbook is merged here. Until then nothing can be signed here.")?;
    Ok(Status::Fine)
}

fn asking(id: Id, name: PrintedName, new: &crate::cli::clerk::NewKey) -> Request {
    Request {
        key: new.public.clone(),
        who: Some((id, name)),
    }
}

/// One person has one key: who is in the crew brings it to this laptop, and asks for no other.
fn bring(
    clerk: &Clerk<Local>,
    signer: &Signer,
    import: Option<&Path>,
    talk: &mut Talk<'_>,
) -> Result<Status, Stopped> {
    let Signer { id, name, .. } = signer;
    if signer.roles.contains(&Role::Device) {
        return Err(Trouble::Said(format!(
            "{name} ({id}) is a laptop of the crew, and its key stays on it. Ask for this laptop \
             with hames crew request, and no name."
        ))
        .into());
    }
    if clerk.has_key(signer) {
        return Err(Trouble::Said(format!(
            "{name} is in the crew already, and can sign on this laptop. There is nothing to ask for."
        ))
        .into());
    }
    let Some(path) = import else {
        return Err(Trouble::Said(format!(
            "{name} is in the crew already as {id}, and one person has one key. Bring that key \
             here: on the laptop that has it, hames doctor names its file; copy that onto a stick. \
             Here say: hames crew request {id} --import FILE. Or let an ssh-agent hold it here: \
             ssh-add FILE. If the key is lost, a manager gives {name} another: hames crew revoke \
             {id} --why … --new-key"
        ))
        .into());
    };
    let new = add::brought(clerk, id, path)?;
    if new.public != signer.key {
        return Err(meant(format!(
            "{}: this is not the key that {name} has in the crew file, {}. Nothing was kept.",
            path.display(),
            signer.key.fingerprint()
        )));
    }
    if let Some(kept) = clerk.keep_key(&new)? {
        talk.head(&format!("The key of {name} is kept in {}", kept.display()))?;
    }
    talk.say(&format!(
        "{name} can sign on this laptop now, with the same passphrase as before. Take the copy off \
         the stick."
    ))?;
    Ok(Status::Fine)
}
