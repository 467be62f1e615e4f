//! A change of the crew from the command to the signed statement.

use crate::cli::Status;
use crate::cli::args::{By, CrewCommand};
use crate::cli::clerk::{Clerk, PutInForce, one_manager};
use crate::cli::crew::{AboutCrew, Stopped, add, change, first, id, meant};
use crate::cli::sitting::options;
use crate::desk::Consent;
use crate::plain::Talk;
use crate::record::{Changed, CrewAct, Mode, NextCrew, Signer, crew_meaning};
use crate::store::Local;
use std::io::{self, Write};

const MERGE_FIRST: &str = "What they signed on laptops whose logbooks are not merged here will not \
    count after this. Merge every laptop's logbook first.";

/// A change being made.
pub(super) struct Changing<'a, 't> {
    pub(super) about: &'a AboutCrew,
    pub(super) clerk: &'a Clerk<Local>,
    pub(super) talk: &'a mut Talk<'t>,
}

pub(super) fn stated(
    about: &AboutCrew,
    what: &CrewCommand,
    out: &mut dyn Write,
) -> Result<Status, Stopped> {
    let clerk = about.clerk();
    let input = io::stdin();
    let mut input = input.lock();
    let mut talk = Talk::new(&mut input, out, options(about.look, false));
    if let CrewCommand::Roles { id, role, .. } = what
        && let Some(signer) = first::manager(&clerk, id, role)?
    {
        return first::put(&clerk, &signer, &mut talk);
    }
    let managers = clerk.managers()?;
    let by = one_manager(&managers, signs(what).by.as_deref()).map_err(meant)?;
    if clerk.mode() == Mode::Demo {
        "DEMO".clone_into(&mut talk.mark);
    }
    let mut changing = Changing {
        about,
        clerk: &clerk,
        talk: &mut talk,
    };
    let act = act(&mut changing, what)?;
    let next = clerk.next_crew(&by.id, &act)?;
    tell(&mut talk, &act, &next)?;
    let Some(consent) = consent(&clerk, &by, &mut talk)? else {
        return Ok(Status::Usage);
    };
    let put = clerk.change_crew(&by, &consent, &act)?;
    if put.first {
        talk.head(
            "This logbook had no roster. The crew file as it stood is its first; what was signed \
             by it stands.",
        )?;
    }
    told(&put, &mut talk)?;
    Ok(Status::Fine)
}

/// The manager's yes to what was told; nothing where there is none.
pub(super) fn consent(
    clerk: &Clerk<Local>,
    by: &Signer,
    talk: &mut Talk<'_>,
) -> Result<Option<Consent>, Stopped> {
    talk.head(&format!("Who signs states: {}", crew_meaning()))?;
    let lies = clerk.key_lies(by)?;
    let who = (by.name.as_str(), ", to change the crew");
    match talk.consent(lies, who, clerk.mode())? {
        Ok(consent) => Ok(Some(consent)),
        Err(sentence) => {
            talk.say(&sentence)?;
            Ok(None)
        }
    }
}

/// What is in force now, and where to take it.
pub(super) fn told(put: &PutInForce, talk: &mut Talk<'_>) -> io::Result<()> {
    talk.head(&format!("In force: crew file {}, {}", put.number, put.file))?;
    talk.say(&format!("Stated in {}", put.folder.path.display()))?;
    talk.say("Take it to the other laptops: they go by it once their logbooks are merged.")
}

/// Who is named to sign it.
fn signs(what: &CrewCommand) -> By {
    match what {
        CrewCommand::Add { by, .. }
        | CrewCommand::Retire { by, .. }
        | CrewCommand::Revoke { by, .. }
        | CrewCommand::Roles { by, .. }
        | CrewCommand::SignOff { by, .. } => by.clone(),
        CrewCommand::List { .. } | CrewCommand::Request { .. } | CrewCommand::Settle { .. } => {
            By::default()
        }
    }
}

/// The change as meant; keys are made and read on the way.
fn act(changing: &mut Changing<'_, '_>, what: &CrewCommand) -> Result<CrewAct, Stopped> {
    match what {
        CrewCommand::Add {
            name,
            role,
            device,
            id,
            key,
            ..
        } => {
            let named = (name.as_deref(), id.as_deref());
            if *device {
                add::device(changing, named, key.public.as_deref())
            } else {
                add::person(changing, named, role, key)
            }
        }
        CrewCommand::Retire { id, why, .. } => change::retire(id, why),
        CrewCommand::Revoke {
            id,
            why,
            new_key,
            key,
            ..
        } => change::revoke(changing, (id, why), *new_key, key),
        CrewCommand::Roles { id, role, .. } => change::roles(id, role),
        CrewCommand::SignOff {
            id: who,
            withdraw: true,
            ..
        } => Ok(CrewAct::Withdraw(id(who)?)),
        CrewCommand::SignOff {
            id, rig, checklist, ..
        } => change::sign_off(changing, id, rig, checklist),
        CrewCommand::List { .. } | CrewCommand::Request { .. } | CrewCommand::Settle { .. } => {
            Err(meant("Nothing in the crew is changed by that."))
        }
    }
}

/// What is new, before anybody signs it.
fn tell(talk: &mut Talk<'_>, act: &CrewAct, next: &NextCrew) -> io::Result<()> {
    for change in &next.changes {
        let signer = next.crew.signer(&change.who);
        let line = match (change.what, signer) {
            (Changed::Added, Some(signer)) => {
                let roles: Vec<&str> = signer.roles.iter().map(|role| role.word()).collect();
                format!(
                    "New in the crew: {} ({}), {}, key {}",
                    signer.name,
                    signer.id,
                    roles.join(", "),
                    signer.key.fingerprint()
                )
            }
            (Changed::Roles, Some(signer)) => {
                let roles: Vec<&str> = signer.roles.iter().map(|role| role.word()).collect();
                format!("{} signs as {} from now on.", signer.name, roles.join(", "))
            }
            (Changed::SignedOff, Some(signer)) => {
                let line = next
                    .signed_off
                    .iter()
                    .find(|line| line.person == change.who);
                let what = line.map_or_else(|| "nothing".to_owned(), ToString::to_string);
                format!("{} is signed off for: {what}.", signer.name)
            }
            (Changed::Retired, _) => format!(
                "{} leaves the crew. What was signed before this stands, where it is merged here.",
                change.who
            ),
            (Changed::Revoked, _) => format!(
                "The key of {} is revoked. Only what is merged here before this stands.",
                change.who
            ),
            (_, None) => continue,
        };
        talk.say(&line)?;
    }
    if matches!(act, CrewAct::Retire(..) | CrewAct::Revoke(..)) {
        talk.say(MERGE_FIRST)?;
    }
    Ok(())
}
