//! The keys of the year: six people and three laptops.
//!
//! They come of the seed like everything else, so that the same year is the same bytes; whoever has
//! this program can make them. That is well for invented records, and for nothing else: they sign
//! in the namespaces of the demo alone.

use crate::cli::clerk::Trouble;
use crate::record::{
    Crew, DeviceKey, Dice as Thrown, Id, LockedKey, Mode, Passphrase, PrintedName, Role, Signer,
};
use crate::shown::Dice;
use crate::store::{Logbook, Unsynced};
use crate::year::{PEOPLE, Person, Work};
use zeroize::Zeroizing;

/// The demo barn's passphrase, said where it is asked.
const PASSPHRASE: &str = "demo";

const LAPTOPS: [(&str, &str); crate::year::LAPTOPS] = [
    ("laptop-2b1f", "Laptop 2b1f"),
    ("laptop-4c90", "Laptop 4c90"),
    ("laptop-9d37", "Laptop 9d37"),
];

/// One of those who sign. The key is open here, since opening one takes long on purpose; on the
/// disk a person's is under the passphrase.
pub(super) struct Key {
    pub(super) id: Id,
    pub(super) name: PrintedName,
    pub(super) role: Role,
    pub(super) open: DeviceKey,
    file: Option<Zeroizing<String>>,
}

/// Everybody's.
pub(super) struct Keys {
    pub(super) people: Vec<Key>,
    pub(super) laptops: Vec<Key>,
    pub(super) crew: Crew,
}

impl Keys {
    pub(super) fn made(dice: &mut Dice) -> Result<Self, Trouble> {
        let people: Result<Vec<Key>, Trouble> = PEOPLE
            .iter()
            .map(|person| of_person(person, dice))
            .collect();
        let people = people?;
        let laptops: Result<Vec<Key>, Trouble> = LAPTOPS
            .iter()
            .zip([true, false, false])
            .map(|((id, name), here)| {
                let (id, name) = (read_id(id)?, printed(name)?);
                let open = DeviceKey::make(&Thrown::new(dice.bytes()), &id)?;
                Ok(Key {
                    // This computer is the first of them, and goes on with its trips.
                    file: if here { Some(open.file()?) } else { None },
                    role: Role::Device,
                    id,
                    name,
                    open,
                })
            })
            .collect();
        let laptops = laptops?;
        let mut crew = Crew::read(b"")?;
        for key in people.iter().chain(&laptops) {
            let (roles, name) = (vec![key.role], key.name.clone());
            let public = key.open.public();
            crew = crew.add(&Signer::enrolled(&key.id, roles, public, name, Mode::Demo))?;
        }
        Ok(Self {
            people,
            laptops,
            crew,
        })
    }

    pub(super) fn keep(&self, logbook: &Logbook<Unsynced>) -> Result<(), Trouble> {
        for key in self.people.iter().chain(&self.laptops) {
            if let Some(file) = &key.file {
                logbook.keep_key(&key.id, file.as_bytes())?;
            }
        }
        Ok(())
    }

    pub(super) fn of(&self, person: &Person) -> Result<&Key, Trouble> {
        let mut people = self.people.iter();
        let key = people.find(|key| key.id.as_str() == person.id);
        key.ok_or_else(|| Trouble::Said(format!("{} has no key.", person.name)))
    }

    pub(super) fn manager(&self) -> Result<&Key, Trouble> {
        let mut people = self.people.iter();
        let key = people.find(|key| key.role == Role::Manager);
        key.ok_or_else(|| Trouble::Said("Nobody is the manager.".to_owned()))
    }
}

fn of_person(person: &Person, dice: &mut Dice) -> Result<Key, Trouble> {
    let (id, thrown) = (read_id(person.id)?, dice.bytes());
    let passphrase = Passphrase::new(Zeroizing::new(PASSPHRASE.to_owned()))?;
    let locked = LockedKey::make_for_demo(&Thrown::new(thrown), &passphrase, &id)?;
    Ok(Key {
        open: DeviceKey::make(&Thrown::new(thrown), &id)?,
        name: printed(person.name)?,
        role: match person.work {
            Work::Driver => Role::Driver,
            Work::Groom => Role::Groom,
            Work::Manager => Role::Manager,
        },
        file: Some(locked.file()?),
        id,
    })
}

pub(super) fn read_id(text: &str) -> Result<Id, Trouble> {
    Id::read(text).map_err(|fault| Trouble::Said(format!("{fault}.")))
}

fn printed(name: &str) -> Result<PrintedName, Trouble> {
    PrintedName::read(name).map_err(|fault| Trouble::Said(fault.to_string()))
}
