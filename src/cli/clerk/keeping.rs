//! Keys that come into a logbook: made here, brought as a file, held by the agent, or asked for by
//! a laptop that is not in the crew yet.

use crate::cli::clerk::founding::{hex, id};
use crate::cli::clerk::{Clerk, Trouble};
use crate::record::{
    Crew, DeviceKey, Dice, Id, LockedKey, Mode, Namespace, Passphrase, PrintedName, PublicKey,
    Request, Role,
};
use crate::store::Disk;

impl<D: Disk> Clerk<D> {
    /// A key for a person on this laptop, under this passphrase: a new one, or one that was made
    /// here before, opens with it, and is nobody's yet.
    ///
    /// # Errors
    /// A sentence with its next step.
    pub fn make_key(&self, person: &Id, passphrase: &Passphrase) -> Result<PublicKey, Trouble> {
        let books = self.books()?;
        let ever = books.everyone()?;
        let any = Namespace::new(Role::Driver.deed(), Mode::Demo);
        for path in books.logbook.keys_of(person)? {
            let bytes = books.logbook.read(&path)?;
            let Ok(key) = LockedKey::read(&String::from_utf8_lossy(&bytes)) else {
                continue;
            };
            if !ever.contains(key.public()) && key.sign(passphrase, any, b"").is_ok() {
                return Ok(key.public().clone());
            }
        }
        let key = LockedKey::make(&Dice::new(self.world.random()?), passphrase, person)?;
        books
            .logbook
            .keep_next_key(person, key.file()?.as_bytes())?;
        Ok(key.public().clone())
    }

    /// Keeps a private key file of a person, unless it is here.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn keep_key_file(&self, person: &Id, file: &str) -> Result<(), Trouble> {
        let logbook = self.books()?.logbook;
        for path in logbook.keys_of(person)? {
            if logbook.read(&path)? == file.as_bytes() {
                return Ok(());
            }
        }
        Ok(logbook.keep_next_key(person, file.as_bytes())?)
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
    pub fn device_request(&self, name: Option<&PrintedName>) -> Result<Request, Trouble> {
        let books = self.books()?;
        if let Ok(device) = books.device() {
            return Err(Trouble::Said(format!(
                "This laptop is in the crew already, as {device}. One laptop has one key."
            )));
        }
        let ever = books.everyone()?;
        for device in books.logbook.key_names()? {
            let bytes = zeroize::Zeroizing::new(books.logbook.read(&books.logbook.key(&device))?);
            let key = DeviceKey::read(std::str::from_utf8(&bytes).unwrap_or_default());
            if let Ok(key) = key
                && !ever.contains(key.public())
            {
                return request(device, name, key.public());
            }
        }
        let device = id(&format!("laptop-{}", hex(self.world.random::<2>()?)))?;
        let key = DeviceKey::make(&Dice::new(self.world.random()?), &device)?;
        books.logbook.keep_key(&device, key.file()?.as_bytes())?;
        request(device, name, key.public())
    }
}

impl<D: Disk> crate::cli::clerk::Books<D> {
    /// Every key there ever was in the crew.
    fn everyone(&self) -> Result<Vec<PublicKey>, Trouble> {
        let statements = self.statements()?;
        let before = statements.roster().revisions().iter().map(|one| &one.crew);
        let keys = |crew: &Crew| {
            let keys = crew.signers().iter().map(|signer| signer.key.clone());
            keys.collect::<Vec<_>>()
        };
        Ok(before.chain([&self.crew]).flat_map(keys).collect())
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
