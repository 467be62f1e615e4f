//! The names a logbook gives: the folder of a trip and its files, and whether a path is the place of a
//! record at all.

use crate::record::{Digest, Id};
use crate::store::DRILLS;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};

/// The folder of one trip.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct TripFolder {
    /// The place of the trip in the device's sequence.
    pub seq: u64,
    /// The folder.
    pub path: PathBuf,
}

impl TripFolder {
    /// The last place in a sequence: six digits.
    pub const LAST_SEQ: u64 = 999_999;

    /// The names of a trip's files.
    pub const FILES: [&str; 10] = [
        "trip.jsonl",
        "checklist.yaml",
        "rig.yaml",
        "scenario.yaml",
        "sights.yaml",
        "crew.allowed_signers",
        "seal.json",
        "seal.person.sig",
        "seal.device.sig",
        "seal.examiner.sig",
    ];

    /// A folder that is taken for a trip's whatever its name is.
    pub fn at(path: &Path) -> Self {
        Self {
            seq: 0,
            path: path.to_owned(),
        }
    }

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

    /// The examiner's signature of the seal of a check ride.
    pub fn examiner_signature(&self) -> PathBuf {
        self.path.join("seal.examiner.sig")
    }

    /// The checklist as it was walked.
    pub fn checklist(&self) -> PathBuf {
        self.path.join("checklist.yaml")
    }

    /// The rig as it was described.
    pub fn rig(&self) -> PathBuf {
        self.path.join("rig.yaml")
    }

    /// The scenario of a drill.
    pub fn scenario(&self) -> PathBuf {
        self.path.join("scenario.yaml")
    }

    /// What is seen from where in a drill.
    pub fn sights(&self) -> PathBuf {
        self.path.join("sights.yaml")
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
        ["dev", device, "t", trip, file] | [DRILLS, "dev", device, "t", trip, file] => {
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
pub(super) fn seq_of(name: &str) -> Option<u64> {
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
            ("drill/dev/laptop-one/t/000007-d9f3c01a/sights.yaml", true),
            ("drill/dev/laptop-one/hold", false),
            ("drill/crew/allowed_signers", false),
            (
                "drill/drill/dev/laptop-one/t/000007-d9f3c01a/trip.jsonl",
                false,
            ),
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
