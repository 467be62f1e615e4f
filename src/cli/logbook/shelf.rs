//! The trips below the folders somebody names: whole logbooks, or single trips.

use crate::cli::Status;
use crate::cli::clerk::{Books, Plans, TripRead, Trouble, Trust, read_trip};
use crate::cli::lot::Stopped;
use crate::record::{Id, Statements};
use crate::store::{Disk, Local, StoreFault, TripFolder};
use std::io;
use std::path::{self, Path, PathBuf};
use std::rc::Rc;

/// Why nothing more could be told.
#[derive(Debug)]
pub(in crate::cli) enum Failed {
    /// What to say of it, and the status to end with.
    Said(Status, String),
    /// The output cannot be written.
    Output(io::Error),
}

/// One trip where it lies, not read yet.
#[derive(Clone, Debug)]
pub(in crate::cli) struct Kept {
    /// The folder.
    pub(in crate::cli) folder: TripFolder,
    /// The device it lies under, where it lies in a logbook that was named.
    device: Option<Id>,
    /// Whom it is judged by.
    trust: Rc<Trust>,
}

/// Every trip below these folders, in the order of folders, devices and trips. Nothing of a trip
/// is read yet, so that many take no room.
pub(in crate::cli) fn kept(places: &[PathBuf]) -> Result<Vec<Kept>, Failed> {
    let mut kept = Vec::new();
    for place in places {
        let is_there = |below: &str| Local.exists(&place.join(below)).unwrap_or(false);
        if is_there("trip.jsonl") || is_there("seal.json") {
            kept.push(alone(place));
        } else {
            let books = Books::open(&Local, place)?;
            let trust = Rc::new(books.trust.clone());
            kept.extend(books.trips()?.into_iter().map(|(device, folder)| Kept {
                folder,
                device: Some(device),
                trust: Rc::clone(&trust),
            }));
        }
    }
    Ok(kept)
}

/// One trip, by the crew of the logbook it lies in: `LOGBOOK/dev/DEVICE/t/TRIP`.
fn alone(place: &Path) -> Kept {
    let whole = path::absolute(place).unwrap_or_else(|_| place.to_owned());
    let books = whole
        .ancestors()
        .nth(4)
        .and_then(|root| Books::open(&Local, root).ok());
    Kept {
        folder: TripFolder {
            seq: 0,
            path: place.to_owned(),
        },
        device: None,
        trust: Rc::new(books.map(|books| books.trust).unwrap_or_default()),
    }
}

impl Kept {
    /// Reads and verifies it.
    pub(in crate::cli) fn read(&self, plans: &mut Plans) -> Result<TripRead, StoreFault> {
        let read = read_trip(&Local, &self.folder, &self.trust, plans)?;
        Ok(match &self.device {
            Some(device) => read.in_its_place(device),
            None => read,
        })
    }
}

/// What managers stated in the first of these that is a logbook; nothing where it cannot be read.
pub(in crate::cli) fn statements(places: &[PathBuf]) -> Statements {
    let mut books = places
        .iter()
        .filter_map(|place| Books::open(&Local, place).ok());
    let statements = books.next().and_then(|books| books.statements().ok());
    statements.unwrap_or_default()
}

/// The name of a trip's folder, fit to print.
pub(in crate::cli) fn name(folder: &TripFolder) -> String {
    shown(&folder.path)
}

/// The last name of a path, fit to print.
pub(in crate::cli) fn shown(path: &Path) -> String {
    let name = path.file_name().unwrap_or_default();
    name.to_string_lossy().escape_debug().to_string()
}

impl From<StoreFault> for Failed {
    fn from(fault: StoreFault) -> Self {
        Self::Said(Status::Store, fault.to_string())
    }
}

impl From<Trouble> for Failed {
    fn from(trouble: Trouble) -> Self {
        Self::Said(Status::Store, trouble.to_string())
    }
}

impl From<Stopped> for Failed {
    fn from(Stopped(status, sentence): Stopped) -> Self {
        Self::Said(status, sentence)
    }
}

impl From<io::Error> for Failed {
    fn from(error: io::Error) -> Self {
        Self::Output(error)
    }
}
