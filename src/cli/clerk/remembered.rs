//! Which rig each trip is of, remembered from one start to the next, so that a long logbook need
//! not be read from its beginning to find the newest walks of a rig.
//!
//! It helps to choose what is read, and is never believed against the files: a journal whose size
//! or time is another one is looked into again, and what is then told of a trip is read and
//! verified anew. Damaged, foreign or gone, it is as if there had never been one.

use crate::cli::clerk::Books;
use crate::cli::clerk::walked::first_line;
use crate::store::{Disk, Logbook, Stamp, TripFolder};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The file.
const FILE: &str = "trips.json";

/// Which way of keeping it this is. Another one is as none.
const KEPT_AS: &str = "hames-trips/1";

/// So many trips looked into are worth a file; fewer are looked into as quickly.
const WORTH_KEEPING: usize = 50;

/// What is known of trips, by their folders.
#[derive(Debug, Deserialize, Serialize)]
pub(super) struct Remembered {
    kept_as: String,
    trips: BTreeMap<String, Known>,
    /// How many of them are not kept yet.
    #[serde(skip)]
    news: usize,
}

/// What one journal said when it had this size and time.
#[derive(Debug, Deserialize, Serialize)]
struct Known {
    rig: String,
    bytes: u64,
    changed: u64,
}

impl Remembered {
    /// What is kept in the logbook, or nothing.
    pub(super) fn of<D: Disk>(logbook: &Logbook<D>) -> Self {
        let kept = logbook.cached(FILE).and_then(|bytes| Self::read(&bytes));
        kept.unwrap_or_else(|| Self {
            kept_as: KEPT_AS.to_owned(),
            trips: BTreeMap::new(),
            news: 0,
        })
    }

    fn read(bytes: &[u8]) -> Option<Self> {
        let kept: Option<Self> = serde_json::from_slice(bytes).ok();
        kept.filter(|kept| kept.kept_as == KEPT_AS)
    }

    /// The rig a trip's first line names. Whether the line can be relied on is not looked at here.
    pub(super) fn rig_of<D: Disk>(
        &mut self,
        logbook: &Logbook<D>,
        folder: &TripFolder,
    ) -> Option<String> {
        let journal = folder.journal();
        let stamp = logbook.disk().stamp(&journal).ok()?;
        let name = folder.path.strip_prefix(logbook.root()).ok()?.to_str()?;
        if let Some(known) = self.trips.get(name).filter(|known| known.is(stamp)) {
            return Some(known.rig.clone());
        }
        let rig = first_line(logbook.disk(), &journal)?.rig.id;
        let known = Known {
            rig: rig.clone(),
            bytes: stamp.bytes,
            changed: stamp.changed,
        };
        self.trips.insert(name.to_owned(), known);
        self.news += 1;
        Some(rig)
    }

    /// Keeps it for the next start, where there is enough new in it. A disk that takes nothing
    /// makes the next start slower and nothing else.
    pub(super) fn keep<D: Disk>(&mut self, logbook: &Logbook<D>) {
        if self.news < WORTH_KEEPING {
            return;
        }
        if let Ok(bytes) = serde_json::to_vec(self) {
            drop(logbook.keep_cached(FILE, &bytes));
            self.news = 0;
        }
    }
}

impl<D: Disk> Books<D> {
    /// Whether something is kept to start quickly that this program cannot read.
    pub fn is_start_damaged(&self) -> bool {
        let kept = self.logbook.cached(FILE);
        kept.is_some_and(|bytes| Remembered::read(&bytes).is_none())
    }
}

impl Known {
    fn is(&self, stamp: Stamp) -> bool {
        self.bytes == stamp.bytes && self.changed == stamp.changed
    }
}
