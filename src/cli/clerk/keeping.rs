//! Keys that come into a logbook: made here, brought as a file, held by the agent, or asked for by
//! a laptop that is not in the crew yet.

use crate::cli::clerk::books::person_of;
use crate::cli::clerk::founding::{hex, id};
use crate::cli::clerk::{Clerk, Trouble};
use crate::record::{
    CrewNow, DeviceKey, Dice, Gone, Id, LockedKey, Mode, Namespace, Passphrase, PrintedName,
    PublicKey, Request, Role, Signer,
};
use crate::store::Disk;
use std::path::PathBuf;
use zeroize::Zeroizing;

/// A key that somebody is to sign with. Where its file is not kept here yet it waits in memory, so
/// that a change that is refused leaves no private key behind.
#[derive(Debug)]
pub struct NewKey {
    /// What the crew file gets of it.
    pub public: PublicKey,
    /// Whose it is, and the file that waits.
    waits: Option<(Id, Zeroizing<String>)>,
}

impl<D: Disk> Clerk<D> {
    /// Whether somebody may come into the crew by this id and name, before a key is made for them.
    ///
    /// # Errors
    /// A sentence with its next step.
    pub fn may_add(&self, id: &Id, name: &PrintedName, roles: &[Role]) -> Result<(), Trouble> {
        let (books, statements) = self.crew()?;
        let now = CrewNow {
            crew: &books.crew,
            roster: statements.roster(),
            mode: books.mode(),
        };
        Ok(now.is_new(id, name, roles)?)
    }

    /// Whether this manager may give somebody another key, before one is made for them.
    ///
    /// # Errors
    /// A sentence with its next step.
    pub fn may_replace_key(&self, who: &Id, by: &Id) -> Result<(), Trouble> {
        let (books, statements) = self.crew()?;
        let now = CrewNow {
            crew: &books.crew,
            roster: statements.roster(),
            mode: books.mode(),
        };
        now.may_replace_key(who, by)?;
        Ok(())
    }

    /// Who in the crew has this id, or else this printed name.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn in_crew(&self, id: &Id, name: &PrintedName) -> Result<Option<Signer>, Trouble> {
        let crew = self.books()?.crew;
        let found = crew.signer(id).or_else(|| person_of(&crew, name.as_str()));
        Ok(found.cloned())
    }

    /// Keeps the file of a key that waits for it; where, or nothing where none waited.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn keep_key(&self, key: &NewKey) -> Result<Option<PathBuf>, Trouble> {
        let Some((whose, file)) = &key.waits else {
            return Ok(None);
        };
        let logbook = self.books()?.logbook;
        Ok(Some(logbook.keep_next_key(whose, file.as_bytes())?))
    }

    /// A key for a person on this laptop, under this passphrase: a new one, or one that was made
    /// here before, opens with it, and is nobody's yet.
    ///
    /// # Errors
    /// A sentence with its next step.
    pub fn make_key(&self, person: &Id, passphrase: &Passphrase) -> Result<NewKey, Trouble> {
        let books = self.books()?;
        let ever = books.everyone()?;
        let any = Namespace::new(Role::Driver.deed(), Mode::Demo);
        for path in books.logbook.keys_of(person)? {
            let bytes = books.logbook.read(&path)?;
            let Ok(key) = LockedKey::read(&String::from_utf8_lossy(&bytes)) else {
                continue;
            };
            if !ever.contains(key.public()) && key.sign(passphrase, any, b"").is_ok() {
                return Ok(NewKey::lies_elsewhere(key.public().clone()));
            }
        }
        let key = LockedKey::make(&Dice::new(self.world.random()?), passphrase, person)?;
        Ok(NewKey {
            public: key.public().clone(),
            waits: Some((person.clone(), key.file()?)),
        })
    }

    /// A private key file that a person brings; what is here already does not wait to be kept.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn bring_key(
        &self,
        person: &Id,
        key: &LockedKey,
        file: Zeroizing<String>,
    ) -> Result<NewKey, Trouble> {
        let logbook = self.books()?.logbook;
        let mut here = false;
        for path in logbook.keys_of(person)? {
            here |= logbook.read(&path)? == file.as_bytes();
        }
        Ok(NewKey {
            public: key.public().clone(),
            waits: (!here).then(|| (person.clone(), file)),
        })
    }

    /// The keys the ssh-agent holds that are nobody's in this logbook.
    ///
    /// # Errors
    /// A sentence with its next step.
    pub fn keys_to_take(&self) -> Result<Vec<PublicKey>, Trouble> {
        let ever = self.books()?.everyone()?;
        let mut held = self.keys_held()?;
        held.retain(|key| !ever.contains(key));
        Ok(held)
    }

    /// The key of this laptop: one that was made before and is not in the crew, else a new one.
    ///
    /// # Errors
    /// A sentence, where this laptop is in the crew.
    pub fn device_request(&self, name: Option<&PrintedName>) -> Result<(Request, NewKey), Trouble> {
        let books = self.books()?;
        if let Ok(device) = books.device() {
            return Err(Trouble::Said(format!(
                "This laptop is in the crew already, as {device}. One laptop has one key."
            )));
        }
        if let Some((device, public)) = books.asked_to_be_let_in()? {
            let request = request(device, name, &public)?;
            return Ok((request, NewKey::lies_elsewhere(public)));
        }
        let device = id(&format!("laptop-{}", hex(self.world.random::<2>()?)))?;
        let key = DeviceKey::make(&Dice::new(self.world.random()?), &device)?;
        let new = NewKey {
            public: key.public().clone(),
            waits: Some((device.clone(), key.file()?)),
        };
        Ok((request(device, name, key.public())?, new))
    }
}

