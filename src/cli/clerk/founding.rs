//! Making a logbook: its folders, the keys of its first people and of this laptop, the crew file.
//!
//! Where a manager is among them, the crew file is stated as the first of the roster. The crew file
//! is written last, so a logbook is founded when it is there. What a crash left on the way is used
//! again.

use crate::cli::clerk::pen::Pen;
use crate::cli::clerk::{Books, Clerk, NotInForce, Place, Trouble, Trust};
use crate::desk::Consent;
use crate::record::{
    Crew, DeviceKey, Dice, Id, LockedKey, Mode, Namespace, Passphrase, PrintedName, PublicKey,
    Role, Roster, Signer,
};
use crate::store::{Disk, Doing, Logbook, Mode as For, StoreFault, keep, write_once};
use crate::world::World;
use std::path::{Path, PathBuf};
use zeroize::Zeroizing;

/// A person who gets a key.
#[derive(Debug)]
pub struct Person {
    /// Id in records.
    pub id: Id,
    /// Printed name.
    pub name: PrintedName,
    /// What the person may sign as.
    pub roles: Vec<Role>,
    /// Opens the key from now on.
    pub passphrase: Passphrase,
}

/// Whether there is a logbook that was made to its end.
///
/// # Errors
/// What the disk refused; and where there are trips and no crew file, since a logbook is not made
/// over another.
pub fn is_founded<D: Disk>(disk: &D, root: &Path) -> Result<bool, Trouble> {
    match Logbook::open(disk.clone(), root) {
        Ok(logbook) => {
            let crew = logbook.crew();
            let exists = logbook.disk().exists(&crew);
            let exists = exists.map_err(StoreFault::of(Doing::Read, &crew))?;
            if exists || !has_trips(&logbook)? {
                return Ok(exists);
            }
            if let Some(not) = NotInForce::of_one_without(&logbook)? {
                return Err(not.told("Nothing is done without the crew file"));
            }
            Err(Trouble::Said(format!(
                "The logbook in {} has trips and no crew/allowed_signers: that file was taken \
                 away, or has not arrived. Put it back: it is the crew.allowed_signers beside the \
                 newest trip.",
                root.display()
            )))
        }
        Err(StoreFault::NotALogbook { .. }) => Ok(false),
        Err(fault) => Err(fault.into()),
    }
}

fn has_trips<D: Disk>(logbook: &Logbook<D>) -> Result<bool, StoreFault> {
    for device in logbook.devices()? {
        if !logbook.trips(&device)?.trips.is_empty() {
            return Ok(true);
        }
    }
    Ok(false)
}

/// Makes a logbook for a barn and these people.
///
/// # Errors
/// What the disk refused, or why a key could not be made.
pub fn found<D: Disk>(
    disk: &D,
    world: &dyn World,
    place: &Place,
    barn: &str,
    people: &[Person],
) -> Result<(), Trouble> {
    let logbook = Logbook::make(disk.clone(), &place.root)?;
    keep_name(&logbook, barn)?;
    let mut crew = Crew::read(b"")?;
    let manager = people
        .iter()
        .find(|person| person.roles.contains(&Role::Manager));
    for person in people {
        crew = crew.add(&Signer::enrolled(
            &person.id,
            person.roles.clone(),
            &key_of(&logbook, world, (person, place.mode))?,
            person.name.clone(),
            place.mode,
        ))?;
    }
    // What a crash left of a founding, stated already, is what is founded.
    let books = Books {
        logbook: logbook.clone(),
        crew: crew.clone(),
        trust: Trust::alone(std::slice::from_ref(&crew)),
        roster: Roster::default(),
    };
    if let Some(stated) = books.statements()?.roster().in_force() {
        let text = stated.crew.text().as_bytes();
        return Ok(write_once(disk, &logbook.crew(), text, For::Shared)?);
    }
    let tail = hex(world.random::<2>()?);
    let device = id(&format!("laptop-{tail}"))?;
    let name = PrintedName::read(&format!("Laptop {tail}"))
        .map_err(|fault| Trouble::Said(fault.to_string()))?;
    let key = DeviceKey::make(&Dice::new(world.random()?), &device)?;
    logbook.keep_key(&device, key.file()?.as_bytes())?;
    crew = crew.add(&Signer::enrolled(
        &device,
        vec![Role::Device],
        key.public(),
        name,
        place.mode,
    ))?;
    if let Some(person) = manager
        && let Some(signer) = crew.signer(&person.id)
    {
        let pen = Pen::File(read_key(&logbook, &logbook.key(&person.id))?);
        let consent = Consent::Passphrase(person.passphrase.clone());
        let by = (&pen, &consent);
        books.found_roster(signer, by, &world.now(), &crew)?;
    }
    // Never in place of one that is there.
    let text = crew.text().as_bytes();
    Ok(write_once(disk, &logbook.crew(), text, For::Shared)?)
}

