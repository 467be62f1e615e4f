//! What lies beside trips under another name: judged by what is in it.

use crate::cli::clerk::{PrunedTrip, TripRead};
use crate::cli::command::quoted;
use crate::cli::logbook::name as name_of;
use crate::logbook::merge::{is_record, says_it_is_of};
use crate::logbook::order::Order;
use crate::logbook::{Copy, copy};
use crate::record::{Finding, Id, MAX_TRIP, Seal};
use crate::store::{Disk, Local, StoreFault, TripFolder};
use std::ffi::OsStr;

/// Something under a name that is none of ours.
pub(in crate::cli) struct Stray {
    /// What it amounts to.
    pub(in crate::cli) finding: Finding,
    /// What it is, as a sentence.
    pub(in crate::cli) what: String,
}

impl Stray {
    /// What is no device's or no trip's folder.
    pub(super) fn foreign(name: &OsStr, of: &str) -> Self {
        let name = name.to_string_lossy();
        Self {
            finding: Finding::Intact,
            what: format!("not looked at: {name}, which is no {of}'s folder"),
        }
    }

    /// What merges kept aside: it proves nothing, and takes nothing away.
    pub(super) fn aside(count: usize) -> Self {
        let lie = match count {
            1 => "1 file lies".to_owned(),
            many => format!("{many} files lie"),
        };
        Self {
            finding: Finding::Intact,
            what: format!("{lie} in quarantine/, each with its reason beside it"),
        }
    }

    /// What a crash leaves of a beginning.
    pub(super) fn never_begun(device: &Id, folder: &TripFolder) -> Self {
        let name = folder
            .path
            .file_name()
            .unwrap_or_default()
            .to_string_lossy();
        Self {
            finding: Finding::Intact,
            what: format!("{device}/{name} has no line: no walk was recorded in it"),
        }
    }

    /// What a prune that was cut off left, or a copy brought back: a manager said that it goes.
    pub(super) fn pruned(device: &Id, folder: &TripFolder, gone: &PrunedTrip<'_>) -> Self {
        let name = name_of(folder);
        let root = folder.path.ancestors().nth(4).unwrap_or(&folder.path);
        Self {
            finding: Finding::Intact,
            what: format!(
                "{device}/{name} is pruned, not finished: {gone}, and files of it lie here still; run \
                 hames logbook prune --logbook {} again",
                quoted(root)
            ),
        }
    }

    /// A folder beside trips. What is a trip for all that is held against the one of its number.
    pub(super) fn of_folder(
        device: &Id,
        name: &OsStr,
        read: Result<TripRead, StoreFault>,
        order: &mut Order<'_>,
    ) -> Self {
        let path = std::path::Path::new(device.as_str()).join(name);
        let Ok(read) = read else {
            return Self::foreign(path.as_os_str(), "trip");
        };
        let name = path.display();
        let Some(trip) = read.trip() else {
            let holds = Local.exists(&read.folder.journal()).unwrap_or(false);
            if !holds {
                return Self::foreign(path.as_os_str(), "trip");
            }
            let finding = read.finding();
            let faults = read.faults().join("; ");
            let what = format!("{name} holds a trip that is {finding}: {faults}");
            return Self { finding, what };
        };
        let (device, seq) = (&trip.begun().device, trip.begun().seq);
        let of = trip.begun().what();
        let (finding, what) = if !order.has(device, seq) {
            (
                Finding::Gap,
                format!(
                    "{name} holds {of} {seq} of {device}, which lies nowhere else; hames logbook merge takes it in"
                ),
            )
        } else if order.takes_as_known(trip) {
            (
                Finding::Intact,
                format!("{name} is a copy of {of} {seq} of {device}, judged by what is in it"),
            )
        } else {
            (
                Finding::Fork,
                format!("{name} holds another {of} {seq} of {device}"),
            )
        };
        Self { finding, what }
    }
}

/// The files beside a trip that are none of ours.
pub(super) fn beside(folder: &TripFolder, read: Option<&TripRead>, drill: bool) -> Vec<Stray> {
    let names = folder.strays(&Local).unwrap_or_default();
    if names.is_empty() {
        return Vec::new();
    }
    let file = |name: &str| Local.read(&folder.path.join(name), MAX_TRIP).ok();
    let files: Vec<_> = TripFolder::FILES
        .into_iter()
        .filter_map(|name| Some((name, file(name)?)))
        .collect();
    let files: Vec<_> = files
        .iter()
        .map(|(name, bytes)| (*name, bytes.as_slice()))
        .collect();
    let judge = |name: &OsStr| {
        let bytes = Local.read(&folder.path.join(name), MAX_TRIP);
        bytes.map_or(Copy::Foreign, |bytes| copy(&bytes, &files))
    };
    let trip = folder
        .path
        .file_name()
        .unwrap_or_default()
        .to_string_lossy();
    let is_whole = read.is_some_and(|read| read.trip().is_some());
    names
        .iter()
        .map(|name| {
            if let Some(stray) = renamed(folder, name, &files, drill) {
                return stray;
            }
            let copy = judge(name);
            let name = name.to_string_lossy();
            // Beside a record that is damaged, the copy may be the better one.
            let hint = if is_whole || copy == Copy::Foreign {
                ""
            } else {
                "; keep it, the record beside it is damaged"
            };
            Stray {
                finding: copy.finding(),
                what: format!("{trip}/{name} is {copy}{hint}"),
            }
        })
        .collect()
}

/// The trip's own journal or seal, where none lies under its own name: an editor renamed it, or a
/// copying tool.
fn renamed(
    folder: &TripFolder,
    name: &OsStr,
    files: &[(&str, &[u8])],
    drill: bool,
) -> Option<Stray> {
    let bytes = Local.read(&folder.path.join(name), MAX_TRIP).ok()?;
    let key = says_it_is_of(&bytes).filter(|_| is_record(&bytes))?;
    let (file, what) = match Seal::read(&bytes) {
        Ok(_) => ("seal.json", "seal"),
        Err(_) => ("trip.jsonl", "journal"),
    };
    let device = folder.path.ancestors().nth(2)?.file_name()?;
    let is_of_it = device == key.device.as_str()
        && folder.seq == key.seq
        && folder.begins_with_name_of(&key.trip);
    if !is_of_it || files.iter().any(|(name, _)| *name == file) {
        return None;
    }
    let trip = folder.path.file_name()?.to_string_lossy();
    let (name, root) = (name.to_string_lossy(), folder.path.ancestors().nth(4)?);
    // A merge leaves what lies beside drills where it is.
    let next = if drill {
        format!("give it its own name again: {file}")
    } else {
        format!(
            "to have it put back, run hames logbook merge {root} --logbook {root}",
            root = quoted(root)
        )
    };
    Some(Stray {
        finding: Finding::Gap,
        what: format!("{trip}/{name} is this trip's {what} under another name; {next}"),
    })
}
