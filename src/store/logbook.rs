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

use crate::record::{Digest, Id};
use crate::store::whole::{make_folders, sync_above};
use crate::store::{Disk, Doing, JournalText, Kind, Mode, StoreFault, keep, replace, write_once};
use std::ffi::{OsStr, OsString};
use std::path::{Path, PathBuf};

/// Most private keys of one person on one laptop; each is there because the one before was lost.
const MOST_KEYS: u32 = 99;

/// The most bytes of a file that is no journal.
pub const MOST_FILE_BYTES: usize = 1024 * 1024;

/// A folder of trips of one barn.
#[derive(Clone, Debug)]
pub struct Logbook<D: Disk> {
    disk: D,
    root: PathBuf,
}

/// The folder of one trip.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct TripFolder {
    /// The place of the trip in the device's sequence.
    pub seq: u64,
    /// The folder.
    pub path: PathBuf,
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
        self.root.join("dev")
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

impl TripFolder {
    /// The last place in a sequence: six digits.
    pub const LAST_SEQ: u64 = 999_999;

    /// The names of a trip's files.
    pub const FILES: [&str; 7] = [
        "trip.jsonl",
        "checklist.yaml",
        "rig.yaml",
        "crew.allowed_signers",
        "seal.json",
        "seal.person.sig",
        "seal.device.sig",
    ];

    /// The folder below `trips` for the trip with this place and id.
    pub(crate) fn below(trips: &Path, seq: u64, trip: &Id) -> Self {
        let letters = trip.as_str().chars().filter(char::is_ascii_alphanumeric);
        let id: String = letters.take(ID_LETTERS).collect();
        Self {
            seq,
            path: trips.join(format!("{seq:06}-{id}")),
        }
    }

    /// The same for another history of the same trip, told apart by letters of how it ends.
    pub(crate) fn beside(&self, ends: &Digest) -> Self {
        let mut name = self.path.file_name().unwrap_or_default().to_owned();
        let letters: String = ends.to_string().chars().take(ID_LETTERS).collect();
        name.push(format!("-{letters}"));
        Self {
            seq: self.seq,
            path: self.path.with_file_name(name),
        }
    }

    /// Whether the folder is named for this trip.
    pub fn is_named_for(&self, trip: &Id) -> bool {
        let name = Self::below(Path::new(""), self.seq, trip).path;
        self.path.file_name() == name.file_name()
    }

    /// Whether it is named for this trip, or for another history of it.
    pub fn begins_with_name_of(&self, trip: &Id) -> bool {
        let plain = Self::below(Path::new(""), self.seq, trip).path;
        let name = self.path.file_name().and_then(OsStr::to_str);
        let plain = plain.to_str().unwrap_or_default();
        let rest = name.and_then(|name| name.strip_prefix(plain));
        rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('-'))
    }

    /// The journal.
    pub fn journal(&self) -> PathBuf {
        self.path.join("trip.jsonl")
    }

    /// The seal.
    pub fn seal(&self) -> PathBuf {
        self.path.join("seal.json")
    }

    /// The driver's signature of the seal.
    pub fn person_signature(&self) -> PathBuf {
        self.path.join("seal.person.sig")
    }

    /// The device's signature of the seal.
    pub fn device_signature(&self) -> PathBuf {
        self.path.join("seal.device.sig")
    }

    /// The checklist as it was walked.
    pub fn checklist(&self) -> PathBuf {
        self.path.join("checklist.yaml")
    }

    /// The rig as it was described.
    pub fn rig(&self) -> PathBuf {
        self.path.join("rig.yaml")
    }

    /// Who might sign when the trip began.
    pub fn crew(&self) -> PathBuf {
        self.path.join("crew.allowed_signers")
    }
}

