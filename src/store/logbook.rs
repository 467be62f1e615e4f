//! Where each thing of a logbook lies. Reading one changes nothing in it.
//!
//! ```text
//! .gitattributes                     no line ending is ever changed on the way
//! .gitignore                         private keys stay where they are
//! crew/allowed_signers               who may sign
//! keys/wren  keys/wren+2             private keys, for their owner alone
//! approved/my-list/2f9a3c01ab77de44/ a checklist a manager has approved:
//!     checklist.yaml  approval.json  approval.sig
//! mgr/odile.marsh/000003-5c1e09b4/   what a manager stated:
//!     statement.json  statement.sig  allowed_signers (where it is a new crew file)
//! drill/dev/barn-laptop/…            the drills, as the trips below: with scenario.yaml sights.yaml
//! cache/trips.json                   what the start knows without reading; may be deleted
//! dev/barn-laptop/hold               locked while a device is written
//! quarantine/5c1e09b4d2a77f10/       what a merge could not use: as-found  why.txt
//! dev/barn-laptop/t/000007-9f3c01ab/ one trip:
//!     trip.jsonl  trip.torn-1        the journal, and what a crash left of a line
//!     checklist.yaml  rig.yaml  crew.allowed_signers
//!     seal.json  seal.person.sig  seal.device.sig
//! dev/barn-laptop/t/000007-9f3c01ab-5c1e09b4/
//!     another history with the same beginning: neither is chosen
//! ```

use crate::record::Id;
use crate::store::places::seq_of;
use crate::store::whole::{make_folders, sync_above};
use crate::store::{
    Disk, Doing, JournalText, Kind, Mode, StoreFault, TripFolder, keep, replace, write_once,
};
use std::ffi::OsString;
use std::path::{Path, PathBuf};

/// Most private keys of one person on one laptop; each is there because the one before was lost.
const MOST_KEYS: u32 = 99;

/// The most bytes of a file that is no journal.
pub const MOST_FILE_BYTES: usize = 1024 * 1024;

/// The folder of the drills below that of a logbook.
pub const DRILLS: &str = "drill";

/// A folder of trips of one barn.
#[derive(Clone, Debug)]
pub struct Logbook<D: Disk> {
    disk: D,
    root: PathBuf,
    /// Whether its trips are those of the drills.
    drills: bool,
}

/// What lies in the folder of a device's trips.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Trips {
    /// The trips, in sequence; two may have the same place.
    pub trips: Vec<TripFolder>,
    /// What has no name of ours: copies made by a file sync, foreign things.
    pub strays: Vec<OsString>,
}

