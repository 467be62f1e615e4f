//! Where the approvals of checklists lie: `approved/<id>/<first letters of the hash>/`.

use crate::record::{Digest, Id};
use crate::store::whole::make_folders;
use crate::store::{Disk, Doing, Kind, Logbook, Mode, StoreFault, keep};
use std::path::PathBuf;

/// So many letters of a checklist's hash name its folder.
const HASH_LETTERS: usize = 16;

/// The folder of one approval.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct ApprovalFolder {
    /// The folder.
    pub path: PathBuf,
}

impl<D: Disk> Logbook<D> {
    /// The folder for an approval of these bytes.
    pub fn approval(&self, checklist: &Id, hash: &Digest) -> ApprovalFolder {
        let letters: String = hash.to_string().chars().take(HASH_LETTERS).collect();
        let path = self.approvals_of(checklist).join(letters);
        ApprovalFolder { path }
    }

    /// Every approval of checklists of this id, whatever each is worth.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn approvals(&self, checklist: &Id) -> Result<Vec<ApprovalFolder>, StoreFault> {
        let folder = self.approvals_of(checklist);
        let refused = || StoreFault::of(Doing::Read, &folder);
        if !self.disk().exists(&folder).map_err(refused())? {
            return Ok(Vec::new());
        }
        let entries = self.disk().list(&folder).map_err(refused())?;
        let folders = entries.into_iter().filter(|one| one.kind == Kind::Folder);
        let path = |name| ApprovalFolder {
            path: folder.join(name),
        };
        Ok(folders.map(|one| path(one.name)).collect())
    }

    /// Keeps a part of an approval, once and for all; one that is there stays.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn keep_approval(&self, path: &std::path::Path, bytes: &[u8]) -> Result<(), StoreFault> {
        if let Some(folder) = path.parent() {
            make_folders(self.disk(), folder, Mode::Shared)?;
        }
        keep(self.disk(), path, bytes, Mode::Shared)
    }

    fn approvals_of(&self, checklist: &Id) -> PathBuf {
        self.root().join("approved").join(checklist.as_str())
    }
}

impl ApprovalFolder {
    /// The checklist put together, to the byte.
    pub fn checklist(&self) -> PathBuf {
        self.path.join("checklist.yaml")
    }

    /// Who approved it, and when.
    pub fn approval(&self) -> PathBuf {
        self.path.join("approval.json")
    }

    /// The manager's signature of that.
    pub fn signature(&self) -> PathBuf {
        self.path.join("approval.sig")
    }
}