/// Whether a path, from the logbook's folder on, is one where a logbook keeps a record and looks for
/// it. A copy beside it, under another name, is no record of the logbook.
pub fn is_place(path: &Path) -> bool {
    let parts: Option<Vec<&str>> = path.iter().map(|part| part.to_str()).collect();
    match parts.unwrap_or_default().as_slice() {
        ["dev", device, "t", trip, file] => {
            Id::read(device).is_ok()
                && seq_of(trip).is_some()
                && (TripFolder::FILES.contains(file) || file.starts_with("trip.torn-"))
        }
        ["mgr", manager, statement, file] => {
            let known = ["statement.json", "statement.sig", "allowed_signers"];
            let named = statement.split_once('-').is_some_and(|(number, hash)| {
                number.bytes().all(|byte| byte.is_ascii_digit()) && is_hash(hash)
            });
            Id::read(manager).is_ok() && named && known.contains(file)
        }
        ["approved", checklist, hash, file] => {
            let known = ["checklist.yaml", "approval.json", "approval.sig"];
            Id::read(checklist).is_ok() && is_hash(hash) && known.contains(file)
        }
        ["crew", "allowed_signers"] | ["barn.txt"] => true,
        _ => false,
    }
}

/// Whether a name is the beginning of a hash, and nothing behind it.
fn is_hash(name: &str) -> bool {
    let is_digit = |byte: u8| matches!(byte, b'0'..=b'9' | b'a'..=b'f');
    !name.is_empty() && name.bytes().all(is_digit)
}

/// So many letters and digits of a trip's id stand in its folder's name.
const ID_LETTERS: usize = 8;

/// The place in a folder name like `000007-9f3c01ab`, or `000007-9f3c01ab-5c1e09b4`.
fn seq_of(name: &str) -> Option<u64> {
    let (seq, rest) = name.split_once('-')?;
    let digits = seq.len() == 6 && seq.bytes().all(|byte| byte.is_ascii_digit());
    let plain = |byte: u8| byte.is_ascii_digit() || byte.is_ascii_lowercase();
    let named = |id: &str| (1..=ID_LETTERS).contains(&id.len()) && id.bytes().all(plain);
    let mut parts = rest.splitn(2, '-');
    (digits && parts.all(named)).then(|| seq.parse().ok())?
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_where_the_logbook_looks_is_a_place_of_its_records() {
        for (path, is) in [
            ("dev/laptop-one/t/000007-9f3c01ab/trip.jsonl", true),
            ("dev/laptop-one/t/000007-9f3c01ab-5c1e09b4/seal.json", true),
            ("dev/laptop-one/t/000007-9f3c01ab/trip (1).jsonl", false),
            ("dev/laptop-one/t/000007-9f3c01ab (1)/trip.jsonl", false),
            ("dev/laptop-one/hold", false),
            ("mgr/odile.marsh/000003-5c1e09b4/statement.sig", true),
            ("mgr/odile.marsh/000003-5c1e09b4 (1)/statement.sig", false),
            ("crew/allowed_signers", true),
            ("crew/allowed_signers~", false),
            ("barn.txt", true),
            ("stick/crew/allowed_signers", false),
        ] {
            assert_eq!(is_place(Path::new(path)), is, "{path}");
        }
    }

    #[test]
    fn a_trips_folder_says_its_place_and_the_beginning_of_its_id() {
        for (id, name) in [
            ("9f3c01ab77de4410", "000007-9f3c01ab"),
            ("9f-3c.01-ab77de4410", "000007-9f3c01ab"),
            ("k", "000007-k"),
        ] {
            let folder = TripFolder::below(Path::new("t"), 7, &Id::read(id).unwrap());
            assert_eq!(folder.path, Path::new("t").join(name));
            assert_eq!(seq_of(name), Some(7));
        }
    }

    #[test]
    fn a_copy_made_by_a_file_sync_is_no_trips_folder() {
        for name in [
            "000007-9f3c01ab (1)",
            "000007-9f3c01ab.sync-conflict-1",
            "7-9f3c01ab",
            "000007",
            "+00007-9f3c01ab",
            "000007-9F3C01AB",
            "0000007-9f3c01ab",
            "000007-",
            "000007-9f3c01ab0",
        ] {
            assert_eq!(seq_of(name), None, "{name}");
        }
    }
}