impl NewKey {
    /// A key whose file lies elsewhere, or is kept already.
    pub const fn lies_elsewhere(public: PublicKey) -> Self {
        Self {
            public,
            waits: None,
        }
    }
}

impl<D: Disk> crate::cli::clerk::Books<D> {
    /// The laptop that asks to be let in from here: its key was made, and was never in the crew.
    pub(super) fn asked_to_be_let_in(&self) -> Result<Option<(Id, PublicKey)>, Trouble> {
        let mut ever = None;
        for device in self.logbook.key_names()? {
            let bytes = Zeroizing::new(self.logbook.read(&self.logbook.key(&device))?);
            let key = DeviceKey::read(std::str::from_utf8(&bytes).unwrap_or_default());
            let Ok(key) = key else { continue };
            let known = match ever.take() {
                Some(known) => known,
                None => self.everyone()?,
            };
            if !known.contains(key.public()) {
                return Ok(Some((device, key.public().clone())));
            }
            ever = Some(known);
        }
        Ok(None)
    }

    /// Every key there ever was in the crew, but those that only a change had added which did not go
    /// on: they may still come in.
    fn everyone(&self) -> Result<Vec<PublicKey>, Trouble> {
        let statements = self.statements()?;
        let roster = statements.roster();
        let mut keys: Vec<PublicKey> = Vec::new();
        for revision in roster.revisions() {
            let signers = revision.crew.signers().iter().map(|signer| &signer.key);
            let was_added = |key: &&PublicKey| {
                let gone = roster.taken_out(key, revision);
                gone.is_none_or(|(_, how)| how != Gone::NotAdded)
            };
            keys.extend(signers.filter(was_added).cloned());
        }
        keys.extend(self.crew.signers().iter().map(|signer| signer.key.clone()));
        Ok(keys)
    }
}

/// What is carried to the manager: `laptop-7f3a` is called “Laptop 7f3a” unless it has a name.
fn request(device: Id, name: Option<&PrintedName>, key: &PublicKey) -> Result<Request, Trouble> {
    let named = || {
        let plain = device.as_str().replace("laptop-", "Laptop ");
        PrintedName::read(&plain).map_err(|fault| Trouble::Said(format!("{fault}.")))
    };
    let name = name.cloned().map_or_else(named, Ok)?;
    Ok(Request {
        key: key.clone(),
        who: Some((device, name)),
    })
}
