//! `hames crew request`: on a laptop that is not in the crew, a key is made and the line to carry
//! to a manager.

use crate::cli::Status;
use crate::cli::clerk::{Trouble, is_founded};
use crate::cli::crew::{AboutCrew, Stopped, id_of, meant, name};
use crate::cli::setup::passphrase;
use crate::cli::sitting::options;
use crate::plain::Talk;
use crate::record::Request;
use crate::store::{Local, Mode as For, write_once};
use std::io::{self, Write};
use std::path::Path;

pub(super) fn request(
    about: &AboutCrew,
    (named, given): (Option<&str>, Option<&str>),
    to: Option<&Path>,
    out: &mut dyn Write,
) -> Result<Status, Stopped> {
    if !is_founded(&Local, &about.place)? {
        return Err(meant(format!(
            "There is no logbook in {}. Copy the barn's logbook there from another laptop, all of \
             it but the folder keys, then ask to be let in.",
            about.place.display()
        )));
    }
    let clerk = about.clerk();
    let input = io::stdin();
    let mut input = input.lock();
    let mut talk = Talk::new(&mut input, out, options(about.look, false));
    let (request, add) = match named {
        None => (clerk.device_request(None)?, "--device"),
        Some(typed) => {
            let name = name(typed)?;
            let id = id_of(&name, given)?;
            let passphrase = passphrase(&mut talk)?;
            let key = clerk.make_key(&id, &passphrase)?;
            let who = Some((id, name));
            (Request { key, who }, "--role ROLE")
        }
    };
    talk.head("The line to carry to a manager:")?;
    talk.say(&request.to_string())?;
    if let Some(path) = to {
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