impl<D: Disk> Clerk<D> {
    /// Makes the demo barn where the clerk is for it and there is none yet.
    pub(super) fn found_demo(&self) -> Result<(), Trouble> {
        if self.place.mode != Mode::Demo || is_founded(&self.disk, &self.place.root)? {
            return Ok(());
        }
        let people = demo_people()?;
        found(&self.disk, &*self.world, &self.place, DEMO_BARN, &people)
    }
}

/// The invented people of the demo barn. Their passphrase is no secret: it is said where it is
/// asked.
pub(super) fn demo_people() -> Result<Vec<Person>, Trouble> {
    [
        ("wren.ashdown", "Wren Ashdown", Role::Driver),
        ("tobias.fenn", "Tobias Fenn", Role::Groom),
        ("odile.marsh", "Odile Marsh", Role::Manager),
    ]
    .into_iter()
    .map(|(who, name, role)| {
        Ok(Person {
            id: id(who)?,
            name: PrintedName::read(name).map_err(|fault| Trouble::Said(fault.to_string()))?,
            roles: vec![role],
            passphrase: Passphrase::new(Zeroizing::new("demo".to_owned()))?,
        })
    })
    .collect()
}

/// The name of the demo barn.
pub(in crate::cli) const DEMO_BARN: &str = "Quillwater Stables";

/// Where the name of the barn stands.
pub(in crate::cli) fn name_file(root: &Path) -> PathBuf {
    root.join("barn.txt")
}

fn keep_name<D: Disk>(logbook: &Logbook<D>, barn: &str) -> Result<(), Trouble> {
    let path = name_file(logbook.root());
    let text = format!("{barn}\n");
    Ok(keep(logbook.disk(), &path, text.as_bytes(), For::Shared)?)
}

/// The person's key: made and kept, or the one that is there, if the passphrase opens it.
fn key_of<D: Disk>(
    logbook: &Logbook<D>,
    world: &dyn World,
    (person, mode): (&Person, Mode),
) -> Result<PublicKey, Trouble> {
    let path = logbook.key(&person.id);
    if logbook.disk().exists(&path).unwrap_or(false) {
        let key = read_key(logbook, &path)?;
        let any = Namespace::new(Role::Driver.deed(), Mode::Demo);
        key.sign(&person.passphrase, any, b"")?;
        return Ok(key.public().clone());
    }
    let dice = Dice::new(world.random()?);
    let make = match mode {
        Mode::Demo => LockedKey::make_for_demo,
        Mode::Real | Mode::Drill => LockedKey::make,
    };
    let key = make(&dice, &person.passphrase, &person.id)?;
    logbook.keep_key(&person.id, key.file()?.as_bytes())?;
    Ok(key.public().clone())
}

/// A person's key, still locked.
pub(super) fn read_key<D: Disk>(logbook: &Logbook<D>, path: &Path) -> Result<LockedKey, Trouble> {
    let bytes = logbook.read(path)?;
    Ok(LockedKey::read(&String::from_utf8_lossy(&bytes))?)
}

/// A device's key.
pub(super) fn read_device_key<D: Disk>(
    logbook: &Logbook<D>,
    device: &Id,
) -> Result<DeviceKey, Trouble> {
    let bytes = Zeroizing::new(logbook.read(&logbook.key(device))?);
    let text = std::str::from_utf8(&bytes).unwrap_or_default();
    Ok(DeviceKey::read(text)?)
}

pub(super) fn id(text: &str) -> Result<Id, Trouble> {
    Id::read(text).map_err(|fault| Trouble::Said(format!("{fault}.")))
}

/// Bytes as lower-case hexadecimal.
pub(super) fn hex<const N: usize>(bytes: [u8; N]) -> String {
    bytes
        .iter()
        .fold(String::new(), |text, byte| format!("{text}{byte:02x}"))
}
