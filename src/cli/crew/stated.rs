//! A change of the crew from the command to the signed statement.

use crate::cli::Status;
use crate::cli::args::{By, CrewCommand};
use crate::cli::clerk::{Clerk, NewKey, PutInForce, Trouble, one_manager};
use crate::cli::crew::{AboutCrew, Stopped, add, change, first, id, meant, told};
use crate::cli::sitting::options;
use crate::desk::Consent;
use crate::plain::Talk;
use crate::record::{CrewAct, Mode, PublicKey, Signer, crew_meaning};
use crate::store::Local;
use std::io::{self, Write};
use std::path::Path;

/// A change being made.
pub(super) struct Changing<'a, 't> {
    pub(super) about: &'a AboutCrew,
    pub(super) clerk: &'a Clerk<Local>,
    pub(super) talk: &'a mut Talk<'t>,
    /// Who signs it.
    pub(super) by: &'a Signer,
    /// The key somebody is to sign with. Its file is kept only behind the manager's consent.
    pub(super) new: Option<NewKey>,
}

impl Changing<'_, '_> {
    /// Takes a new key in hand; what the crew file gets of it.
    pub(super) fn holds(&mut self, new: NewKey) -> PublicKey {
        let public = new.public.clone();
        self.new = Some(new);
        public
    }
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
        by: &by,
        new: None,
    };
    let act = act(&mut changing, what)?;
    let new = changing.new;
    let next = clerk.next_crew(&by.id, &act)?;
    talk.head("To be signed:")?;
    for line in told::before(&next) {
        talk.say(&format!("  {line}"))?;
    }
    if matches!(act, CrewAct::Retire(..) | CrewAct::Revoke(..)) {
        talk.say(told::MERGE_FIRST)?;
    }
    let consent = consent(&clerk, &by, &mut talk)?;
    let kept = new.map(|key| clerk.keep_key(&key)).transpose()?.flatten();
    let put = clerk.change_crew(&by, &consent, &act);
    let put = put.map_err(|trouble| not_signed(trouble, kept.as_deref()))?;
    for line in told::after(&next) {
        talk.head(&line)?;
    }
    if put.first {
        talk.head(
            "No manager had signed for the crew file of this logbook. As it stood it is crew file 1; \
             what was signed by it stands.",
        )?;
    }
    told(&put, &by, &mut talk)?;
    Ok(Status::Fine)
}

/// Why nothing changed, and where the new key lies that waits for the same again.
fn not_signed(trouble: Trouble, kept: Option<&Path>) -> Stopped {
    let Some(path) = kept else {
        return trouble.into();
    };
    let trouble = trouble.to_string();
    Stopped::from(Trouble::Said(format!(
        "{trouble} The new key lies in {}, under its passphrase, and counts for nothing yet: the \
         same command takes it up again.",
        path.display()
    )))
}

/// The manager's yes to what was told, and that it opens the key: nothing is kept before.
pub(super) fn consent(
    clerk: &Clerk<Local>,
    by: &Signer,
    talk: &mut Talk<'_>,
) -> Result<Consent, Stopped> {
    talk.head(&format!("Whoever signs states this: {}", crew_meaning()))?;
    let lies = clerk.key_lies(by)?;
    let who = (by.name.as_str(), ", to change the crew");
    let consent = talk.consent(lies, who, clerk.mode())?;
    let not = |why: String| meant(format!("{why} Nothing was signed. The crew is as it was."));
    let consent = consent.map_err(not)?;
    clerk
        .opens(by, &consent)
        .map_err(|trouble| not(trouble.to_string()))?;
    Ok(consent)
}

/// What is in force now, and where to take it. A change and its undoing leave the same file, so the
/// statement is named with it.
pub(super) fn told(put: &PutInForce, by: &Signer, talk: &mut Talk<'_>) -> io::Result<()> {
    let statement = put.folder.number();
    let statement = statement.map_or_else(String::new, |number| {
        format!(" by statement {number} of {}", by.name)
    });
    talk.head(&format!(
        "In force{statement}: crew file {}, {}",
        put.number, put.file
    ))?;
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
            id: who,
            check_ride: Some(drill),
            ..
        } => {
            let who = id(who)?;
            let ride = changing.clerk.passed_ride(drill, &who)?;
            Ok(CrewAct::SignOffRide(who, ride))
        }
        CrewCommand::SignOff {
            id, rig, checklist, ..
        } => change::sign_off(changing, id, rig, checklist),
        CrewCommand::List { .. } | CrewCommand::Request { .. } | CrewCommand::Settle { .. } => {
            Err(meant("Nothing in the crew is changed by that."))
        }
    }
}
