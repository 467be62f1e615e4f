//! Which rigs and checklists were walked here: a file named by its path is kept nowhere else.

use crate::cli::clerk::Books;
use crate::record::{Begun, Envelope, MAX_TRIP, Said, said};
use crate::store::{Disk, StoreFault};
use std::collections::BTreeSet;
use std::path::Path;

/// The ids that trips name.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct WalkedHere {
    /// Of rigs.
    pub rigs: BTreeSet<String>,
    /// Of checklists.
    pub checklists: BTreeSet<String>,
}

impl<D: Disk> Books<D> {
    /// What the first lines of the trips name. Whether they can be relied on is not looked at.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn walked(&self) -> Result<WalkedHere, StoreFault> {
        let mut walked = WalkedHere::default();
        for (_, folder) in self.folders()? {
            if let Some(begun) = first_line(self.logbook.disk(), &folder.journal()) {
                walked.rigs.insert(begun.rig.id);
                walked.checklists.insert(begun.checklist.id);
            }
        }
        Ok(walked)
    }
}

/// What a journal says first, where it can be read. Whether it can be relied on is not looked at.
pub(super) fn first_line<D: Disk>(disk: &D, journal: &Path) -> Option<Begun> {
    let bytes = disk.read(journal, MAX_TRIP).ok()?;
    let first = bytes.split(|byte| *byte == b'\n').next()?;
    match said(&Envelope::read(first).ok()?).ok()? {
        Said::Begun(begun) => Some(*begun),
        Said::Happened(_) | Said::Drilled(_) => None,
    }
}
