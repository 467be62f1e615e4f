//! The drills of the people of a logbook: in a tree of their own, judged by the same crew files, and
//! nobody states anything of them but whose keys count.

use crate::cli::lot::{Lot, Shelf};
use crate::record::{MAX_TRIP, Statements};
use crate::store::{DRILLS, Disk, Local};
use std::path::{Path, PathBuf};

/// The logbook whose drills lie in this folder, where that is what it holds.
pub(super) fn logbook_of(folder: &Path) -> Option<PathBuf> {
    let place = Local::place(folder);
    let above = place.parent()?;
    let is_there = |path: PathBuf| Local.exists(&path).unwrap_or(false);
    // A logbook may be called so itself; then it has a crew of its own.
    let holds = place.ends_with(DRILLS)
        && is_there(place.join("dev"))
        && !is_there(place.join("crew"))
        && is_there(above.join("crew"))
        && is_there(above.join("dev"));
    holds.then(|| above.to_owned())
}

/// The same of the folder of one drill, wherever a link to it lies: `LOGBOOK/drill/dev/DEVICE/t/DRILL`.
pub(super) fn logbook_above(trip: &Path) -> Option<PathBuf> {
    logbook_of(Local::place(trip).ancestors().nth(4)?)
}

/// Whether the record in this folder says of itself that it is a drill, as far as it can be read:
/// line 0 of no other trip is of version 3.
pub(super) fn says_it_is_one(trip: &Path) -> bool {
    let journal = Local.read(&trip.join("trip.jsonl"), MAX_TRIP);
    journal.is_ok_and(|journal| journal.starts_with(b"{\"v\":3,"))
}

impl Shelf {
    /// The drills of the same people.
    pub(super) fn drills(self) -> Self {
        Self {
            logbook: self.logbook.drills(),
            ..self
        }
    }

    /// Whether any drill was ever begun here.
    pub(super) fn has_drills(&self) -> bool {
        let devices = self.logbook.root().join(DRILLS).join("dev");
        Local.exists(&devices).unwrap_or(true)
    }
}

impl Lot {
    /// The same as drills. What managers stated says by whose keys they count, and nothing of their
    /// order; what is wrong with it is told with the trips.
    pub(super) fn of_drills(self) -> Self {
        Self {
            trust: self.trust.of_drills(),
            statements: Statements::default(),
            odd: Vec::new(),
            drills: true,
            ..self
        }
    }
}