impl<D: Disk> Logbook<D> {
    /// Makes the folders of a logbook, or completes one that is there already.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn make(disk: D, root: &Path) -> Result<Self, StoreFault> {
        let logbook = Self {
            disk,
            root: root.to_owned(),
            drills: false,
        };
        let disk = &logbook.disk;
        make_folders(disk, root, Mode::Shared)?;
        sync_above(disk, root)?;
        make_folders(disk, &logbook.crew_folder(), Mode::Shared)?;
        make_folders(disk, &logbook.key_folder(), Mode::Private)?;
        for (name, text) in [(".gitattributes", "* -text\n"), (".gitignore", "/keys/\n")] {
            keep(disk, &root.join(name), text.as_bytes(), Mode::Shared)?;
        }
        make_folders(disk, &logbook.device_folders(), Mode::Shared)?;
        Ok(logbook)
    }

    /// Opens a logbook to look at it, and writes nothing.
    ///
    /// # Errors
    /// [`StoreFault::NotALogbook`] when there is none; else what the disk refused.
    pub fn open(disk: D, root: &Path) -> Result<Self, StoreFault> {
        let logbook = Self {
            disk,
            root: root.to_owned(),
            drills: false,
        };
        let devices = logbook.device_folders();
        let exists = logbook.disk.exists(&devices);
        if exists.map_err(StoreFault::of(Doing::Read, &devices))? {
            Ok(logbook)
        } else {
            let folder = root.to_owned();
            Err(StoreFault::NotALogbook { folder })
        }
    }

    /// The drills of the same people: the same crew and keys, and trips in a tree of their own.
    #[must_use]
    pub fn drills(&self) -> Self {
        Self {
            drills: true,
            ..self.clone()
        }
    }

    /// The disk it lies on.
    pub fn disk(&self) -> &D {
        &self.disk
    }

    /// Its folder.
    pub fn root(&self) -> &Path {
        &self.root
    }

    /// The list of who may sign.
    pub fn crew(&self) -> PathBuf {
        self.crew_folder().join("allowed_signers")
    }

    /// Puts a new list of who may sign in place of the old one.
    ///
    /// # Errors
    /// What the disk refused; the old list is then there, or the new one, whole.
    pub fn replace_crew(&self, bytes: &[u8]) -> Result<(), StoreFault> {
        replace(&self.disk, &self.crew(), bytes, Mode::Shared)
    }

    /// The private key of a person or a device.
    pub fn key(&self, id: &Id) -> PathBuf {
        self.key_folder().join(id.as_str())
    }

    /// Keeps a private key, readable for its owner alone.
    ///
    /// # Errors
    /// [`StoreFault::Taken`] when there is one of that name; else what the disk refused.
    pub fn keep_key(&self, id: &Id, bytes: &[u8]) -> Result<(), StoreFault> {
        make_folders(&self.disk, &self.key_folder(), Mode::Private)?;
        write_once(&self.disk, &self.key(id), bytes, Mode::Private)
    }

    /// The private keys kept of a person, the first one first. One that was revoked stays.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn keys_of(&self, id: &Id) -> Result<Vec<PathBuf>, StoreFault> {
        let mut found = Vec::new();
        for path in self.key_names_of(id) {
            if !self.has(&path)? {
                break;
            }
            found.push(path);
        }
        Ok(found)
    }

    /// Keeps a private key beside those that are there, readable for its owner alone; where.
    ///
    /// # Errors
    /// [`StoreFault::Taken`] when no name is left; else what the disk refused.
    pub fn keep_next_key(&self, id: &Id, bytes: &[u8]) -> Result<PathBuf, StoreFault> {
        make_folders(&self.disk, &self.key_folder(), Mode::Private)?;
        let mut last = self.key(id);
        for path in self.key_names_of(id) {
            if !self.has(&path)? {
                write_once(&self.disk, &path, bytes, Mode::Private)?;
                return Ok(path);
            }
            last = path;
        }
        Err(StoreFault::Taken { path: last })
    }

    /// Whose private keys are kept here.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn key_names(&self) -> Result<Vec<Id>, StoreFault> {
        let folder = self.key_folder();
        if !self.has(&folder)? {
            return Ok(Vec::new());
        }
        let entries = self.disk.list(&folder);
        let entries = entries.map_err(StoreFault::of(Doing::Read, &folder))?;
        let files = entries.into_iter().filter(|one| one.kind == Kind::File);
        Ok(files
            .filter_map(|one| Id::read(one.name.to_str()?).ok())
            .collect())
    }

    /// Reads a file of the logbook that is no journal.
    ///
    /// # Errors
    /// [`StoreFault::TooLarge`], or what the disk refused.
    pub fn read(&self, path: &Path) -> Result<Vec<u8>, StoreFault> {
        self.disk
            .read(path, MOST_FILE_BYTES)
            .map_err(StoreFault::of_reading(path, MOST_FILE_BYTES))
    }

    /// The devices that have a folder, by name.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn devices(&self) -> Result<Vec<Id>, StoreFault> {
        let folder = self.device_folders();
        if self.drills && !self.has(&folder)? {
            return Ok(Vec::new());
        }
        let entries = self.disk.list(&folder);
        let entries = entries.map_err(StoreFault::of(Doing::Read, &folder))?;
        Ok(entries
            .into_iter()
            .filter(|entry| entry.kind == Kind::Folder)
            .filter_map(|entry| Id::read(entry.name.to_str()?).ok())
            .collect())
    }

    /// The trips of a device, and what else lies among them.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn trips(&self, device: &Id) -> Result<Trips, StoreFault> {
        let folder = self.trip_folders(device);
        let missing = StoreFault::of(Doing::Read, &folder);
        if !self.disk.exists(&folder).map_err(missing)? {
            return Ok(Trips::default());
        }
        let entries = self.disk.list(&folder);
        let mut found = Trips::default();
        for entry in entries.map_err(StoreFault::of(Doing::Read, &folder))? {
            let name = entry.name.to_str().filter(|_| entry.kind == Kind::Folder);
            match name.and_then(seq_of) {
                Some(seq) => found.trips.push(TripFolder {
                    seq,
                    path: folder.join(&entry.name),
                }),
                None => found.strays.push(entry.name),
            }
        }
        Ok(found)
    }

    /// The trips of a device that have begun and have no seal.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn unsealed(&self, device: &Id) -> Result<Vec<TripFolder>, StoreFault> {
        let mut unsealed = Vec::new();
        for trip in self.trips(device)?.trips {
            if !self.is_sealed(&trip)? && self.has_begun(&trip)? {
                unsealed.push(trip);
            }
        }
        Ok(unsealed)
    }

    /// Whether the trip has a seal, whatever it is worth.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn is_sealed(&self, trip: &TripFolder) -> Result<bool, StoreFault> {
        self.has(&trip.seal())
    }

    /// Whether the trip has a seal and both signatures, whatever they are worth.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn is_signed(&self, trip: &TripFolder) -> Result<bool, StoreFault> {
        Ok(self.is_sealed(trip)?
            && self.has(&trip.person_signature())?
            && self.has(&trip.device_signature())?)
    }

    /// Whether the trip has a first line. A folder without one is what a crash left of a
    /// beginning: nothing in it was ever called recorded, and its place in the sequence is still free.
    /// A journal that cannot be read counts as begun.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn has_begun(&self, trip: &TripFolder) -> Result<bool, StoreFault> {
        let journal = trip.journal();
        Ok(self.has(&journal)?
            && JournalText::read(&self.disk, &journal).map_or(true, |text| !text.lines.is_empty()))
    }

    /// The folder of a device.
    pub(crate) fn device_folder(&self, device: &Id) -> PathBuf {
        self.device_folders().join(device.as_str())
    }

    /// The folder of a device's trips.
    pub fn trip_folders(&self, device: &Id) -> PathBuf {
        self.device_folder(device).join("t")
    }

    /// The folder that holds a folder for each device.
    pub(crate) fn device_folders(&self) -> PathBuf {
        if self.drills {
            self.root.join(DRILLS).join("dev")
        } else {
            self.root.join("dev")
        }
    }

    fn crew_folder(&self) -> PathBuf {
        self.root.join("crew")
    }

    fn key_folder(&self) -> PathBuf {
        self.root.join("keys")
    }

    /// `keys/wren`, then `keys/wren+2` and on: no id has a plus in it.
    fn key_names_of(&self, id: &Id) -> impl Iterator<Item = PathBuf> {
        let (first, folder, id) = (self.key(id), self.key_folder(), id.clone());
        let more = (2..=MOST_KEYS).map(move |number| folder.join(format!("{id}+{number}")));
        [first].into_iter().chain(more)
    }

    pub(crate) fn has(&self, path: &Path) -> Result<bool, StoreFault> {
        self.disk
            .exists(path)
            .map_err(StoreFault::of(Doing::Read, path))
    }
}
